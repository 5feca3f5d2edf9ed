"""Chains of one form between two ports, all at once: who hears whom, how loud, with how much hum, whether
what needs power gets it, and what more than it stands.

Each rule is applied as it stands in the rulebook, with some room (`ROOM`, `SOME`), for the numbers are those
of ideal joints, and only where it is met for certain: settled, at nominal values, with every supply on.
"""

from __future__ import annotations

import numpy as np

from .constants import BESIDE, GAIN_FLOOR, HEARD, SHORT_SHARE, SHORTED
from .joined import Joined, limit, weigh
from .kinds import AMPLIFIED, AUDIO, DIGITAL, FAST, LOUDSPEAKER, SMALL, as_sound, same_kind
from .pairing import Input, asked, comparable, matched
from .rulebook import loss
from .sifted_hum import hum
from .sifted_power import powered
from .signal import loudest
from .socket import Socket
from .steps import BASS, TONE, Rows
from .verdict import RANK

ROOM = 0.5  # dB
SOME = 0.03  # of any other number


class Sifting(Joined):
    """Rows between two sockets, held against the rules."""

    def __init__(self, sieve, start: Socket, target: Socket, rows: Rows) -> None:
        super().__init__(start, target, rows)
        self.sieve = sieve

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
            well, direct = powered(self, self.sieve.bends, some)
            some, direct = some[well], direct[well]
            self._cut(well)
        if len(some):
            rank[some] = RANK["safe"]
            lost[some] = (
                direct
                + self._leads(some)
                + self._levels()
                + self._mixed()
                + self._bass(some)
                + hum(self, some)
            )
            rank[some[lost[some] > 0]] = RANK["lossy"]
        return rank, lost

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
        volts = self.solved(TONE, some, columns)
        at = {o: every.index((o.place, self.ends[o.place].port.sources.index(o.source))) for o in self.sent}
        self.gain = {
            (o, i): shown[:, at[o]]
            for i in self.heard
            for shown in [self.shown(TONE, volts, i.place, i.listener.between, columns)]
            for o in self.sent
        }
        size = {pair: np.maximum(np.abs(one), GAIN_FLOOR) for pair, one in self.gain.items()}
        level = {pair: 20 * np.log10(one) for pair, one in size.items()}
        best = np.max([level[pair] for pair in self.alike], axis=0)
        shorted, loaded, joined, strained = (np.zeros(len(some), dtype=bool) for _ in range(4))
        for number, o in enumerate(self.sent):
            end, source = self.ends[o.place], o.source
            shown = self.shown(TONE, volts, o.place, source.output, columns)
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
                    amps = np.abs(self.shown(TONE, volts, place, part, columns)[:, : len(every)]) * loud
                    joined |= amps[:, others].sum(axis=1) > limit("outputs-joined") * (1 + SOME)
                    if source.kind == "line":
                        strained |= amps[:, every.index((place, number))] > limit("output-strained") * (
                            1 + SOME
                        )
        self.size_of, self.level, self.best = size, level, best
        self.found = (
            weigh("loaded-down", loaded)
            + weigh("outputs-joined", joined)
            + weigh("output-strained", strained)
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

    def _leads(self, some: np.ndarray) -> np.ndarray:
        """By leads not made for what is sent, by the devices alone, and at the outputs."""
        lost, leads = self.found.copy(), self.rows.leads[some]
        sent = next((o.source.kind for o, _ in self.pairs if o.source.kind in FAST), None)
        if sent and leads.shape[1]:
            metres = limit("not-for-data", sent=sent) if sent == "data" else 10
            lost += weigh("not-for-data", self.sieve.metres[leads].max(axis=1) > metres)
        small = lambda o, i: o.source.kind in SMALL and not (o.source.balanced and i.listener.balanced)
        if leads.shape[1] and any(small(o, i) for o, i in self.pairs):
            lost += weigh("unscreened", self.sieve.bare[leads].any(axis=1))
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
        return sum((weigh(id, where) for id, where in found.items()), np.zeros(len(self.best), dtype=int))

    def _bass(self, some: np.ndarray) -> np.ndarray:
        """Too little bass, beside what there is with nothing plugged in."""
        columns = [(o.place, self.ends[o.place].port.sources.index(o.source)) for o in self.sent]
        volts, thin = self.solved(BASS, some, columns), np.zeros(len(some), dtype=bool)
        for (o, i), here in self.near.items():
            end, number = self.ends[o.place], self.sent.index(o)
            low = np.abs(self.shown(BASS, volts, i.place, i.listener.between, columns)[:, number])
            own = [abs(end.alone(at, o.source.output, columns[number][1])) for at in (BASS, TONE)]
            change = (low / self.size_of[o, i]) / (own[0] / own[1])
            thin |= here & (change < 10 ** ((limit("thin") - ROOM) / 20))
        return weigh("thin", thin)

    def _mixed(self) -> np.ndarray:
        """Channels summed, upside down, or where another belongs."""
        found: dict[str, np.ndarray] = {}
        note = lambda id, where: found.update({id: found.get(id, False) | where})
        drop = 10 ** ((limit("cancels-in-mono") - ROOM) / 20)
        gone = lambda every: np.abs(sum(every)) < drop * sum(np.abs(one) for one in every)
        for i in self.heard:
            hears = self.hears(i)
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
        return sum((weigh(id, where) for id, where in found.items()), np.zeros(len(self.best), dtype=int))

    def hears(self, i: Input) -> np.ndarray:
        return np.any([self.level[o, i] > HEARD for o in self.sent], axis=0)
