"""A working in plain text, for a terminal."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from textwrap import wrap

from .words import fixed, quantity
from .working import Net, Worked, Working

WIDE = 96
STATES = {
    "settled": "settled, fully plugged",
    "plugging": "while plugging",
    "signal": "with signal, fully plugged",
}
NATURE = {
    "direct": "",
    "instant": "; the first instant, large capacitors hold their voltage",
    "signal": "",
    "test": "; all sources quiet, a test current instead",
}


def told(working: Working) -> str:
    """The working in paragraphs: the case, the nets, the parts, the sum of currents, the
    number and its limit."""
    return "\n".join(line for block in _blocks(working) for line in block)


def _blocks(w: Working) -> Iterator[list[str]]:
    yield [f"WORKING  {w.finding or 'how the signal arrives'}", *_filled(w.says, "  ")]
    if w.nature == "rule":
        yield _filled(w.note, "  ")
    else:
        yield ["  The case", *_listed(_case(w))]
        yield ["  Nets", *_listed(_net(net) for net in w.nets)]
        yield [
            "  Parts that matter" + (f" ({w.left_out} more left out)" if w.left_out else ""),
            *_listed(_part(w, part) for part in w.parts),
        ]
        if w.equation:
            yield ["  Currents", *_listed([w.equation.says])]
        if w.note:
            yield _listed([w.note])
    yield ["  The number", *_listed(number_words(w))]


def _case(w: Working) -> Iterator[str]:
    yield f"plugged: {w.way}"
    supplies = ", ".join(f"{name} {state}" for name, state in w.setting.items())
    yield f"supplies: {supplies}" if supplies else "supplies: none that matters"
    yield f"state: {STATES.get(w.state, w.state)}{NATURE[w.nature]}"
    yield f"tolerances: {w.corner}"
    if w.nature == "signal":
        yield f"source: {w.source}, {quantity(w.level, 'V')} open-circuit at {hertz(w.hertz)}"
    yield f"contacts: {'; '.join(w.touching) or 'none meet'}"


def hertz(value: float) -> str:
    """`1 kHz`."""
    return quantity(value, "Hz")


def _net(net: Net) -> str:
    volts = "0 V, the reference" if net.zero else quantity(net.volts, "V")
    gains = [quantity(gain, "V") for gain in net.gains if not net.zero]
    if len(set(gains)) == 1:
        volts += f" (for 1 V: {gains[0]} at 20 Hz, 1 kHz and 20 kHz)"
    elif gains:
        volts += f" (for 1 V: {gains[0]} at 20 Hz, {gains[1]} at 1 kHz, {gains[2]} at 20 kHz)"
    return f"{net.name}: {volts}, joins {', '.join(net.nodes)}"


def _part(w: Working, part: Worked) -> str:
    where = (
        f"{part.name}{f' of {part.owner}' if part.owner else ''}{f', {part.value}' if part.value else ''}, "
        f"{part.a} to {part.b}"
    )
    current = "" if part.kind == "meter" and w.nature != "test" else f", {quantity(abs(part.amps), 'A')}"
    return f"{'> ' if part.decides else ''}{where}: {quantity(part.volts, 'V')}{current}"


def number_words(w: Working) -> Iterator[str]:
    """The terms, the number against its limit, and where the limit comes from; a line each."""
    for term in w.terms:
        yield f"{term.words}: {quantity(term.value, term.unit)}"
    if w.quantity == "polarity":
        yield (
            f"in step with the source (+1) or upside down (−1): {fixed(w.value, 3)}; limit "
            f"{fixed(w.limit, 0)}"
        )
    elif w.quantity:
        limit = (
            ""
            if w.limit is None
            else (
                f"; {'no more' if w.compare == 'above' else 'no less'} than {quantity(w.limit, w.unit)} is "
                "wanted"
            )
        )
        yield f"{quantity(w.value, w.unit)}{limit}"
    if w.limit_from:
        yield f"limit: {w.limit_from} ({w.evidence}{'; ' + '; '.join(w.titles) if w.titles else ''})"


def _listed(lines: Iterable[str]) -> list[str]:
    return [line for words in lines for line in _filled(words, "    ")]


def _filled(words: str, indent: str) -> list[str]:
    return wrap(words, WIDE, initial_indent=indent, subsequent_indent=indent + "  ")
