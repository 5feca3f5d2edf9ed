"""One case of a circuit as an ngspice netlist: anyone can take a connection to a general-purpose simulator
and see the same numbers."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from math import isnan

from .circuit import DIRECT_OPENS, SIGNAL_OPENS, Circuit
from .constants import CONTACT_OHM, LEAK, OPEN_OHM

# The last bit of 48 V across a closed contact is 1e-12 A: held to less, ngspice goes on past the answer it
# has found, to wrong ones.
TOLERANCES = ".options reltol=1e-9 abstol=1e-12 vntol=1e-12 gmin=1e-15"


def netlist(
    circuit: Circuit,
    values: Sequence[float],
    closed: Sequence[bool],
    drive: Mapping | None = None,
    hertz: Sequence[float] = (),
    title: str = "one case of a connection",
) -> str:
    """The text of a netlist: direct current (`.op`) without a `drive`, else alternating current
    (`.ac`) at each of `hertz`.

    `values` (parts,) in ohm, F, H, V, A as solve_dc and solve_ac take them for one drive or corner; `closed`
    (switches,) is one switch state; `drive` is what solve_ac takes. Net k is node `nk`; part i is the element
    that ends in `i`, so the current of an emf from a to b inside it is `i(vI)`. Capacitors are open for
    direct current; sinks and clamps carry no alternating current. Raises nothing of its own.
    """
    signal = drive is not None
    lines = [f"* {title}", *_legend(circuit)]
    for i, part in enumerate(circuit.parts):
        lines += [f"{line} ; {part.id}" for line in _element(circuit, i, values[i], drive)]
    index = circuit.index
    if signal:
        lines += [
            f"K{k} L{index[c.first]} L{index[c.second]} {c.k!r}" for k, c in enumerate(circuit.couplings)
        ]
        pairs = [(pair, amps) for pair, amps in drive.items() if isinstance(pair, tuple)]
        lines += [
            f"Iprobe{k} n{circuit.nets[a]} n{circuit.nets[b]} dc 0 ac {amps!r}"
            for k, ((a, b), amps) in enumerate(pairs)
        ]
    lines += [
        f"Rcontact{k} n{a} n{b} {CONTACT_OHM!r}"
        for k, ((a, b), shut) in enumerate(zip(circuit.switches, closed))
        if shut
    ]
    # The engine ties the 0 V of every connected piece to ground with 1 siemens; what is not tied to anything
    # would have no solution.
    lines += [
        f"Rzero{net} n{net} 0 1" for net in circuit.islands(closed, SIGNAL_OPENS if signal else DIRECT_OPENS)
    ]
    # An operating point before .ac would not exist where capacitors alone hold a net.
    lines += [f"{TOLERANCES} noopac" if signal else TOLERANCES]
    lines += [f".ac lin 1 {f!r} {f!r}" for f in hertz] if signal else [".op"]
    return "\n".join([*lines, ".end", ""])


def _legend(circuit: Circuit) -> Iterator[str]:
    names: dict[int, list[str]] = {}
    for name, net in circuit.nets.items():
        names.setdefault(net, []).append(name)
    yield from (f"* n{net} = {' = '.join(joined)}" for net, joined in sorted(names.items()))


def _element(circuit: Circuit, i: int, value: float, drive: Mapping | None) -> Iterator[str]:
    """The element of one part, if it has one in this analysis."""
    part, (a, b) = circuit.parts[i], circuit.ends[i]
    nodes, value = f"n{a} n{b}", float(value)
    if part.kind in ("resistor", "capacitor", "inductor"):
        # By Kirchhoff nothing can push direct current round a winding shorted on itself.
        if a != b or drive is not None:
            yield f"{part.kind[0].upper().replace('I', 'L')}{i} {nodes} {value!r}"
    elif part.kind == "emf" and drive is None and isnan(value):  # disconnected: what is left is a leak
        yield f"V{i} n{a} open{i} 0"
        yield f"Ropen{i} open{i} n{b} {OPEN_OHM!r}"
    elif part.kind == "emf":
        yield (
            f"V{i} {nodes} {value!r}"
            if drive is None
            else f"V{i} {nodes} dc 0 ac {float(drive.get(part.id, 0.0))!r}"
        )
    elif drive is not None:
        if part.id in drive:
            yield f"I{i} {nodes} dc 0 ac {float(drive[part.id])!r}"
    else:
        law = (
            f"{value!r}*min(1,{{v}}/{float(part.knee)!r})"
            if part.kind == "sink"
            else f"max(0,({{v}}-{value!r})/{float(part.series)!r})"
        )
        yield f"B{i} {nodes} i={law.format(v=f'v(n{a},n{b})')}"
        yield f"Rleak{i} {nodes} {1 / LEAK!r}"  # where the curve is flat, as in the engine
