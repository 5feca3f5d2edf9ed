"""Every chain of leads between two sockets, in numbers: each lead is worked out once, then they are joined by
the thousand.

A row is a chain with the end of each lead that is taken. Its admittances are those between the contacts of
the outlet and of the inlet (several of either where a lead with like tails is used as it is meant).
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from generator.catalogue.records import Catalogue, Lead

from .constants import CONTACT_OHM, HERTZ, MAINS, MOST_LEADS
from .mate import mate
from .reduced import reduced, without

Half = tuple[str, str]
TONE, HUM, DIRECT, BASS = range(4)
AT = (float(HERTZ[1]), float(MAINS), 0.0, float(HERTZ[0]))  # Hz
AT_ONCE = 4096  # rows joined together


@dataclass(frozen=True)
class Step:
    """A lead in a chain, taken by two of its ends, whose halves are `near` and `far`. Like tails on either
    side go to as many of the same device: `more` of them."""

    lead: int
    near: Half
    far: Half
    more: tuple[int, int]
    admittance: np.ndarray  # (hertz, near side and far side)


@dataclass(frozen=True)
class Rows:
    """Rows with the same `more`: the leads of each, (rows, leads), and its admittances, (hertz, rows, nodes,
    nodes)."""

    more: tuple[int, int]
    leads: np.ndarray
    admittance: np.ndarray


@dataclass(frozen=True)
class _Prefix:
    """Chains as yet open at one half."""

    more: int
    open: Half
    leads: np.ndarray  # (rows, leads)
    met: list[frozenset]  # halves
    wanted: np.ndarray
    admittance: np.ndarray


class Steps:
    """All there is to join in a catalogue; with `among` only chains in which one of those leads is."""

    def __init__(self, catalogue: Catalogue, among: Collection[str] = ()) -> None:
        self.catalogue = catalogue
        self.leads = list(catalogue.leads.values())
        self._among = np.array([lead.id in among for lead in self.leads], dtype=bool) if among else None
        self._ends: dict[tuple[Half | None, Half | None], list[Step]] = {}
        self._second: tuple[Half, list[_Prefix]] | None = None  # of the outlet's half asked last

    def contacts(self, half: Half) -> tuple[str, ...]:
        return tuple(self.catalogue.connectors[half[0]].contacts)

    def rows(self, start: Half, target: Half, length: int, useful: Sequence[bool]) -> Iterator[Rows]:
        """Every row of so many leads."""
        if length == 0:
            if self._among is None and (wires := self._wires(start, target)) is not None:
                yield Rows((0, 0), np.zeros((1, 0), dtype=int), np.stack([wires] * len(AT))[:, None])
        elif length == 1:
            for step in self._steps(start, target):
                if self._among is None or self._among[step.lead]:
                    yield Rows(step.more, np.array([[step.lead]]), step.admittance[:, None])
        else:
            prefixes = self._first(start, useful) if length == 2 else self._both(start, useful)
            yield from self._ended(prefixes, target, length, useful)

    def _wires(self, one: Half, two: Half) -> np.ndarray | None:
        """Admittances between the contacts of two halves fully home; None where they do not fit."""
        connectors = self.catalogue.connectors
        mating = mate((connectors[one[0]], one[1]), (connectors[two[0]], two[1]))
        if mating is None:
            return None
        first, second = self.contacts(one), self.contacts(two)
        found = np.zeros((len(first) + len(second),) * 2, dtype=complex)
        for a, b in mating.home[0]:
            i, j = first.index(a), len(first) + second.index(b)
            for row, column, sign in ((i, i, 1), (j, j, 1), (i, j, -1), (j, i, -1)):
                found[row, column] += sign / CONTACT_OHM
        return found

    def _steps(self, start: Half | None, target: Half | None) -> list[Step]:
        """Every lead by every two ends, joined to the outlet, to the inlet, to both or to neither."""
        if (start, target) not in self._ends:
            self._ends[start, target] = [
                step
                for number, lead in enumerate(self.leads)
                for near in lead.ends
                for far in lead.ends
                if near != far and (step := self._step(number, lead, near, far, start, target))
            ]
        return self._ends[start, target]

    def _step(
        self, number: int, lead: Lead, near: str, far: str, start: Half | None, target: Half | None
    ) -> Step | None:
        half = lambda end: (lead.ends[end].connector, lead.ends[end].half)
        alike = lambda end: (*half(end), lead.ends[end].usual)
        wires = [
            self._wires(start, half(near)) if start else None,
            self._wires(half(far), target) if target else None,
        ]
        if (start and wires[0] is None) or (target and wires[1] is None):
            return None
        order, groups = list(lead.ends), []
        for own, device in ((near, start), (far, target)):
            like = [end for end in order if device and end not in (near, far) and alike(end) == alike(own)]
            if any(order.index(end) < order.index(own) for end in like):
                return None  # the same with like tails changed over
            groups.append([own, *like])
        if set(groups[0]) & set(groups[1]):
            return None
        kept = [
            f"{end}.{contact}" for group in groups for end in group for contact in self.contacts(half(end))
        ]
        own = _of(lead, kept)
        ends = [(side, end) for side in (0, 1) for end in groups[side]]
        sizes = [len(self.contacts(half(end))) for _, end in ends]
        outer = [
            len(self.contacts((start, target)[side])) if (start, target)[side] else 0 for side, _ in ends
        ]
        if not any(outer):
            return Step(number, half(near), half(far), (0, 0), own)
        # nodes: what stays (a device's contacts, or the lead's own where it is open), then what goes
        places, first = [], 0
        for size, more in zip(sizes, outer):
            places.append(range(first, first + (more or size)))
            first += more or size
        inner = []
        for place, size, more in zip(places, sizes, outer):
            inner.append(range(first, first + size) if more else place)
            first += size if more else 0
        matrix = np.zeros((len(AT), first, first), dtype=complex)
        at = [node for span in inner for node in span]
        matrix[np.ix_(range(len(AT)), at, at)] += own
        for (side, _), place, within, more in zip(ends, places, inner, outer):
            if more:
                nodes = [*place, *within] if side == 0 else [*within, *place]
                matrix[np.ix_(range(len(AT)), nodes, nodes)] += wires[side]
        gone = sum(size for size, more in zip(sizes, outer) if more)
        return Step(
            number, half(near), half(far), (len(groups[0]) - 1, len(groups[1]) - 1), without(matrix, gone)
        )

    def _first(self, start: Half, useful: Sequence[bool]) -> list[_Prefix]:
        """Chains of one lead, by the half they are open at."""
        groups: dict[tuple, list[Step]] = {}
        for step in self._steps(start, None):
            if useful[step.lead]:
                groups.setdefault((step.more[0], step.far), []).append(step)
        return [
            _Prefix(
                more,
                far,
                np.array([[step.lead] for step in steps]),
                [frozenset((start, far))] * len(steps),
                np.array([far != start or bool(self.leads[step.lead].parts) for step in steps]),
                np.stack([step.admittance for step in steps], axis=1),
            )
            for (more, far), steps in groups.items()
        ]

    def _both(self, start: Half, useful: Sequence[bool]) -> list[_Prefix]:
        """Chains of two leads, by the half they are open at."""
        if self._second is None or self._second[0] != start:
            self._second = start, list(self._extended(start, useful))
        return self._second[1]

    def _extended(self, start: Half, useful: Sequence[bool]) -> Iterator[_Prefix]:
        every = [
            (prefix, steps, wires, *found)
            for prefix in self._first(start, useful)
            for steps in self._middles(useful)
            if (wires := self._wires(prefix.open, steps[0].near)) is not None
            and len((found := self._pairs(prefix, steps, MOST_LEADS))[0])
        ]
        for prefix, steps, wires, one, two, leads, wanted in self._kept(every):
            yield _Prefix(
                prefix.more,
                steps[0].far,
                leads,
                [prefix.met[i] | {steps[0].far} for i in one],
                wanted,
                self._joined(prefix, one, steps, two, wires),
            )

    def _middles(self, useful: Sequence[bool]) -> list[list[Step]]:
        """Leads between leads, those with the same halves together."""
        groups: dict[tuple, list[Step]] = {}
        for step in self._steps(None, None):
            if useful[step.lead]:
                groups.setdefault((step.near, step.far), []).append(step)
        return list(groups.values())

    def _ended(
        self, prefixes: Sequence[_Prefix], target: Half, length: int, useful: Sequence[bool]
    ) -> Iterator[Rows]:
        groups: dict[tuple, list[Step]] = {}
        for step in self._steps(None, target):
            if useful[step.lead]:
                groups.setdefault((step.more[1], step.near, step.far), []).append(step)
        every = [
            (prefix, steps, wires, *found)
            for prefix in prefixes
            for steps in groups.values()
            if (wires := self._wires(prefix.open, steps[0].near)) is not None
            and len((found := self._pairs(prefix, steps, length))[0])
        ]
        for prefix, steps, wires, one, two, leads, _ in self._kept(every, self._among):
            yield Rows((prefix.more, steps[0].more[1]), leads, self._joined(prefix, one, steps, two, wires))

    def _pairs(self, prefix: _Prefix, steps: Sequence[Step], length: int) -> tuple[np.ndarray, ...]:
        """Which of these may follow which, the leads of both, and whether a search grows that way (see
        `route.chains`): no lead stands twice, and of three each leads to a half not met or has parts."""
        own = np.array([step.lead for step in steps])
        one, two = np.nonzero((prefix.leads[:, :, None] != own).all(axis=1))
        parts = np.array([bool(self.leads[step.lead].parts) for step in steps])
        fresh = np.array([steps[0].far not in met for met in prefix.met])
        wanted = prefix.wanted[one] & (fresh[one] | parts[two]) if length == MOST_LEADS else one >= 0
        return one, two, np.hstack([prefix.leads[one], own[two, None]]), wanted

    def _kept(self, every: Sequence[tuple], among: np.ndarray | None = None) -> Iterator[tuple]:
        """What a search grows, with every other way to take the ends of the same leads; only with one of
        those `among`, if there are any."""
        code = lambda leads: leads @ len(self.leads) ** np.arange(leads.shape[1])
        if not every:
            return
        known = np.unique(np.concatenate([code(leads)[wanted] for *_, leads, wanted in every]))
        for prefix, steps, wires, one, two, leads, wanted in every:
            some = np.isin(code(leads), known)
            if among is not None:
                some &= among[leads].any(axis=1)
            if some.any():
                yield prefix, steps, wires, one[some], two[some], leads[some], wanted[some]

    def _joined(
        self, prefix: _Prefix, one: np.ndarray, steps: Sequence[Step], two: np.ndarray, wires: np.ndarray
    ) -> np.ndarray:
        """Chains joined with a lead each; what stays are the contacts of the outlet and those beyond it."""
        opened = len(self.contacts(prefix.open))
        before = prefix.admittance
        after = np.stack([step.admittance for step in steps], axis=1)
        near = len(wires) - opened
        stays, beyond = before.shape[-1] - opened, after.shape[-1] - near
        size = stays + beyond + opened + near
        here = [*range(stays), *range(stays + beyond, stays + beyond + opened)]
        there = [*range(size - near, size), *range(stays, stays + beyond)]
        joint = list(range(stays + beyond, size))
        found = np.empty((len(AT), len(one), stays + beyond, stays + beyond), dtype=complex)
        for first in range(0, len(one), AT_ONCE):
            some = slice(first, first + AT_ONCE)
            matrix = np.zeros((len(AT), len(one[some]), size, size), dtype=complex)
            matrix[..., np.array(here)[:, None], here] += before[:, one[some]]
            matrix[..., np.array(there)[:, None], there] += after[:, two[some]]
            matrix[..., np.array(joint)[:, None], joint] += wires
            found[:, some] = without(matrix, opened + near)
        return found


def _of(lead: Lead, kept: Sequence[str]) -> np.ndarray:
    """The admittances of a lead between some of its contacts, without the capacitance of its cable."""
    parts = [part for part in lead.network.parts if part.kind != "capacitor" or part.id in lead.parts]
    return reduced(parts, lead.network.couplings, kept, AT).admittance
