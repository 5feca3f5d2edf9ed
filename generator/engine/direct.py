"""Direct-current readings: every supply setting, tolerance corner, landing and plugging state of an assembly."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import product

import numpy as np

from generator.catalogue.records import Limit, Need, Part, Port, Supply

from .assemble import Assembly
from .circuit import Circuit, value_at
from .meeting import meeting
from .readings import Named, Reading, limit_name
from .solve import Solution, closed_array, most_at, part_amps, solve_dc
from .words import quantity

SIDES = {"from": "at the outlet", "into": "at the inlet", "extra1": "at the spare end", "extra2": "at the second spare end"}
RESIDUE = 1e-6  # V, A or W; what the engine's own leaks and rounding leave where no supply or signal reaches
MORE = 1.05  # beyond this multiple of what a part sees with nothing plugged in, the connection has a hand in it
UNITS = {"volts": "V", "reverse": "V", "amps": "A", "watts": "W"}


@dataclass(frozen=True)
class Switch:
    """A supply with its place; `key` and `name` are what answers call it, with its side where two supplies share an id."""

    place: str
    supply: str
    key: str
    name: str
    states: tuple[str, ...]
    style: str


def supply_switches(ports: Mapping[str, Port]) -> list[Switch]:
    """Every switchable supply of the connection, in order of place."""
    found = [(place, supply) for place, port in ports.items() for supply in port.supplies]
    # Spare ends always name their side, so that a switch has one name whether or not they are plugged.
    ids = [supply.id for place, supply in found if place in ("from", "into")]
    return [_switch(place, s, place not in ("from", "into") or ids.count(s.id) > 1) for place, s in found]


def _switch(place: str, supply: Supply, shared: bool) -> Switch:
    side = f" {SIDES.get(place, place)}" if shared else ""
    return Switch(place, supply.id, supply.id + side, supply.name + side, supply.states, supply.style)


def settings(ports: Mapping[str, Port]) -> list[dict[str, str]]:
    """Every combination of supply switches, all on first."""
    switches = supply_switches(ports)
    return [dict(zip((s.key for s in switches), states)) for states in product(*(s.states for s in switches))]


def live_volts(circuit: Circuit, ports: Mapping[str, Port], setting: Mapping[str, str]) -> dict[str, bool]:
    """For each emf of the circuit whether this setting has it switched on."""
    on = {(s.place, s.supply): setting[s.key] == s.states[0] for s in supply_switches(ports)}
    return {part.id: on.get((part.id.split("/")[0], part.supply), True) for part in circuit.parts if part.kind == "emf"}


def drive_values(circuit: Circuit, live: Mapping[str, bool], corner: str) -> np.ndarray:
    """Values of all parts at a corner, with the emfs that are off at 0 V."""
    return np.array([value_at(part, corner) if live.get(part.id, True) else 0.0 for part in circuit.parts])


def corners(circuit: Circuit) -> list[str]:
    """The tolerance corners at which anything in this circuit differs from nominal."""
    found = ["nominal"]
    if any(p.value and p.value.low != p.value.high for p in circuit.parts):
        found += ["strong", "weak"]
    if any(p.skew and p.match for p in circuit.parts):
        found.append("skewed")
    return found


def direct_readings(assembly: Assembly, signal_peaks: Mapping[tuple[str, str, str], float]) -> list[Reading]:
    """All readings of every setting. `signal_peaks` gives for (place, limit id, state kind) what signal adds at its loudest (V or A peak, or W)."""
    ports, circuit, points = assembly.ports, assembly.circuit, corners(assembly.circuit)
    all_settings = settings(ports)
    settled = len(assembly.home) + len(assembly.joined)
    lives = [live_volts(circuit, ports, setting) for setting in all_settings]
    stack = solve_settings(assembly, all_settings)
    open_stack = cache(lambda: solve_settings(assembly, all_settings, [[False] * len(circuit.switches)]))
    readings = []
    for number, (setting, live) in enumerate(zip(all_settings, lives)):
        drives = slice(number * len(points), (number + 1) * len(points))
        solution = stack.drives(drives)
        sources = {place for place, part in _live_supplies(circuit, live)}
        readings += _stress(assembly, solution, lambda d=drives: open_stack().drives(d), settled, number, sources, signal_peaks)
        readings += _needs(assembly, solution, number)
        readings += _supplies(assembly, solution, settled, number, live)
        readings += _windings(assembly, solution, settled, number, setting, sources)
    return readings


def solve_settings(assembly: Assembly, wanted: Sequence[Mapping[str, str]], states: Sequence[Sequence[bool]] | None = None) -> Solution:
    """Every corner of every wanted setting, the settings one after the other, in the given states or in every one: home, joined, then plugging."""
    circuit = assembly.circuit
    closed = closed_array(states or [*assembly.home, *assembly.joined, *assembly.plugging], len(circuit.switches))
    lives = [live_volts(circuit, assembly.ports, setting) for setting in wanted]
    values = np.array([[drive_values(circuit, live, corner) for corner in corners(circuit)] for live in lives])
    return solve_dc(circuit, values.reshape(-1, len(circuit.parts)), closed)


def _live_supplies(circuit: Circuit, live: Mapping[str, bool]) -> Iterator[tuple[str, Part]]:
    """Emfs that push direct current, with their place."""
    for part in circuit.parts:
        if part.kind == "emf" and live.get(part.id) and part.value.nominal:
            yield part.id.split("/")[0], part


def part_index(circuit: Circuit, place: str, part: str) -> int | None:
    """A part's number in the circuit; None when wire shorts it out."""
    return circuit.index.get(f"{place}/{part}")


