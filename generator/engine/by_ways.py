"""A connection judged one way of plugging after the other. After each it is told what the verdict can come
to at the least, so that a search leaves a chain as soon as another may be better, and goes on with it when
none is.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import reduce

from generator.catalogue.records import Catalogue, Lead, Port

from .assemble import ways
from .assembly import Way
from .constants import MOST_WAYS
from .judge import combine, judge, judge_way, labels, partners
from .least import HOPELESS, Least, least_of, switched
from .verdict import Verdict

Connection = tuple[Port, Sequence[Lead], Port]  # outlet, leads, inlet


def by_ways(
    catalogue: Catalogue, start: str, through: Sequence[str], target: str, before: Least
) -> Iterator[Least | Verdict]:
    """The least after every way, then the verdict; `before` is what was known of any choice of ends."""
    leads = [catalogue.leads[name] for name in through]
    connection = catalogue.ports[start], leads, catalogue.ports[target]
    possible = ways(catalogue, *connection)
    if not 0 < len(possible) <= MOST_WAYS:
        yield judge(catalogue, start, through, target)
        return
    known, judged = Known(catalogue, connection, possible, before), {}
    # the first tells most; then those of which any danger is enough
    for way in sorted(possible, key=lambda way: (way is not possible[0], way.meant or bool(way.plugged))):
        judged[way] = judge_way(catalogue, *connection, way)
        known.note(way, judged[way])
        if len(judged) < len(possible):
            yield known.least()
    yield combine(leads, [judged[way] for way in possible], partners(catalogue, possible))


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
        self._most = max(len(each[way]) for group in self._choices.values() for way in group)
        # of a choice those ways count whose switches the fullest has too
        self._choices = {
            choice: [way for way in group if each[way][0].keys() <= _fullest(group, each)[0].keys()]
            for choice, group in self._choices.items()
        }

    def note(self, way: Way, verdict: Verdict) -> None:
        """A way is judged."""
        self._least[way] = least_of(verdict, self._most)
        # nobody has to plug in what hangs there; else the verdict of the way is what counts
        hangs = not (way.meant or way.plugged)
        if (way.meant and verdict.verdict == "dangerous") or (
            hangs and any(finding.severity == "dangerous" for finding in verdict.findings)
        ):
            self._dangerous.add(way)

    def least(self) -> Least:
        """What the verdict can come to."""
        # where one choice is dangerous, only what is dangerous counts
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
