"""One case of the independent reader as an ngspice netlist, so that a third solver can speak."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from sums import EMPTIES, HELD, SEEP
from wiring import AIR, CONTACT, Wiring

TOLERANCES = ".options reltol=1e-9 abstol=1e-12 vntol=1e-12 gmin=1e-15"
LETTERS = {"resistor": "R", "capacitor": "C", "inductor": "L"}


def direct(
    wired: Wiring,
    values: Sequence[float],
    state: int,
    volts: Mapping[int, float],
    gone: set[int],
    held: Mapping[int, float],
) -> str:
    """Direct current: `volts` of supplies by piece, those in `gone` not there, capacitors leak but for
    those that hold `held` volts. Net k is `nk`."""
    lines = []
    for i, piece in enumerate(wired.pieces):
        kind, value, nodes = piece.part.kind, float(values[i]), f"n{piece.a} n{piece.b}"
        if kind == "resistor":
            lines.append(f"R{i} {nodes} {value!r}")
        elif kind == "emf" and i not in gone:
            lines.append(f"V{i} {nodes} {float(volts.get(i, 0.0))!r}")
        elif kind == "inductor" and piece.a != piece.b:
            lines.append(f"V{i} {nodes} 0")
        elif kind == "capacitor" and i in held:
            lines += [f"V{i} n{piece.a} held{i} {float(held[i])!r}", f"R{i} held{i} n{piece.b} {HELD!r}"]
        elif kind == "capacitor" and i in wired.large:
            lines.append(f"R{i} {nodes} {EMPTIES / value!r}")
        elif kind in ("sink", "clamp"):
            over = f"v(n{piece.a},n{piece.b})"
            law = (
                f"{value!r}*min(1,{over}/{piece.part.knee!r})"
                if kind == "sink"
                else clamp(over, value, piece.part.series)
            )
            lines.append(f"B{i} {nodes} i={law}")
    return _whole(wired, state, [*lines, ".op"], TOLERANCES)


def clamp(over: str, value: float, series: float) -> str:
    """The current of a clamp, which leaks below its value."""
    return f"max(0,({over}-{value!r})/{series!r})+{SEEP!r}*min({over},{value!r})"


def alternating(
    wired: Wiring, values: Sequence[float], state: int, drive: Mapping[int, float], hertz: float
) -> str:
    """What `drive` (V, or A of a sink, by piece) does at one frequency; sinks and clamps are open."""
    lines = []
    for i, piece in enumerate(wired.pieces):
        kind, value, nodes = piece.part.kind, float(values[i]), f"n{piece.a} n{piece.b}"
        if kind in ("resistor", "capacitor", "inductor"):
            lines.append(f"{LETTERS[kind]}{i} {nodes} {value!r}")
        elif kind == "emf":
            lines.append(f"V{i} {nodes} dc 0 ac {float(drive.get(i, 0.0))!r}")
        elif i in drive:
            lines.append(f"I{i} {nodes} dc 0 ac {float(drive[i])!r}")
    lines += [f"K{k} L{one} L{other} {factor!r}" for k, (one, other, factor) in enumerate(wired.couplings)]
    return _whole(wired, state, [*lines, f".ac lin 1 {hertz!r} {hertz!r}"], f"{TOLERANCES} noopac")


def _whole(wired: Wiring, state: int, lines: Sequence[str], options: str) -> str:
    shut = [pair for pair, closed in zip(wired.contacts, wired.closed[state]) if closed]
    contacts = [f"Rcontact{k} n{a} n{b} {CONTACT!r}" for k, (a, b) in enumerate(shut) if a != b]
    air = [f"Rair{net} n{net} 0 {1 / AIR!r}" for net in range(wired.nets)]
    return "\n".join(["* a case of the reader", *lines[:-1], *contacts, *air, options, lines[-1], ".end", ""])
