"""What matters for one number: the parts it hangs on, the loops they close, and nothing else.

The weight of a part is how much the number changes when the part's current is scaled: its current times the
voltage that a unit test signal, put in where the number is measured, makes across it (a network of these
parts answers alike both ways round). What cables and closed contacts drop is left out where it does not show.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from heapq import heappop, heappush

import numpy as np

from generator.catalogue.records import Quantity

from .cases import Case
from .circuit import BRANCHED, DIRECT_OPENS, SIGNAL_OPENS, rebuilt
from .constants import CONTACT_OHM, DRAWN_PARTS, DRAWN_SHARE, FAINT, LEFT_OUT, WEIGHT_DIGITS, WIRE_DROP
from .currents import most_at
from .solve import closed_array, solve_ac


@dataclass(frozen=True)
class Element:
    """A part, a closed contact (kind contact) or the meter that reads the number (kind meter). `a`, `b`
    are nets after merging; `volts` a over b, `amps` from a to b, complex for signal; `part` is its
    number in the circuit."""

    id: str
    kind: str
    a: int
    b: int
    volts: complex
    amps: complex
    weight: float = 0.0
    decides: bool = False
    part: int | None = None


@dataclass(frozen=True)
class Relevant:
    """`merged` maps each net of the circuit to the net it is drawn as; `zeros` are those taken as 0 V; `at`
    is the net whose currents are added."""

    merged: tuple[int, ...]
    elements: tuple[Element, ...]
    kept: tuple[Element, ...]
    zeros: frozenset[int]
    at: int


def relevant(case: Case, conductors: frozenset[str]) -> Relevant:
    """Choose. `conductors` are the ids of parts that are nothing but wire of a lead."""
    raw = _elements(case)
    largest = max((abs(e.volts) for e in raw), default=0.0)
    merged = _merge(
        case.circuit.net_count,
        [
            (e.a, e.b)
            for e in raw
            if (e.kind == "contact" or e.id in conductors)
            and not e.decides
            and abs(e.volts) <= WIRE_DROP * largest
        ],
    )
    weights = _weights(case, raw)
    elements = [
        replace(e, a=merged[e.a], b=merged[e.b], weight=w)
        for e, w in zip(raw, weights)
        if e.decides or merged[e.a] != merged[e.b]
    ]
    opens = SIGNAL_OPENS if case.nature in ("signal", "test") else DIRECT_OPENS
    zeros = frozenset(merged[net] for net in case.circuit.islands(case.closed, opens))
    deciding = [e for e in elements if e.decides]
    heaviest = max(1.0, max((e.weight for e in elements), default=0.0))
    heavy = [e for e in elements if not e.decides and e.weight >= DRAWN_SHARE * heaviest and e.a != e.b]
    chosen = sorted(heavy, key=lambda e: -round(e.weight / heaviest, WEIGHT_DIGITS))[:DRAWN_PARTS]
    open_test = case.nature == "test" and not case.level
    kept = deciding if open_test else _closed(elements, [*deciding, *chosen], opens)
    order = {e.id: i for i, e in enumerate(elements)}
    kept.sort(key=lambda e: order[e.id])
    touching = lambda net: sum(net in (e.a, e.b) for e in kept)
    ends = [net for e in deciding for net in (e.a, e.b)]
    at = max(ends, key=lambda net: (net not in zeros, touching(net)))
    return Relevant(tuple(merged), tuple(elements), tuple(kept), zeros, at)


def _elements(case: Case) -> list[Element]:
    circuit, x = case.circuit, case.unknowns
    found = [
        Element(part.id, part.kind, a, b, x[a] - x[b], case.amps[i], decides=part.id == case.decides, part=i)
        for i, (part, (a, b)) in enumerate(zip(circuit.parts, circuit.ends))
    ]
    for k, ((a, b), shut) in enumerate(zip(circuit.switches, case.closed)):
        if shut and a != b:
            found.append(Element(f"contact{k}", "contact", a, b, x[a] - x[b], (x[a] - x[b]) / CONTACT_OHM))
    if isinstance(case.decides, tuple):
        a, b = (circuit.nets[node] for node in case.decides)
        tester = case.level if case.nature == "test" else 0.0
        found.append(Element("meter", "meter", a, b, x[a] - x[b], -tester, decides=True))
    return found


def _merge(count: int, pairs: Sequence[tuple[int, int]]) -> list[int]:
    found = list(range(count))
    for a, b in pairs:
        low, high = sorted((found[a], found[b]))
        found = [low if net == high else net for net in found]
    return found


def _weights(case: Case, elements: Sequence[Element]) -> list[float]:
    """How much the number hangs on each element, as a share of it; where the number is nothing, how much each
    is part of either side."""
    test = _test(case, elements)
    deciding = next(e for e in elements if e.decides)
    size = abs(deciding.amps) if deciding.kind in BRANCHED else abs(deciding.volts)
    lively = max((abs(e.amps * e.volts) for e in elements), default=0.0)
    lively = lively if lively > FAINT**2 else 1.0
    if size <= FAINT * max(1e-3, case.level if case.nature != "direct" else 1.0):
        answer = max(
            (abs(test[0][e.a] - test[0][e.b]) ** 2 * _siemens(case, e) for e in elements), default=0.0
        )
        answer = answer if answer > FAINT**2 else 1.0  # nothing but rounding answers
        return [
            max(
                abs(e.amps * e.volts) / lively,
                abs(test[0][e.a] - test[0][e.b]) ** 2 * _siemens(case, e) / answer,
            )
            for e in elements
        ]
    return [
        abs(e.volts * test[1][e.id] if e.kind == "emf" else e.amps * (test[0][e.a] - test[0][e.b])) / size
        for e in elements
    ]


def _siemens(case: Case, element: Element) -> float:
    if element.kind == "resistor":
        return 1 / float(case.values[element.part])
    return 1 / CONTACT_OHM if element.kind == "contact" else 0.0


def _test(case: Case, elements: Sequence[Element]) -> tuple[np.ndarray, dict[str, complex]]:
    """Net voltages and emf currents that a unit test signal makes, put in where the number is measured; bends
    are replaced by their slopes."""
    circuit, moved = case.circuit, []
    for e in elements:
        if e.part is None:
            continue
        part, value = circuit.parts[e.part], float(case.values[e.part])
        if case.nature not in ("signal", "test") and part.kind in ("sink", "clamp"):
            steep = e.volts.real <= part.knee if part.kind == "sink" else e.volts.real > value
            ohm = part.knee / value if part.kind == "sink" and value else part.series
            if not steep or not ohm:
                continue
            part, value = replace(part, kind="resistor", value=Quantity(ohm, ohm, ohm, "ohm", "")), ohm
        elif part.kind == "capacitor" and case.nature not in ("signal", "test"):
            continue
        moved.append((part, e.a, e.b, value))
    lean = rebuilt(circuit, [(part, a, b) for part, a, b, _ in moved])
    deciding = next(e for e in elements if e.decides)
    name = lambda net: f"net{net}"
    if deciding.id in lean.branches:
        drive = {deciding.id: 1.0}
    elif deciding.a != deciding.b and name(deciding.a) in lean.nets and name(deciding.b) in lean.nets:
        drive = {(name(deciding.a), name(deciding.b)): -1.0}
    else:
        return np.zeros(circuit.net_count), dict.fromkeys((e.id for e in elements), 0.0)
    closed = closed_array([case.closed], len(circuit.switches))
    values = np.array([[value for *_, value in moved]])
    found = solve_ac(lean, values, [case.hertz or 0.0], closed, [drive])[0, 0, 0, 0]
    volts = np.array(
        [found[lean.nets[name(net)]] if name(net) in lean.nets else 0.0 for net in range(circuit.net_count)]
    )
    return volts, {part: found[at] for part, at in lean.branches.items()}


def _closed(elements: Sequence[Element], chosen: Sequence[Element], opens: Sequence[str]) -> list[Element]:
    """The chosen elements with the shortest way on from every net that would end in the air; what has no way
    on really ends there."""
    kept = list(chosen)
    _supplied(elements, kept)
    given_up: set[int] = set()
    strongest = max((abs(e.amps) for e in elements if e.kind != "contact"), default=0.0)
    strongest = strongest if strongest > FAINT else 0.0
    while True:
        counts: dict[int, int] = {}
        for e in kept:
            for net in {e.a, e.b}:
                counts[net] = counts.get(net, 0) + 1
        loose = next((net for net, count in counts.items() if count == 1 and net not in given_up), None)
        if loose is None:
            return kept
        way = _way(elements, {e.id for e in kept}, loose, set(counts) - {loose}, opens, strongest)
        if way:
            kept += way
        else:
            given_up.add(loose)


def _supplied(elements: Sequence[Element], kept: list[Element]) -> None:
    """Add, at nets where most of the current would come from nowhere, the part that brings it."""
    while len(kept) < 2 * DRAWN_PARTS:
        for net in dict.fromkeys(net for e in kept for net in (e.a, e.b)):
            here = [e for e in elements if net in (e.a, e.b) and e.a != e.b]
            shown = [e for e in here if any(e is other for other in kept)]
            missing = [e for e in here if not any(e is other for other in kept)]
            largest = max((abs(e.amps) for e in shown), default=0.0)
            if (
                missing
                and largest > FAINT
                and abs(sum(e.amps if e.a == net else -e.amps for e in shown)) > LEFT_OUT * largest
            ):
                kept.append(missing[most_at(np.array([abs(e.amps) for e in missing]))[0]])
                break
        else:
            return


def _way(
    elements: Sequence[Element],
    taken: set[str],
    start: int,
    goals: set[int],
    opens: Sequence[str],
    strongest: float,
) -> list[Element]:
    """The shortest way through elements not taken yet, along those that carry current if there are any."""
    queue: list[tuple[float, int, int, tuple[Element, ...]]] = [(0.0, 0, start, ())]
    seen: set[int] = set()
    pushed = 0
    while queue:
        far, _, net, way = heappop(queue)
        if net in goals:
            return list(way)
        if net in seen:
            continue
        seen.add(net)
        for e in elements:
            if net in (e.a, e.b) and e.a != e.b and e.id not in taken and e.kind not in (*opens, "meter"):
                pushed += 1
                step = 1.0 if strongest and abs(e.amps) >= DRAWN_SHARE * strongest else 4.0
                heappush(queue, (far + step, pushed, e.b if net == e.a else e.a, (*way, e)))
    return []
