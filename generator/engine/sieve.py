"""The least that the verdicts on all chains of so many leads between two ports can come to, worked out for
all of them at once: who hears whom, how loud, with how much hum, and whether what needs power gets it.

It sees less than a first look (glance.py), and never more: what falls through here cannot be offered. Numbers
are held against the rules with some room (`ROOM`), for they are those of ideal joints.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence

import numpy as np

from generator.catalogue.records import Catalogue, Port

from .constants import ADAPTER_METRES, BESIDE, BEST_REJECTION, GAIN_FLOOR, HEARD, HUM_FLOOR, VOICE
from .kinds import AUDIO, DIGITAL, FAST, LOUDSPEAKER, SMALL, as_sound, same_kind
from .pairing import Input, Output, asked, comparable, matched
from .powering import pairs as powerings
from .reduced import TIE, reduced
from .rulebook import loss, rules
from .signal import loudest
from .steps import AT, DIRECT, HUM, TONE, Half, Rows, Steps
from .verdict import RANK

ROOM = 0.5  # dB
SOME = 0.03  # of a direct voltage


class Socket:
    """A port as its contacts show it."""

    def __init__(self, catalogue: Catalogue, port: Port) -> None:
        self.port = port
        self.half: Half = (port.connector, port.half)
        contacts = catalogue.connectors[port.connector].contacts
        nodes = [port.contacts.get(contact, f"open.{contact}") for contact in contacts]
        chassis = ["chassis"] if any("chassis" in (part.a, part.b) for part in port.network.parts) else []
        kept = list(dict.fromkeys((*nodes, *chassis)))
        self.size, self.chassis = len(kept), kept.index("chassis") if chassis else None
        self.at = [kept.index(node) for node in nodes]
        supplies = {
            part.id: part.value.nominal for part in port.network.parts if part.kind == "emf" and part.value
        }
        self.sees = reduced(
            port.network.parts,
            port.network.couplings,
            kept,
            AT,
            [*(source.drive for source in port.sources), supplies],
            [*(one.between for one in port.listeners), *(one.between for one in port.needs)],
        )
        self.bends = any(part.kind in ("sink", "clamp") for part in port.network.parts)


def limit(id: str, **only: str) -> float:
    """What the first rule of this name, for these flags, holds its number against."""
    return float(
        next(r.limit for r in rules() if r.id == id and all(r.only.get(k) == v for k, v in only.items()))
    )


class Sieve:
    """What is known of a catalogue's leads and ports, worked out as it is asked for."""

    def __init__(self, catalogue: Catalogue, useful: Mapping[str, bool], among: Collection[str] = ()) -> None:
        self.catalogue, self.steps = catalogue, Steps(catalogue, among)
        self.useful = [useful[lead.id] for lead in self.steps.leads]
        self._sockets: dict[str, Socket] = {}
        self._rows: tuple[tuple, list[Rows]] | None = None
        leads = self.steps.leads
        self.parts = np.array(
            [bool(lead.parts) and LOUDSPEAKER not in lead.made_for for lead in leads] or [False]
        )
        self.metres = np.array(
            [0.0 if lead.impedance else lead.length or ADAPTER_METRES for lead in leads] or [0.0]
        )
        self.bare = np.array(
            [bool(lead.cable) and not any(join.screen for join in lead.joins) for lead in leads] or [False]
        )
        self.live = np.array([any(p.kind == "emf" for p in lead.network.parts) for lead in leads] or [False])

    def socket(self, name: str) -> Socket:
        if name not in self._sockets:
            self._sockets[name] = Socket(self.catalogue, self.catalogue.ports[name])
        return self._sockets[name]

    def rows(self, start: Half, target: Half, length: int) -> list[Rows]:
        """Those between these halves; the last ones are kept, for ports of equal halves follow each other."""
        if self._rows is None or self._rows[0] != (start, target, length):
            useful = self.useful if length > 1 else [True] * len(self.useful)
            self._rows = (start, target, length), list(self.steps.rows(start, target, length, useful))
        return self._rows[1]

    def least(self, start: str, target: str, length: int) -> dict[tuple[str, ...], tuple[float, int]]:
        """Every chain that may be worth a look, with the least rank and loss it can come to."""
        one, two = self.socket(start), self.socket(target)
        found: dict[tuple[str, ...], tuple[float, int]] = {}
        names = [lead.id for lead in self.steps.leads]
        for rows in self.rows(one.half, two.half, length):
            ranks, lost = Question(self, one, two, rows).answer()
            for row in np.flatnonzero(ranks <= RANK["lossy"]):
                chain = tuple(names[i] for i in rows.leads[row])
                least = float(ranks[row]), int(lost[row])
                found[chain] = min(found.get(chain, least), least)
        return found