def _stress(assembly: Assembly, solution: Solution, unplugged: Callable[[], Solution], settled: int, setting: int, sources: set[str],
            peaks: Mapping) -> Iterator[Reading]:
    """What every rated part sees, settled and while plugging. A rating that is not known counts where another's supply reaches the part, and where
    a device's own supply does more to it than with nothing plugged in."""
    for place, record in assembly.places.items():
        for limit in record.network.limits:
            direct = held_against(limit, limit_values(solution, place, limit))
            for state, cases, rating in (("settled", direct[:, :settled], limit.settled), ("plugging", direct[:, settled:], limit.momentary)):
                if not cases.size:
                    continue
                signal = peaks.get((place, limit.id, state), 0.0)
                value = float(cases.max()) + signal
                name = limit_name(record, limit)
                words = {"device": Named(place), "part": name}
                if rating is not None:
                    yield Reading(f"part-{limit.quantity}", f"{place}/{limit.id}", name, value, UNITS[limit.quantity], state, setting, rating, limit.evidence, words)
                elif signal > RESIDUE or sources - {place} or place in sources and value > MORE * _most(unplugged(), place, limit) + RESIDUE:
                    yield Reading(f"unrated-{limit.quantity}", f"{place}/{limit.id}", name, value, UNITS[limit.quantity], state, setting, None, limit.evidence, words)


def _most(solution: Solution, place: str, limit: Limit) -> float:
    return float(held_against(limit, limit_values(solution, place, limit)).max())


def limit_values(solution: Solution, place: str, limit: Limit) -> np.ndarray:
    """The direct volts, amps or watts a limit is about, (drives, states)."""
    zero = np.zeros(solution.unknowns.shape[:-1])
    if limit.between:
        return solution.volts(*(f"{place}/{node}" for node in limit.between))
    index = part_index(solution.circuit, place, limit.part)
    if index is None:
        return zero
    if limit.quantity in ("volts", "reverse"):
        return solution.part_volts(index)
    amps = part_amps(solution, index)
    return amps if limit.quantity == "amps" else amps * solution.part_volts(index)


def held_against(limit: Limit, direct: np.ndarray) -> np.ndarray:
    """The size that counts against a limit. A capacitor's reverse rating is about direct volts the wrong way round; every other rating is
    about size. Where that is not known, neither is which way round it sits."""
    return np.maximum(-direct, 0.0) if limit.quantity == "reverse" and limit.settled is not None else np.abs(direct)


