"""A circuit on the test bench: written down part by part, solved by the engine, read with a meter."""

from __future__ import annotations

import numpy as np

from generator.catalogue.quantity import parse
from generator.catalogue.records import Coupling, Part
from generator.engine.circuit import Circuit, build, value_at
from generator.engine.solve import Solution, closed_array, part_amps, solve_ac, solve_dc

EXTRAS = {"sink": "knee", "clamp": "series"}


def part(line: str) -> Part:
    """`R1 resistor a b 6.81 kohm`: id, kind, the two nodes, value. A sink adds `knee 10 V`, a
    clamp `series 20 ohm`."""
    name, kind, a, b, *value = line.split(maxsplit=4)
    text, _, extra = (
        value[0].partition(f" {EXTRAS[kind]} ") if kind in EXTRAS else (value[0] if value else "", "", "")
    )
    return Part(
        name,
        kind,
        a,
        b,
        parse(text) if text else None,
        **({EXTRAS[kind]: parse(extra).nominal} if extra else {}),
    )


def circuit(*lines: str, couplings=(), switches=(), anchors=("0",)) -> Circuit:
    """The circuit of some lines; couplings are (first, second, k), switches pairs of nodes. Node 0 is its 0
    V where there is one."""
    parts = [part(line) for line in lines]
    nodes = {node for p in parts for node in (p.a, p.b)}
    return build(parts, [Coupling(*c) for c in couplings], switches, [a for a in anchors if a in nodes])


def nominal(of: Circuit) -> np.ndarray:
    """Nominal values, (1, parts)."""
    return np.array([[value_at(p, "nominal") for p in of.parts]])


def direct(of: Circuit, *states) -> Solution:
    """Direct current in the given switch states; all switches closed when none is given."""
    return solve_dc(of, nominal(of), closed_array(states or [[True] * len(of.switches)], len(of.switches)))


def volts(of: Circuit, a: str, b: str = "0") -> float:
    """Direct voltage of a over b, V."""
    return float(direct(of).volts(a, b)[0, 0])


def amps(of: Circuit, name: str) -> float:
    """Direct current through a part from a to b, A."""
    index = next(i for i, p in enumerate(of.parts) if p.id == name)
    return float(part_amps(direct(of), index)[0, 0])


def signal(of: Circuit, drive, a: str, b: str = "0", hertz: float = 1000.0) -> complex:
    """Alternating voltage of a over b, V, with all switches closed."""
    closed = closed_array([[True] * len(of.switches)], len(of.switches))
    found = solve_ac(of, nominal(of), [hertz], closed, [drive])[0, 0, 0, 0]
    return complex(found[of.nets[a]] - found[of.nets[b]])