class Question:
    """Rows of one form between two ports."""

    def __init__(self, sieve: Sieve, start: Socket, target: Socket, rows: Rows) -> None:
        self.sieve, self.rows = sieve, rows
        self.sides = [start] * (1 + rows.more[0]), [target] * (1 + rows.more[1])
        self.ends = [*self.sides[0], *self.sides[1]]
        self.first = np.cumsum([0, *(end.size for end in self.ends)])
        # what is asked is what From sends, if it sends anything that could be heard
        forth = start.port.sources and target.port.listeners
        self.send, self.hear = (0, 1) if forth else (1, 0)
        places = [
            ("from", "into")[side] + (str(n) if n > 1 else "")
            for side in (0, 1)
            for n in range(1, 2 + rows.more[side])
        ]
        self.place = {place: number for number, place in enumerate(places)}
        group = lambda side: [p for p in places if p.startswith(("from", "into")[side])]
        self.sent = [Output(p, s) for p in group(self.send) for s in self._end(p).port.sources]
        self.heard = [Input(p, l) for p in group(self.hear) for l in self._end(p).port.listeners]

    def _end(self, place: str) -> Socket:
        return self.ends[self.place[place]]

    def _matrix(self, at: int, some: np.ndarray) -> np.ndarray:
        """Admittances between the contacts of all ports, joined by these rows."""
        nodes = [self.first[n] + node for n, end in enumerate(self.ends) for node in end.at]
        size = self.first[-1]
        given = self.rows.admittance[at][some]
        if len(set(nodes)) == len(nodes):
            matrix = np.zeros((len(some), size, size), dtype=complex)
            matrix[:, np.array(nodes)[:, None], nodes] = given
        else:
            spread = np.zeros((len(nodes), size))
            spread[range(len(nodes)), nodes] = 1
            matrix = spread.T @ given @ spread
        for first, end in zip(self.first, self.ends):
            matrix[:, first : first + end.size, first : first + end.size] += end.sees.admittance[at]
        matrix[:, range(size), range(size)] += TIE
        return matrix

    def _pushed(self, at: int, outputs: Sequence[Output]) -> np.ndarray:
        right = np.zeros((self.first[-1], len(outputs)), dtype=complex)
        for column, o in enumerate(outputs):
            number = self.place[o.place]
            end = self.ends[number]
            right[self.first[number] : self.first[number + 1], column] = end.sees.pushed[
                at, end.port.sources.index(o.source)
            ]
        return right

    def _heard(self, at: int, volts: np.ndarray, place: str, which: int) -> np.ndarray:
        """What is found between two nodes of a port, by their number among its listeners and needs."""
        number = self.place[place]
        end = self.ends[number]
        return np.einsum(
            "n,rnd->rd", end.sees.heard[at, which], volts[:, self.first[number] : self.first[number + 1]]
        )

    def answer(self) -> tuple[np.ndarray, np.ndarray]:
        """The least rank and loss of every row."""
        count = len(self.rows.leads)
        rank, lost = np.zeros(count), np.zeros(count, dtype=int)
        wanted = asked(self.sent, self.heard)
        same = [(o, i) for o, i in wanted if same_kind(o.source, i.listener)]
        alike = comparable(self.sent, self.heard)
        pairs = [pair for pair in same if pair in alike] or same
        if not pairs or not alike:
            return np.full(count, RANK["no signal"]), lost
        some = np.arange(count)
        speaks, listens = (
            [any(one.kind == LOUDSPEAKER for one in getattr(side[0].port, what)) for side in self.sides]
            for what in ("sources", "listeners")
        )
        if any(speaks[side] and not listens[1 - side] for side in (0, 1)):
            return np.full(count, RANK["dangerous"]), lost
        if any(speaks):
            some = some[~self.sieve.parts[self.rows.leads].any(axis=1)]
        rank[:] = RANK["no signal"]
        if not len(some):
            return rank, lost
        volts = np.linalg.solve(self._matrix(TONE, some), self._pushed(TONE, self.sent)[None])
        gain = {}
        for i in self.heard:
            every = self._heard(TONE, volts, i.place, self._end(i.place).port.listeners.index(i.listener))
            gain |= {(o, i): every[:, column] for column, o in enumerate(self.sent)}
        size = {pair: np.maximum(np.abs(one), GAIN_FLOOR) for pair, one in gain.items()}
        level = {pair: 20 * np.log10(one) for pair, one in size.items()}
        best = np.max([level[pair] for pair in alike], axis=0)
        works = best >= HEARD - ROOM
        for pair in wanted:
            if not same_kind(pair[0].source, pair[1].listener):
                works &= level[pair] <= HEARD + ROOM
        works &= self._powered(some, works)
        own = some[works]
        rank[own] = RANK["safe"]
        if len(own):
            cut = {pair: one[works] for pair, one in gain.items()}
            lost[own] = self._lost(
                own,
                cut,
                {p: v[works] for p, v in size.items()},
                {p: v[works] for p, v in level.items()},
                best[works],
                pairs,
            )
            rank[own[lost[own] > 0]] = RANK["lossy"]
        return rank, lost

    def _powered(self, some: np.ndarray, works: np.ndarray) -> np.ndarray:
        """Does anything that sends, and needs power to, find it? With every supply on; what draws current is
        left out, so no less can be there than this."""
        result = np.ones(len(some), dtype=bool)
        group = [p for p in self.place if p.startswith(("from", "into")[self.send])]
        needs = [(p, n) for p in group for n in range(len(self._end(p).port.needs))]
        todo = np.flatnonzero(works & ~self.sieve.live[self.rows.leads[some]].any(axis=1))
        if not needs or not len(todo):
            return result
        right = np.concatenate([end.sees.pushed[DIRECT, -1] for end in self.ends])
        volts = np.linalg.solve(self._matrix(DIRECT, some[todo]), right[None, :, None])
        for place in group:
            port = self._end(place).port
            met = [
                self._heard(DIRECT, volts, place, len(port.listeners) + n)[:, 0].real
                >= need.least * (1 - SOME)
                for n, need in enumerate(port.needs)
            ]
            if met:
                result[todo] &= np.any(met, axis=0)
        return result

    def _lost(self, own, gain, size, level, best, pairs) -> np.ndarray:
        """What is lost for certain."""
        lost = np.zeros(len(own), dtype=int)
        weigh = lambda id, where: loss([id]) * np.asarray(where, dtype=int)
        leads = self.rows.leads[own]
        several = len(self.ends) > 2
        sent = next((o.source.kind for o, _ in pairs if o.source.kind in FAST), None)
        if sent and leads.shape[1]:
            metres = self.sieve.metres[leads].max(axis=1)
            lost += weigh("not-for-data", metres > (0 if sent == "data" else 10))
        if leads.shape[1] and any(
            o.source.kind in SMALL and not (o.source.balanced and i.listener.balanced) for o, i in pairs
        ):
            lost += weigh("unscreened", self.sieve.bare[leads].any(axis=1))
        if any(as_sound(o.source, i.listener) for o, i in pairs):
            lost += weigh("timecode-as-sound", True)
        if any(all(o is not other for other, _ in pairs) for o in self.sent):
            lost += weigh("not-heard", True)
        relative = {pair: level[pair] - best for pair in pairs}
        if not several:
            apart = [relative[pair] < limit("one-side-only") - ROOM for pair in pairs]
            lost += weigh("one-side-only", np.any(apart, axis=0))
        near = {pair: relative[pair] > BESIDE for pair in pairs}
        found = {name: np.zeros(len(own), dtype=bool) for name in ("too-hot", "too-quiet", "level-not-known")}
        for (o, i), here in near.items():
            s, l = o.source, i.listener
            if l.maximum and loudest(s) and s.kind != "microphone":
                found["too-hot"] |= here & (loudest(s) * size[o, i] / l.maximum > 10 ** (ROOM / 20))
            if l.sensitivity and s.nominal:
                under = -20 * np.log10(s.nominal * size[o, i] / l.sensitivity)
                found["too-quiet"] |= here & (under > limit("too-quiet") + ROOM)
            if s.kind in AUDIO and not (l.maximum and l.sensitivity and s.maximum and s.nominal):
                found["level-not-known"] |= here
        for name, where in found.items():
            lost += weigh(name, where)
        lost += self._mixed(own, gain, size, level, near, weigh)
        return lost + self._hum(own, size, level, near, weigh)

    def _mixed(self, own, gain, size, level, near, weigh) -> np.ndarray:
        """Channels summed, upside down, or where another belongs."""
        mono, sides, cross, changed, reversed_ = (np.zeros(len(own), dtype=bool) for _ in range(5))
        drop = 10 ** ((limit("cancels-in-mono") - ROOM) / 20)
        kept = lambda every: np.abs(sum(every)) < drop * sum(np.abs(one) for one in every)
        for i in self.heard:
            hears = np.any([level[o, i] > HEARD for o in self.sent], axis=0)
            if len(self.sent) > 1:
                mono |= hears & kept([gain[o, i] for o in self.sent])
            own_ones = [o for o in self.sent if matched(o, i)]
            if own_ones:
                belongs = np.maximum(np.min([level[o, i] for o in own_ones], axis=0), HEARD)
                for o in self.sent:
                    if not matched(o, i):
                        over = level[o, i] - belongs
                        cross |= hears & (over > limit("crosstalk") + ROOM)
                        changed |= hears & (over > limit("channels-crossed") + ROOM)
            heard = [o for o in self.sent if (o, i) in near]
            if heard and i.listener.kind != DIGITAL:
                down = [~near[o, i] | (gain[o, i].real < -0.05 * np.abs(gain[o, i])) for o in heard]
                reversed_ |= hears & np.all(down, axis=0) & np.any([near[o, i] for o in heard], axis=0)
        for o in self.sent:
            by_place: dict[str, list] = {}
            for i in self.heard:
                if (o, i) in near and i.listener.kind != DIGITAL:
                    by_place.setdefault(i.place, []).append(i)
            for here in by_place.values():
                if len(here) > 1:
                    all_near = np.all([near[o, i] for i in here], axis=0)
                    sides |= all_near & kept([gain[o, i] for i in here])
        return (
            weigh("cancels-in-mono", mono)
            + weigh("sides-opposed", sides)
            + weigh("crosstalk", cross)
            + weigh("channels-crossed", changed)
            + weigh("reversed", reversed_)
        )

    def _hum(self, own, size, level, near, weigh) -> np.ndarray:
        """What a difference between the two chassis leaves at an input that is to be balanced."""
        nothing = np.zeros(len(own), dtype=int)
        one, two = self.ends[0], self.ends[len(self.sides[0])]
        if one.chassis is None or two.chassis is None:
            return nothing
        told = [i for i in self.heard if i.listener.balanced or any(o.source.balanced for o in self.sent)]
        if not told:
            return nothing
        a, b = one.chassis, self.first[len(self.sides[0])] + two.chassis
        every = powerings(one.port.powered_by, two.port.powered_by)
        hum = {i: np.zeros(len(own)) for i in told}
        lost_balance = np.zeros(len(own), dtype=bool)
        for number, pair in enumerate(every):
            for at in (HUM, TONE) if number == 0 else (HUM,):
                siemens = 1 / (pair.ohm + 1 / (2j * np.pi * AT[at] * pair.farad))
                matrix = self._matrix(at, own)
                for row, column, sign in ((a, a, 1), (b, b, 1), (a, b, -1), (b, a, -1)):
                    matrix[:, row, column] += sign * siemens
                right = np.zeros((self.first[-1], 1), dtype=complex)
                right[a, 0], right[b, 0] = siemens, -siemens
                volts = np.linalg.solve(matrix, right[None])
                between = np.maximum(np.abs(volts[:, a, 0] - volts[:, b, 0]), GAIN_FLOOR)
                for i in told:
                    left = np.abs(
                        self._heard(at, volts, i.place, self._end(i.place).port.listeners.index(i.listener))[
                            :, 0
                        ]
                    )
                    if number == 0:
                        held = -20 * np.log10(np.maximum(left / between, 10 ** (-BEST_REJECTION / 20)))
                        lost_balance |= (
                            self._balanced(i, near)
                            & self._hears(i, level)
                            & (held < limit("balance-lost") - ROOM)
                        )
                    if at == HUM:
                        hum[i] = np.maximum(hum[i], left * pair.volts)
        unbalanced = np.zeros(len(own), dtype=bool)
        for i in told:
            heard = [o for o in self.sent if (o, i) in near and o.source.nominal]
            if not heard:
                continue
            wanted = np.min(
                [
                    np.where(
                        near[o, i],
                        size[o, i]
                        * o.source.nominal
                        * (10 ** (VOICE / 20) if o.source.kind == "microphone" else 1),
                        np.inf,
                    )
                    for o in heard
                ],
                axis=0,
            )
            below = 20 * np.log10(
                wanted / np.maximum(hum[i], 10 ** (HUM_FLOOR / 20) * np.minimum(wanted, 1e9))
            )
            unbalanced |= (
                self._balanced(i, near) & self._hears(i, level) & (below < limit("unbalanced") - ROOM)
            )
        return weigh("unbalanced", unbalanced) + weigh("balance-lost", lost_balance)

    def _balanced(self, i: Input, near: Mapping) -> np.ndarray:
        if i.listener.balanced:
            return np.True_
        return np.any(
            [here for (o, other), here in near.items() if other is i and o.source.balanced] or [False], axis=0
        )

    def _hears(self, i: Input, level: Mapping) -> np.ndarray:
        return np.any([level[o, i] > HEARD for o in self.sent], axis=0)
