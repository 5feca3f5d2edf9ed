"""Find again the case that gave a direct-current reading: which corner, landing or step of plugging was the worst."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from generator.catalogue.records import Limit

from .assemble import Assembly
from .cases import TEST_AMPS, Case, direct_case, probe_case
from .circuit import resistive
from .direct import corners, held_against, limit_values, part_index, settings, solve_settings
from .discharge import instants, settling, struck_amps
from .readings import Reading
from .signal import solve_signals
from .loud_cases import loud_case
from .solve import Solution, most_at, part_amps

NEAR = 1e-9  # two ways to the same number differ by rounding only


def states_of(assembly: Assembly) -> list[tuple[bool, ...]]:
    """The states of solve_settings, in its order."""
    return [*assembly.home, *assembly.joined, *assembly.plugging]


def _solved(assembly: Assembly, reading: Reading) -> Solution:
    """The drives of one setting, solved beside all others as the reading was: what is nothing but rounding must round alike."""
    points = len(corners(assembly.circuit))
    return solve_settings(assembly, settings(assembly.ports)).drives(slice(reading.setting * points, (reading.setting + 1) * points))


def _case(assembly: Assembly, solution: Solution, at: Sequence[int], decides, number: float, terms: Sequence = ()) -> Case:
    drive, state = at
    return direct_case(solution, drive, state, states_of(assembly)[state], corners(assembly.circuit)[drive], decides, number, terms)


def _span(assembly: Assembly, state: str) -> slice:
    settled = len(assembly.home) + len(assembly.joined)
    return slice(0, settled) if state == "settled" else slice(settled, None)


def _worst(values: np.ndarray, offset: int = 0) -> tuple[int, int]:
    drive, state = most_at(values)
    return drive, state + offset


def _subject(reading: Reading) -> tuple[str, str]:
    return tuple(reading.subject.split("/", 1))


def stressed(assembly: Assembly, reading: Reading) -> Case:
    """The worst case of a rated (or unrated) part: direct current and signal at its loudest together, or the first instant of plugging."""
    place, name = _subject(reading)
    limit = next(limit for limit in assembly.places[place].network.limits if limit.id == name)
    solution, span = _solved(assembly, reading), _span(assembly, reading.state)
    direct = held_against(limit, limit_values(solution, place, limit))[:, span]
    at = _worst(direct, span.start)
    most = float(direct.max())
    signal = solve_signals(assembly).peaks.get((place, limit.id, reading.state), 0.0)
    if abs(most + signal - reading.value) > NEAR * max(1.0, abs(reading.value)):
        return _struck_winding(assembly, reading, place, limit)
    loudest = "all signals at their loudest" + (", peak" if reading.unit != "W" else "")
    terms = [("direct current", most, reading.unit), (loudest, signal, reading.unit)]
    decides = f"{place}/{limit.part}" if limit.part else tuple(f"{place}/{node}" for node in limit.between)
    if signal > most:
        return loud_case(assembly, place, limit, reading.state, decides, most + signal, terms)
    return _case(assembly, solution, at, decides, most + signal, terms if signal else ())


def _struck_winding(assembly: Assembly, reading: Reading, place: str, limit: Limit) -> Case:
    part = f"{place}/{limit.part}"
    _, charges, *struck = next(instant for instant in instants(assembly) if instant[0] == reading.setting)
    solution = max(struck, key=lambda each: float(struck_amps(each, part).max()))
    return _instant(assembly, solution, part, 0, charges)


def discharged(assembly: Assembly, reading: Reading) -> Case:
    """A charged capacitor at the instant a contact closes on it."""
    _, charges, _, emptying = next(instant for instant in instants(assembly) if instant[0] == reading.setting)
    return _instant(assembly, emptying, reading.subject, len(assembly.home), {reading.subject: charges[reading.subject]})


def _instant(assembly: Assembly, struck: Solution, part: str, first: int, charges) -> Case:
    amps = struck_amps(struck, part)[first:]
    state = first + most_at(amps)[0]
    closed = [*assembly.home, *assembly.plugging][state]
    terms = [(f"{name} charged to", volts, "V") for name, volts in charges.items()]
    return direct_case(struck, 0, state, closed, "nominal", part, float(amps[state - first]), terms, "instant", assembly.circuit)


def settles(assembly: Assembly, reading: Reading) -> Case | None:
    """None where it never does. The resistance a capacitor fills through, from a test current; five time constants."""
    _, charges, *_ = next(instant for instant in instants(assembly) if instant[0] == reading.setting)
    seconds = settling(assembly, charges)
    name = next((name for name, taken in seconds.items() if abs(taken - reading.value) <= NEAR * reading.value), None)
    if name is None:
        return None
    circuit, lean = assembly.circuit, resistive(assembly.circuit)
    index = circuit.index[name]
    nodes = tuple(f"net{net}" for net in circuit.ends[index])
    values, farads = np.array([part.value.nominal for part in lean.parts]), circuit.parts[index].value.nominal
    terms = [("capacitance", farads, "F"), ("resistance it sees", seconds[name] / 5 / farads, "ohm"), ("charge", charges[name], "V")]
    return probe_case(lean, circuit, values, assembly.home[0], nodes, TEST_AMPS, seconds[name], terms)


def supplied(assembly: Assembly, reading: Reading) -> Case:
    """The least volts left at what has to be powered."""
    place, name = _subject(reading)
    need = next(need for need in assembly.places[place].needs if need.id == name)
    solution, nodes = _solved(assembly, reading), tuple(f"{place}/{node}" for node in need.between)
    volts = solution.volts(*nodes)[:, :len(assembly.home)]
    return _case(assembly, solution, _worst(-volts), nodes, float(volts.min()))


def fed(assembly: Assembly, reading: Reading) -> Case:
    """Current pushed into a supply."""
    solution, amps = _supply(assembly, reading)
    amps = amps[:, _span(assembly, "settled")]
    return _case(assembly, solution, _worst(amps), reading.subject, max(0.0, float(amps.max())))


def surging(assembly: Assembly, reading: Reading) -> Case:
    """What a supply gives while plugging beyond what it gives once home."""
    solution, amps = _supply(assembly, reading)
    span = _span(assembly, "plugging")
    moving, home = -amps[:, span], max(0.0, float((-amps[:, :span.start]).max()))
    terms = [("most while plugging", float(moving.max()), "A"), ("most once home", home, "A")]
    return _case(assembly, solution, _worst(moving, span.start), reading.subject, max(0.0, float(moving.max()) - home), terms)


def _supply(assembly: Assembly, reading: Reading) -> tuple[Solution, np.ndarray]:
    """What is pushed into a supply in every case, A."""
    solution = _solved(assembly, reading)
    index = part_index(assembly.circuit, *_subject(reading))
    return solution, part_amps(solution, index) * np.sign(assembly.circuit.parts[index].value.nominal)


def crossed(assembly: Assembly, reading: Reading) -> Case:
    """Direct current through a winding or an output stage."""
    solution = _solved(assembly, reading)
    index = part_index(assembly.circuit, *_subject(reading))
    amps = np.abs(part_amps(solution, index)[:, _span(assembly, "settled")])
    return _case(assembly, solution, _worst(amps), reading.subject, float(amps.max()))


FINDERS = {
    **dict.fromkeys(("part-volts", "part-reverse", "part-amps", "part-watts", "unrated-volts", "unrated-reverse", "unrated-amps", "unrated-watts"), stressed),
    "supplied-volts": supplied, "supply-fed-amps": fed, "surge-amps": surging, "coil-amps": crossed, "output-fed-amps": crossed,
    "discharge-amps": discharged, "settle-seconds": settles,
}
