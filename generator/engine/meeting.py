"""What a person would see at a joint at one moment of plugging: which contacts touch that do not belong
together, or which do not touch yet."""

from __future__ import annotations

from .assemble import Assembly


def meeting(assembly: Assembly, number: int) -> str:
    """`the plug's tip on the jack's ring and sleeve`, `2 and 3 not made yet` or `one half still out`, for
    plugging state `number`."""
    k = assembly.plugging_at[number]
    interface = assembly.interfaces[k]
    now = {
        touch
        for (at, touch), closed in zip(assembly.touches, assembly.plugging[number])
        if at == k and closed
    }
    if not now:
        return "one half still out"
    strange = now - set().union(*interface.mating.home)
    if strange:
        pairs = sorted(touch[::-1] if interface.plug_last else touch for touch in strange)
        return " and ".join(
            f"the plug's {plug} on the jack's {' and '.join(jack for other, jack in pairs if other == plug)}"
            for plug in dict.fromkeys(plug for plug, _ in pairs)
        )
    late = min((sorted(a for a, _ in home - now) for home in interface.mating.home), key=len)
    return f"{' and '.join(late)} not made yet" if late else "a contact landing late"
