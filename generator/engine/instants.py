"""What charged capacitors do: at the moment a contact closes or opens, when a supply is
switched, and for seconds after.

In the first instant a capacitor holds its voltage: it acts as an emf behind a contact's resistance. Later
it acts as an emf of what it held a step before, behind step over capacitance (implicit Euler): the same
circuit serves for both. Capacitors are charged as they were with nothing plugged in, as they are fully
plugged, as they are with one joint still open, and, where a supply is switched with everything plugged, as
they were before. Supplies are taken at their highest and resistances at their lowest: that charges and
strikes most. One that is off is so in both kinds, its rail at 0 V or disconnected: a `position` is a
setting with one of these.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from generator.catalogue.records import Limit, Part, Quantity

from .assembly import Assembly
from .circuit import Circuit, rebuilt
from .constants import CONTACT_OHM, LEAST_CAPACITANCE, LEAST_CHARGE, MOMENT, STEPS
from .currents import Solution, part_amps
from .hanging import idle, shared
from .limits import decides, direct, held_against
from .readings import At, Decides, Term
from .solve import closed_array, solve_dc
from .switches import drive_values, live_supplies, live_volts, offs, settings

CONTACT = ":contact"
CORNER = "strong"


@dataclass(frozen=True)
class Struck:
    """The first instant of one setting, with the capacitors charged as they were `before` (position, number
    of a state of `settled`). `setting` is the one it belongs to, `driven` the position of the supplies now;
    `charges` are V by part id; `solution` is (1, states)."""

    setting: int
    driven: int
    moment: str  # plugging | switching
    before: tuple[int, int]
    charges: Mapping[str, float]
    live: frozenset[str]  # places whose supplies are on now
    solution: Solution

    def at(self, state: int, read_at: Decides) -> At:
        """Where a number of this instant stands."""
        return At("instant", state, read_at, before=self.before, driven=self.driven)

    def terms(self) -> tuple[Term, ...]:
        """What the capacitors hold."""
        return tuple(
            (f"{name} charged to", volts, "V")
            for name, volts in self.charges.items()
            if abs(volts) >= LEAST_CHARGE
        )


class Capacitors:
    """The large capacitors of an assembly, and its circuit with each of them as an
    emf behind a resistance."""

    def __init__(self, assembly: Assembly) -> None:
        self.assembly, circuit = assembly, assembly.circuit
        self.large = {
            part.id: i
            for i, part in enumerate(circuit.parts)
            if part.kind == "capacitor" and part.value.nominal >= LEAST_CAPACITANCE
        }
        self.circuit = struck_circuit(circuit, self.large)
        self.settings = settings(assembly.ports)
        lives = [live_volts(circuit, assembly.ports, setting) for setting in self.settings]
        self.positions = [(number, off) for number, live in enumerate(lives) for off in offs(circuit, live)]
        self.live = [
            frozenset(place for place, _ in live_supplies(circuit, lives[number]))
            for number, _ in self.positions
        ]
        self._driven = [drive_values(circuit, lives[number], CORNER, off) for number, off in self.positions]
        self.fed = [bool(live) for live in self.live]

    def settled(self) -> np.ndarray:
        """Volts of every large capacitor in every position, fully plugged in every way, with nothing plugged,
        with one joint after the other left open, and these again as long as what hangs in the air is without
        charge, where that is another: (capacitors, positions, homes + 1 + joints ...)."""
        states = [*self.assembly.home, self.assembly.apart, *self.assembly.halves]
        closed = closed_array(states, len(self.assembly.circuit.switches))
        found = solve_dc(self.assembly.circuit, np.array(self._driven), closed)
        volts = np.array([found.part_volts(i) for i in self.large.values()])
        at_once = shared(found, closed) or found
        soon = np.array([at_once.part_volts(i) for i in self.large.values()])
        still = idle(self.assembly.circuit, closed)[list(self.large.values())]
        soon = np.where(still[:, None], 0.0, soon)
        halves = range(len(states) - len(self.assembly.halves), len(states))
        moved = np.abs(soon - volts).max(axis=(0, 1), initial=0.0)
        return np.concatenate([volts, soon[..., [s for s in halves if moved[s] >= LEAST_CHARGE]]], axis=2)

    def alone(self, position: int, place: str, limit: Limit) -> float:
        """The size at a limit with nothing plugged in, once settled."""
        solution = self._apart.drives(slice(position, position + 1))
        return float(held_against(limit, direct(solution, place, limit)).max())

    @cached_property
    def _apart(self) -> Solution:
        """Every position with nothing plugged in."""
        closed = closed_array([self.assembly.apart], len(self.assembly.circuit.switches))
        return solve_dc(self.assembly.circuit, np.array(self._driven), closed)

    def row(self, position: int, step: float = 0.0) -> np.ndarray:
        """Values of the struck circuit's parts in a position: behind every capacitor a contact, or a step
        over its capacitance."""
        known = dict(zip((part.id for part in self.assembly.circuit.parts), self._driven[position]))
        parts = self.assembly.circuit.parts
        known |= {
            name + CONTACT: step / parts[i].value.nominal if step else CONTACT_OHM
            for name, i in self.large.items()
        }
        return np.array([0.0 if part.id in self.large else known[part.id] for part in self.circuit.parts])

    def solve(self, rows: Sequence[np.ndarray], held: np.ndarray, closed: np.ndarray) -> Solution:
        """Solve with the capacitors at `held` volts, (capacitors, rows, states)."""
        return solve_dc(
            self.circuit,
            np.array(rows),
            closed,
            {self.circuit.index[name]: held[k] for k, name in enumerate(self.large)},
        )

    def volts(self, solution: Solution) -> np.ndarray:
        """What lies across every large capacitor, (capacitors, rows, states)."""
        nets, ends = self.circuit.nets, self.assembly.circuit.ends
        over = lambda i: [nets[f"net{net}"] for net in ends[i]]
        return np.array(
            [solution.unknowns[..., a] - solution.unknowns[..., b] for a, b in map(over, self.large.values())]
        )


def struck_circuit(circuit: Circuit, large: Mapping[str, int]) -> Circuit:
    """The circuit with every large capacitor as an emf behind a resistance, and the small ones left out."""
    contact = Quantity(CONTACT_OHM, CONTACT_OHM, CONTACT_OHM, "ohm", "")
    kept = [(part, *ends) for part, ends in zip(circuit.parts, circuit.ends) if part.kind != "capacitor"]
    charged = []
    for name, i in large.items():
        a, b = circuit.ends[i]
        charged += [
            replace(circuit.parts[i], kind="emf", a=name + CONTACT, b=f"net{b}"),
            Part(name + CONTACT, "resistor", f"net{a}", name + CONTACT, contact),
        ]
    return rebuilt(circuit, kept, charged)


def instants(capacitors: Capacitors) -> Iterator[Struck]:
    """Every first instant of every setting that feeds anything. Plugging in: all states, charged with nothing
    or with one joint less plugged. Pulling out: all states, charged as fully plugged. Switching: the settled
    states, charged as before the switch; it belongs to the setting with more supplies on."""
    if not capacitors.large or not any(capacitors.fed):
        return
    assembly = capacitors.assembly
    settled, every = len(assembly.settled), closed_array(assembly.states, len(assembly.circuit.switches))
    charged = capacitors.settled()
    belongs = [setting for setting, _ in capacitors.positions]
    plugged = [
        (number, belongs[number], (number, state))
        for number, fed in enumerate(capacitors.fed)
        if fed
        for state in range(charged.shape[2])
    ]
    # settings come with everything on first, so the first of two has more on
    switched = [
        (driven, belongs[one], (before, 0))
        for one, other in _switchings(capacitors)
        if capacitors.fed[one] or capacitors.fed[other]
        for driven, before in ((one, other), (other, one))
    ]
    for moment, asked, states in (("plugging", plugged, every), ("switching", switched, every[:settled])):
        if not asked:
            continue
        asked = _apart(asked, charged)
        # (capacitors, rows)
        held = np.array([charged[:, before, state] for _, _, (before, state) in asked]).T
        shape = np.broadcast_to(held[:, :, None], (*held.shape, len(states)))
        solution = capacitors.solve([capacitors.row(driven) for driven, _, _ in asked], shape, states)
        for row, (driven, setting, before) in enumerate(asked):
            yield Struck(
                setting,
                driven,
                moment,
                before,
                dict(zip(capacitors.large, held[:, row].tolist())),
                capacitors.live[driven],
                solution.drives(slice(row, row + 1)),
            )


def _apart(asked: Sequence[tuple], charged: np.ndarray) -> list[tuple]:
    """What is asked, (position, setting, (position, state) before), without what is struck as another was,
    with capacitors charged alike; of these the first."""
    found: dict[tuple, tuple] = {}
    for driven, setting, before in asked:
        volts = charged[:, *before] + 0.0  # no -0.0
        found.setdefault((driven, setting, volts.tobytes()), (driven, setting, before))
    return list(found.values())


def _switchings(capacitors: Capacitors) -> Iterator[tuple[int, int]]:
    """Pairs of positions that differ in one switch; what is off in both is so in the same kind."""
    every = [(capacitors.settings[number], off) for number, off in capacitors.positions]
    for one, (first, off) in enumerate(every):
        for other, (second, kind) in enumerate(every[one + 1 :], one + 1):
            if sum(first[key] != second[key] for key in first) == 1 and (off == kind or "" in (off, kind)):
                yield one, other


def at_limit(assembly: Assembly, solution: Solution, place: str, limit: Limit) -> np.ndarray:
    """The size at a limit in an instant, (rows, states): volts between its nodes, or
    amps through its part."""
    read_at, nets, circuit = decides(place, limit), solution.circuit.nets, assembly.circuit
    if limit.quantity == "amps":
        index = solution.circuit.index.get(read_at)
        return np.zeros(solution.unknowns.shape[:-1]) if index is None else np.abs(part_amps(solution, index))
    if isinstance(read_at, tuple):
        ends = [circuit.nets[node] for node in read_at]
    elif read_at in circuit.index:
        ends = circuit.ends[circuit.index[read_at]]
    else:
        return np.zeros(solution.unknowns.shape[:-1])
    if any(f"net{net}" not in nets for net in ends):  # only small capacitors lead there
        return np.zeros(solution.unknowns.shape[:-1])
    a, b = (nets[f"net{net}"] for net in ends)
    return held_against(limit, solution.unknowns[..., a] - solution.unknowns[..., b])


class Afterwards:
    """What comes after an instant, in all settled states at once, followed as far as somebody asks."""

    def __init__(self, capacitors: Capacitors, struck: Struck) -> None:
        settled, charges = capacitors.assembly.settled, np.array(list(struck.charges.values()))
        self.capacitors, self._driven, self._solutions = capacitors, struck.driven, []
        self._closed = closed_array(settled, len(capacitors.assembly.circuit.switches))
        self._held = np.broadcast_to(charges[:, None, None], (len(charges), 1, len(settled)))

    def at(self, number: int) -> Solution:
        """The end of step `number` of STEPS, (1, settled states)."""
        while len(self._solutions) <= number:
            row = self.capacitors.row(self._driven, STEPS[len(self._solutions)])
            self._solutions.append(self.capacitors.solve([row], self._held, self._closed))
            self._held = self.capacitors.volts(self._solutions[-1])
        return self._solutions[number]


def seconds_beyond(
    after: Afterwards, place: str, limit: Limit, rating: float, passed: np.ndarray
) -> np.ndarray:
    """How long after the instant a limit stays passed, s, (settled states); 0 where it falls below within
    MOMENT. `passed` tells in which states it is in the instant itself."""
    seconds = np.zeros(len(passed))
    for number, now in enumerate(np.cumsum(STEPS)):
        passed = passed & (at_limit(after.capacitors.assembly, after.at(number), place, limit)[0] > rating)
        if not passed.any():
            break
        seconds[passed] = now
    return np.where(seconds >= MOMENT * 0.99, seconds, 0.0)