def _needs(assembly: Assembly, solution: Solution, setting: int) -> Iterator[Reading]:
    """The volts left at whatever has to be powered: the least over corners and landings, without help from mains earth.

    A need belongs to the channel it shares its circuit with: a microphone nobody listens to may stay without. `way` tells needs of the
    direction that was asked about from those of the way back; `all` whether nothing at this place is powered.
    """
    for place, other in (("from", "into"), ("into", "from")):
        port = assembly.places[place]
        found = {}
        for need in port.needs:
            sends = any(_circuit_of(source.id) == _circuit_of(need.id) for source in port.sources)
            if assembly.places[other].listeners or not sends:
                volts = float(solution.volts(*(f"{place}/{node}" for node in need.between))[:, :len(assembly.home)].min())
                found[need] = volts if abs(volts) > RESIDUE else 0.0, way_of(assembly, place if sends else other)
        none = all(volts < need.least for need, (volts, _) in found.items())
        for need, (volts, way) in found.items():
            yield Reading("supplied-volts", f"{place}/{need.id}", need.where, volts, "V", "settled", setting, need.least, need.evidence,
                          {"device": Named(place), "part": need.where, "window": _window(port, need)}, {"way": way, "all": "yes" if none else "no"})


def _window(port: Port, need: Need) -> str:
    """`needs 24 V or more`, or `works from 10.5 V to 17 V` where it is known what may lie there at most."""
    most = next((limit.settled for limit in port.network.limits if limit.quantity == "volts" and limit.between == need.between), None)
    return f"needs {quantity(need.least, 'V')} or more" if most is None else f"works from {quantity(need.least, 'V')} to {quantity(most, 'V')}"


def _circuit_of(id: str) -> str:
    return id.split(".")[0]


def way_of(assembly: Assembly, place: str) -> str:
    """`forth` for what From sends, `back` for what comes back to it; a connection with nothing to send is asked about what comes back."""
    asked = "from" if assembly.places["from"].sources and assembly.places["into"].listeners else "into"
    return "forth" if place == asked else "back"


def _supplies(assembly: Assembly, solution: Solution, settled: int, setting: int, live: Mapping[str, bool]) -> Iterator[Reading]:
    """Current pushed back into a supply, and the surge a supply gives while plugging beyond what it gives settled."""
    for place, part in _live_supplies(solution.circuit, live):
        port = assembly.places[place]
        amps = part_amps(solution, solution.circuit.index[part.id]) * np.sign(part.value.nominal)
        name = next((s.name for s in port.supplies if s.id == part.supply), "supply") if isinstance(port, Port) else "supply"
        words = {"device": Named(place), "part": name}
        yield Reading("supply-fed-amps", part.id, name, max(0.0, float(amps[:, :settled].max())), "A", "settled", setting, None, None, words)
        if amps.shape[1] > settled:
            moving = (-amps[:, settled:]).max(axis=0)
            surge = max(0.0, float(moving.max()) - max(0.0, float((-amps[:, :settled]).max())))
            [at] = most_at(moving)
            yield Reading("surge-amps", part.id, name, surge, "A", "plugging", setting, None, None, {**words, "meets": meeting(assembly, at)})


def _windings(assembly: Assembly, solution: Solution, settled: int, setting: int, switch_states: Mapping[str, str], sources: set[str]) -> Iterator[Reading]:
    """Direct current through coils and ribbons, and into the stages that drive an output."""
    styles = {s.style for s in supply_switches(assembly.ports) if switch_states[s.key] == s.states[0]}
    feed = "pair" if "pair" in styles else "single"
    for place, record in assembly.places.items():
        driving = {name for source in getattr(record, "sources", ()) for name in source.drive}
        if not sources - {place}:
            continue
        for part in record.network.parts:
            index = part_index(solution.circuit, place, part.id)
            if index is None or not (part.coil or part.id in driving and part.kind == "emf"):
                continue
            amps = float(np.abs(part_amps(solution, index)[:, :settled]).max())
            quantity, name = ("coil-amps", part.coil) if part.coil else ("output-fed-amps", "output stage")
            if part.coil or not any(p.coil for p in record.network.parts):
                yield Reading(quantity, f"{place}/{part.id}", name, amps, "A", "settled", setting, None, None, {"device": Named(place), "part": name}, {"feed": feed})
