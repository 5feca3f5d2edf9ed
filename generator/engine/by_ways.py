"""A connection judged one way of plugging after the other. After each it is told what the verdict can come
to at the least, so that a search leaves a chain as soon as another may be better, and goes on with it when
none is.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Hashable, Iterator, Mapping, Sequence
from functools import reduce

from generator.catalogue.records import Catalogue, Lead, Port

from .assemble import ways
from .assembly import Way
from .constants import MOST_WAYS
from .judge import combine, judge, judge_way, labels, partners
from .least import HOPELESS, Least, least_of, switched
from .verdict import Verdict

Connection = tuple[Port, Sequence[Lead], Port]  # outlet, leads, inlet

SELDOM = 0.05  # how often a way that was never met is dangerous


class ByWays:
    """Connections of a catalogue. What was dangerous in one chain is worked out first in the next."""

    def __init__(self, catalogue: Catalogue) -> None:
        self.catalogue = catalogue
        self._tried: Counter[Hashable] = Counter()
        self._found: Counter[Hashable] = Counter()

    def __call__(
        self, start: str, through: Sequence[str], target: str, before: Least
    ) -> Iterator[Least | Verdict]:
        """The least after every way, then the verdict; `before` is what was known of any choice of ends."""
        catalogue, leads = self.catalogue, [self.catalogue.leads[name] for name in through]
        connection = catalogue.ports[start], leads, catalogue.ports[target]
        possible = ways(catalogue, *connection)
        if not 0 < len(possible) <= MOST_WAYS:
            yield judge(catalogue, start, through, target)
            return
        known = Known(catalogue, connection, possible, before)
        judged: dict[Way, Verdict] = {}
        for way in self._likely(leads, possible, known.settings):
            judged[way] = judge_way(catalogue, *connection, way)
            self._learn(_marks(leads, way), known.note(way, judged[way]))
            if len(judged) < len(possible):
                yield known.least()
        yield combine(leads, [judged[way] for way in possible], partners(catalogue, possible))

    def _likely(
        self, leads: Sequence[Lead], possible: Sequence[Way], settings: Mapping[Way, int]
    ) -> list[Way]:
        """Ways in order of how likely they are to be dangerous, by what was, and how soon that is known."""
        worth = lambda way: max(map(self._rate, _marks(leads, way))) / _effort(settings[way], way)
        return sorted(possible, key=lambda way: (-worth(way), way is not possible[0]))

    def _learn(self, marks: Sequence[Hashable], danger: bool) -> None:
        self._tried.update(marks)
        self._found.update(marks if danger else ())

    def _rate(self, mark: Hashable) -> float:
        return (self._found[mark] + SELDOM) / (1 + self._tried[mark])


def _effort(settings: int, way: Way) -> float:
    """What it takes to work out a way, in terms of one without supplies and with nothing else plugged in."""
    return settings * 2 ** len(way.plugged)


def _marks(leads: Sequence[Lead], way: Way) -> list[Hashable]:
    """What a way may have in common with one of another chain."""
    return [
        ("meant", way.meant, len(way.plugged)),
        *((lead.id, ends) for lead, ends in zip(leads, way.ends)),
        *((leads[one.lead].id, one.end, one.port) for one in way.plugged),
    ]


class Known:
    """What is known of the ways of a chain, and what `judge.combine` can make of it at the least."""

    def __init__(
        self, catalogue: Catalogue, connection: Connection, possible: Sequence[Way], before: Least
    ) -> None:
        _, leads, _ = connection
        self._before, self._least, self._dangerous = before, {}, set()
        self._choices: dict[tuple[str, ...], list[Way]] = {}
        for way in possible:
            if way.meant:
                self._choices.setdefault(labels(leads, way), []).append(way)
        each = {way: switched(catalogue, *connection, way) for way in possible}
        self.settings = {way: len(settings) for way, settings in each.items()}
        self._most = max(self.settings[way] for group in self._choices.values() for way in group)
        # of a choice those ways count whose switches the fullest has too
        self._choices = {
            choice: [way for way in group if each[way][0].keys() <= _fullest(group, each)[0].keys()]
            for choice, group in self._choices.items()
        }

    def note(self, way: Way, verdict: Verdict) -> bool:
        """Something is found of a way; is it a danger that counts?"""
        self._least[way] = least_of(verdict, self._most)
        danger = (
            verdict.verdict == "dangerous"
            if way.meant
            else not way.plugged and any(finding.severity == "dangerous" for finding in verdict.findings)
        )
        if danger:
            self._dangerous.add(way)
        return danger

    def least(self) -> Least:
        """What the verdict can come to."""
        # nobody has to plug in what hangs there; where one choice is dangerous, only what is dangerous counts
        spoilt = [way for way in self._dangerous if way.meant]
        if len(spoilt) < len(self._dangerous) or (spoilt and self._most == 1):
            return HOPELESS
        found = []
        for group in self._choices.values():
            least = reduce(
                Least.and_, (self._least[way] for way in group if way in self._least), self._before
            )
            found.append(least._replace(rank=least.ordered) if spoilt else least)
        return min(found)


def _fullest(group: Sequence[Way], settings: Mapping[Way, Sequence[Mapping]]) -> Sequence[Mapping]:
    """The settings of the way that has most of them."""
    return max((settings[way] for way in group), key=len)
