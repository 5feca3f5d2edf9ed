"""Chains of one form between two ports, all at once: who hears whom, how loud, with how much hum, whether
what needs power gets it, and what more than it stands.

Each rule is applied as it stands in the rulebook, with some room (`ROOM`, `SOME`), for the numbers are those
of ideal joints, and only where it is met for certain: settled, at nominal values, with every supply on.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from itertools import pairwise

import numpy as np

from .constants import (
    BESIDE,
    BEST_REJECTION,
    GAIN_FLOOR,
    HEARD,
    HUM_FLOOR,
    NO_PATH,
    SHORT_SHARE,
    SHORTED,
    VOICE,
)
from .kinds import AMPLIFIED, AUDIO, DIGITAL, FAST, LOUDSPEAKER, ONE_SIDED, SMALL, as_sound, same_kind
from .limits import kind_of
from .pairing import Input, Output, asked, comparable, matched
from .powering import pairs as powerings
from .reduced import TIE
from .rulebook import loss, rules
from .signal import loudest
from .socket import Meter, Socket
from .steps import AT, DIRECT, HUM, TONE, Rows
from .switches import settings
from .verdict import RANK

ROOM = 0.5  # dB
SOME = 0.03  # of any other number
CERTAIN_JOINT = 1e7  # ohm; below that the two chassis are not isolated

Columns = Sequence[tuple[str, int]]  # place and number of a drive


@cache
def limit(id: str, quantity: str = "", **only: str) -> float:
    """What the first such rule holds its number against."""
    return float(
        next(
            rule.limit
            for rule in rules()
            if rule.id == id
            and rule.limit != "own"
            and quantity in ("", rule.quantity)
            and all(rule.only.get(key) == word for key, word in only.items())
        )
    )


def _weigh(id: str, where: np.ndarray | bool) -> np.ndarray:
    return loss([id]) * np.asarray(where, dtype=int)


class Sifting:
    """Rows between two sockets."""

    def __init__(self, sieve, start: Socket, target: Socket, rows: Rows) -> None:
        self.sieve, self.rows = sieve, rows
        sides = [start] * (1 + rows.more[0]), [target] * (1 + rows.more[1])
        names = [
            [f"{side}{n if n > 1 else ''}" for n in range(1, 1 + len(some))]
            for side, some in zip(("from", "into"), sides)
        ]
        self.ends: dict[str, Socket] = dict(zip((*names[0], *names[1]), (*sides[0], *sides[1])))
        sizes = np.cumsum([0, *(end.size for end in self.ends.values())]).tolist()
        self.spans = {place: slice(*span) for place, span in zip(self.ends, pairwise(sizes))}
        self.size = sizes[-1]
        # what is asked is what From sends, if it sends anything that could be heard
        forth = start.port.sources and target.port.listeners
        self.here, self.there = names if forth else names[::-1]
        self.sent = [Output(place, one) for place in self.here for one in self.ends[place].port.sources]
        self.heard = [Input(place, one) for place in self.there for one in self.ends[place].port.listeners]

    def answer(self) -> tuple[np.ndarray, np.ndarray]:
        """The least rank and loss of every row."""
        count = len(self.rows.leads)
        rank, lost = np.full(count, RANK["no signal"], dtype=float), np.zeros(count, dtype=int)
        self.wanted, self.alike = asked(self.sent, self.heard), comparable(self.sent, self.heard)
        same = [(o, i) for o, i in self.wanted if same_kind(o.source, i.listener)]
        self.pairs = [pair for pair in same if pair in self.alike] or same
        speaks, listens = (
            [
                any(one.kind == LOUDSPEAKER for one in getattr(self.ends[side].port, what))
                for side in ("from", "into")
            ]
            for what in ("sources", "listeners")
        )
        if not self.pairs or any(speaks[side] and not listens[1 - side] for side in (0, 1)):
            return rank, lost
        some = np.arange(count)
        if any(speaks):
            some = some[~self.sieve.parts[self.rows.leads].any(axis=1)]
        if len(some):
            some = some[self._works(some)]
        if len(some):
            well, direct = self._direct(some)
            some, direct = some[well], direct[well]
            self._cut(well)
        if len(some):
            rank[some] = RANK["safe"]
            lost[some] = direct + self._leads(some) + self._levels() + self._mixed() + self._hum(some)
            rank[some[lost[some] > 0]] = RANK["lossy"]
        return rank, lost

    # what is solved

    def _matrix(self, at: int, some: np.ndarray) -> np.ndarray:
        """Admittances between the contacts of all ports, joined by these rows."""
        nodes = [self.spans[place].start + node for place, end in self.ends.items() for node in end.at]
        spread = np.zeros((len(nodes), self.size))
        spread[range(len(nodes)), nodes] = 1
        matrix = spread.T @ self.rows.admittance[at][some] @ spread
        for place, end in self.ends.items():
            matrix[:, self.spans[place], self.spans[place]] += end.sees.admittance[at]
        matrix[:, range(self.size), range(self.size)] += TIE
        return matrix

    def _solved(self, at: int, some: np.ndarray, columns: Columns) -> np.ndarray:
        """Volts at the contacts of all ports, (rows, nodes, drives)."""
        right = np.zeros((self.size, len(columns)), dtype=complex)
        for column, (place, drive) in enumerate(columns):
            right[self.spans[place], column] = self.ends[place].sees.pushed[at, drive]
        return np.linalg.solve(self._matrix(at, some), right[None])

    def _shown(self, at: int, volts: np.ndarray, place: str, meter: Meter, columns: Columns) -> np.ndarray:
        """What a meter in a port shows, (rows, drives)."""
        each, own = self.ends[place].shown(at, meter)
        directly = [own[drive] if there == place else 0.0 for there, drive in columns]
        return np.einsum("n,rnd->rd", each, volts[:, self.spans[place]]) + directly

    # does it work at all?

    def _works(self, some: np.ndarray) -> np.ndarray:
        """Which rows carry what is asked about; of these all that is heard is kept."""
        every = [
            (place, number) for place, end in self.ends.items() for number in range(len(end.port.sources))
        ]
        probes = [
            (o.place, len(port.sources) + port.sources.index(o.source))
            for o in self.sent
            for port in [self.ends[o.place].port]
        ]
        columns = [*every, *probes]
        volts = self._solved(TONE, some, columns)
        at = {o: every.index((o.place, self.ends[o.place].port.sources.index(o.source))) for o in self.sent}
        self.gain = {
            (o, i): shown[:, at[o]]
            for i in self.heard
            for shown in [self._shown(TONE, volts, i.place, i.listener.between, columns)]
            for o in self.sent
        }
        size = {pair: np.maximum(np.abs(one), GAIN_FLOOR) for pair, one in self.gain.items()}
        level = {pair: 20 * np.log10(one) for pair, one in size.items()}
        best = np.max([level[pair] for pair in self.alike], axis=0)
        shorted, loaded, joined, strained = (np.zeros(len(some), dtype=bool) for _ in range(4))
        for number, o in enumerate(self.sent):
            end, source = self.ends[o.place], o.source
            shown = self._shown(TONE, volts, o.place, source.output, columns)
            own = end.port.sources.index(source)
            free = abs(end.alone(TONE, source.output, own))
            drop = 20 * np.log10(
                np.maximum(free, GAIN_FLOOR) / np.maximum(np.abs(shown[:, at[o]]), GAIN_FLOOR)
            )
            apart = end.alone(TONE, source.output, len(end.port.sources) + own)
            load = 1 / np.maximum(np.abs(1 / shown[:, len(every) + number] - 1 / apart), GAIN_FLOOR)
            shorted |= drop > SHORTED + ROOM
            if source.least_load:
                loaded |= load < source.least_load * (1 - 0.15 - SOME)
                if source.kind in AMPLIFIED:
                    shorted |= load < SHORT_SHARE * source.least_load * (1 - SOME)
            else:
                loaded |= drop > limit("loaded-down", "load-drop") + ROOM
        loud = np.array([loudest(self.ends[place].port.sources[n]) for place, n in every])
        for place, end in self.ends.items():
            others = np.array([there != place for there, _ in every], dtype=bool)
            for number, source in enumerate(end.port.sources):
                for part in end.stages[source.id]:
                    amps = np.abs(self._shown(TONE, volts, place, part, columns)[:, : len(every)]) * loud
                    joined |= amps[:, others].sum(axis=1) > limit("outputs-joined") * (1 + SOME)
                    if source.kind == "line":
                        strained |= amps[:, every.index((place, number))] > limit("output-strained") * (
                            1 + SOME
                        )
        self.size_of, self.level, self.best = size, level, best
        self.found = (
            _weigh("loaded-down", loaded)
            + _weigh("outputs-joined", joined)
            + _weigh("output-strained", strained)
        )
        works = (best >= HEARD - ROOM) & ~(shorted & (best < limit("shorted-signal") - ROOM))
        for pair in self.wanted:
            if not same_kind(pair[0].source, pair[1].listener):
                works &= level[pair] <= HEARD + ROOM
        self._cut(works)
        return works

    def _cut(self, where: np.ndarray) -> None:
        """Keep what is known of some rows."""
        for one in (self.gain, self.size_of, self.level):
            one.update({pair: told[where] for pair, told in one.items()})
        self.best, self.found = self.best[where], self.found[where]

    # direct current

    def _direct(self, some: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        """Which rows are powered and not dangerous, and what is lost in windings. Leads with a supply inside
        are left alone; what draws current is left out, so that no less can be there than this."""
        well, lost = np.ones(len(some), dtype=bool), np.zeros(len(some), dtype=int)
        supplied = {place for place, end in self.ends.items() if end.supplies}
        needy = [place for place in self.here if self.ends[place].port.needs]
        todo = np.flatnonzero(~self.sieve.bends[self.rows.leads[some]].any(axis=1))
        if not len(todo) or not (supplied or needy):
            return well, lost
        columns = [(place, len(end.drives) - 1) for place, end in self.ends.items()]
        volts = self._solved(DIRECT, some[todo], columns)
        show = lambda place, meter: self._shown(DIRECT, volts, place, meter, columns).sum(axis=1).real
        for place in needy:
            needs = self.ends[place].port.needs
            well[todo] &= np.any(
                [show(place, one.between) >= one.least * (1 - SOME) for one in needs], axis=0
            )
        if any(end.sinks for end in self.ends.values()):
            return well, lost
        straight = np.ones(len(todo), dtype=bool)  # no clamp conducts
        for place, end in self.ends.items():
            for part in end.clamps:
                straight &= show(place, end.across[part.id]) < part.value.nominal * (1 - SOME)
        harmed, coils = np.zeros(len(todo), dtype=bool), np.zeros(len(todo), dtype=bool)
        for place, end in self.ends.items():
            for one in end.port.network.limits:
                if one.quantity == "watts" or not (one.settled is not None or supplied - {place}):
                    continue
                value = show(place, end.meter(one))
                value = (
                    np.maximum(-value, 0)
                    if one.quantity == "reverse" and one.settled is not None
                    else np.abs(value)
                )
                harmed |= value > self._rating(end, one) * (1 + SOME)
            for part, told in end.supplies.items():
                harmed |= show(place, part) * np.sign(told) > limit("supply-against-supply", live="yes") * (
                    1 + SOME
                )
            for part in end.coils if supplied - {place} else ():
                coils |= np.abs(show(place, part)) > limit("bias-through-coil") * (1 + SOME)
        if len(settings({place: end.port for place, end in self.ends.items()})) <= 2:  # else see glance.py
            well[todo[straight & harmed]] = False
        pair = any(one.style == "pair" for end in self.ends.values() for one in end.port.supplies)
        lost[todo[straight & coils]] = loss(["uneven-phantom" if pair else "bias-through-coil"])
        return well, lost

    def _rating(self, end: Socket, one) -> float:
        if one.settled is not None:
            return one.settled
        kind = {} if one.quantity == "reverse" else {"kind": kind_of(end.port, one)}
        id = "supply-reversed" if kind.get("kind") == "reversal" else "rating-not-known"
        return limit(id, f"unrated-{one.quantity}", **kind)

    # what is lost

    def _leads(self, some: np.ndarray) -> np.ndarray:
        """By leads not made for what is sent, by the devices alone, and at the outputs."""
        lost, leads = self.found.copy(), self.rows.leads[some]
        sent = next((o.source.kind for o, _ in self.pairs if o.source.kind in FAST), None)
        if sent and leads.shape[1]:
            metres = limit("not-for-data", sent=sent) if sent == "data" else 10
            lost += _weigh("not-for-data", self.sieve.metres[leads].max(axis=1) > metres)
        small = lambda o, i: o.source.kind in SMALL and not (o.source.balanced and i.listener.balanced)
        if leads.shape[1] and any(small(o, i) for o, i in self.pairs):
            lost += _weigh("unscreened", self.sieve.bare[leads].any(axis=1))
        if any(as_sound(o.source, i.listener) for o, i in self.pairs):
            lost += loss(["timecode-as-sound"])
        if any(all(o is not other for other, _ in self.pairs) for o in self.sent) or self._unanswered():
            lost += loss(["not-heard"])
        return lost

    def _unanswered(self) -> bool:
        """Does a device send what the other has nothing for?"""
        both = self.ends["from"].port, self.ends["into"].port
        return any(
            one.sources and not two.listeners and (two.sources or one.listeners)
            for one, two in (both, both[::-1])
        )

    def _levels(self) -> np.ndarray:
        """Sides that are missing, too loud, too quiet."""
        relative = {pair: self.level[pair] - self.best for pair in self.pairs}
        self.near = {pair: one > BESIDE for pair, one in relative.items()}
        found: dict[str, np.ndarray] = {}
        note = lambda id, where: found.update({id: found.get(id, False) | where})
        for (o, i), here in self.near.items():
            s, l = o.source, i.listener
            if len(self.ends) == 2:
                note("one-side-only", relative[o, i] < limit("one-side-only") - ROOM)
            if l.maximum and loudest(s) and s.kind != "microphone":
                note("too-hot", here & (loudest(s) * self.size_of[o, i] > l.maximum * 10 ** (ROOM / 20)))
            if l.sensitivity and s.nominal:
                under = -20 * np.log10(s.nominal * self.size_of[o, i] / l.sensitivity)
                note("too-quiet", here & (under > limit("too-quiet") + ROOM))
            if s.kind in AUDIO and not (l.maximum and l.sensitivity and s.maximum and s.nominal):
                note("level-not-known", here)
        return sum((_weigh(id, where) for id, where in found.items()), np.zeros(len(self.best), dtype=int))

    def _mixed(self) -> np.ndarray:
        """Channels summed, upside down, or where another belongs."""
        found: dict[str, np.ndarray] = {}
        note = lambda id, where: found.update({id: found.get(id, False) | where})
        drop = 10 ** ((limit("cancels-in-mono") - ROOM) / 20)
        gone = lambda every: np.abs(sum(every)) < drop * sum(np.abs(one) for one in every)
        for i in self.heard:
            hears = self._hears(i)
            if len(self.sent) > 1:
                note("cancels-in-mono", hears & gone([self.gain[o, i] for o in self.sent]))
            if own := [o for o in self.sent if matched(o, i)]:
                belongs = np.maximum(np.min([self.level[o, i] for o in own], axis=0), HEARD)
                for over in (self.level[o, i] - belongs for o in self.sent if not matched(o, i)):
                    for id in ("crosstalk", "channels-crossed"):
                        note(id, hears & (over > limit(id) + ROOM))
            heard = [o for o in self.sent if (o, i) in self.near]
            if heard and i.listener.kind != DIGITAL:
                down = [
                    ~self.near[o, i] | (self.gain[o, i].real < -0.05 * np.abs(self.gain[o, i])) for o in heard
                ]
                some = np.any([self.near[o, i] for o in heard], axis=0)
                note("reversed", hears & some & np.all(down, axis=0))
        for o in self.sent:
            for place in self.there:
                here = [
                    i
                    for i in self.heard
                    if i.place == place and (o, i) in self.near and i.listener.kind != DIGITAL
                ]
                if len(here) > 1:
                    near = np.all([self.near[o, i] for i in here], axis=0)
                    note("sides-opposed", near & gone([self.gain[o, i] for i in here]))
        return sum((_weigh(id, where) for id, where in found.items()), np.zeros(len(self.best), dtype=int))

    def _hum(self, some: np.ndarray) -> np.ndarray:
        """What a difference between the two chassis leaves at an input that is to be balanced, and whether a
        screen joins them."""
        one, two = self.ends["from"], self.ends["into"]
        lost = np.zeros(len(some), dtype=int)
        if one.chassis is None or two.chassis is None:
            return lost
        a, b = one.chassis, self.spans["into"].start + two.chassis
        kinds = [source.kind for end in (one, two) for source in end.port.sources]
        if not all(kind in ONE_SIDED for kind in kinds):
            open_ = self._between(DIRECT, some, a, b) > limit("screen-open") * (1 + SOME)
            lost += _weigh("screen-open", open_ & (self._between(TONE, some, a, b) < CERTAIN_JOINT))
        told = [i for i in self.heard if i.listener.balanced or any(o.source.balanced for o in self.sent)]
        hum = dict.fromkeys(told, np.zeros(len(some)))
        unbalanced, leaning = np.zeros(len(some), dtype=bool), np.zeros(len(some), dtype=bool)
        for number, pair in enumerate(powerings(one.port.powered_by, two.port.powered_by) if told else ()):
            for at in (HUM, TONE) if number == 0 else (HUM,):
                volts = self._driven(at, some, a, b, pair)
                between = np.maximum(np.abs(volts[:, a, 0] - volts[:, b, 0]), GAIN_FLOOR)
                for i in told:
                    left = np.abs(self._shown(at, volts, i.place, i.listener.between, [("", 0)])[:, 0])
                    if number == 0:
                        held = -20 * np.log10(np.maximum(left / between, 10 ** (-BEST_REJECTION / 20)))
                        leaning |= self._balanced(i) & self._hears(i) & (held < limit("balance-lost") - ROOM)
                    if at == HUM:
                        hum[i] = np.maximum(hum[i], left * pair.volts)
        for i in told:
            wanted = np.min([self._wanted(o, i) for o in self.sent] or [np.full(len(some), np.inf)], axis=0)
            left = np.maximum(hum[i], 10 ** (HUM_FLOOR / 20) * np.minimum(wanted, NO_PATH))
            below = 20 * np.log10(wanted / left)
            unbalanced |= self._balanced(i) & self._hears(i) & (below < limit("unbalanced") - ROOM)
        return lost + _weigh("unbalanced", unbalanced) + _weigh("balance-lost", leaning)

    def _driven(self, at: int, some: np.ndarray, a: int, b: int, pair) -> np.ndarray:
        """Volts for one between the two chassis, behind what limits its current."""
        siemens = 1 / (pair.ohm + 1 / (2j * np.pi * AT[at] * pair.farad))
        matrix, right = self._matrix(at, some), np.zeros((self.size, 1), dtype=complex)
        for row, column, sign in ((a, a, 1), (b, b, 1), (a, b, -1), (b, a, -1)):
            matrix[:, row, column] += sign * siemens
        right[[a, b], 0] = siemens, -siemens
        return np.linalg.solve(matrix, right[None])

    def _between(self, at: int, some: np.ndarray, a: int, b: int) -> np.ndarray:
        """Ohm between two nodes."""
        right = np.zeros((self.size, 1), dtype=complex)
        right[[a, b], 0] = 1.0, -1.0
        volts = np.linalg.solve(self._matrix(at, some), right[None])
        return np.abs(volts[:, a, 0] - volts[:, b, 0])

    def _wanted(self, o: Output, i: Input) -> np.ndarray:
        """What is wanted of a source at an input, V; without end where it is not heard there."""
        if (o, i) not in self.near or not o.source.nominal:
            return np.full(len(self.best), np.inf)
        voice = 10 ** (VOICE / 20) if o.source.kind == "microphone" else 1.0
        return np.where(self.near[o, i], self.size_of[o, i] * o.source.nominal * voice, np.inf)

    def _balanced(self, i: Input) -> np.ndarray:
        sent = [near for (o, other), near in self.near.items() if other is i and o.source.balanced]
        return np.any([np.full(len(self.best), i.listener.balanced), *sent], axis=0)

    def _hears(self, i: Input) -> np.ndarray:
        return np.any([self.level[o, i] > HEARD for o in self.sent], axis=0)
