"""Find the lead, or chain of leads, that gets one port into another: safest first, then
least lost, then shortest.

Best-first over chains of up to MOST_LEADS leads. All chains of a length are sifted at once (sieve.py): what
is left waits in the queue with the least its verdict can come to, is looked at when it is the best one left
(glance.py), and is judged when it still is, one way of plugging it after the other (by_ways.py). So what
comes out first is the best there is. Every chain offered has been judged whole; nothing is inferred from its
parts.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from heapq import heappop, heappush

from generator.catalogue.records import Catalogue, Lead, Port

from .by_ways import by_ways
from .constants import MOST_LEADS, OFFERED, ORDER_COSTS
from .glance import glance, plainly
from .kinds import something_to_hear
from .least import Least
from .mate import OPPOSITE, fits
from .rulebook import loss
from .sieve import Sieve
from .verdict import RANK, Verdict

FORMS = ("cable", "adapter", "converter", "splitter")  # from most to least common in a bag

Judge = Callable[[Catalogue, str, tuple[str, ...], str], Verdict]
Glance = Callable[[Catalogue, str, tuple[str, ...], str], tuple]  # of what a Least is made of
Sift = Callable[[str, str, int], Mapping[tuple[str, ...], tuple[float, int]]]
WORTH_OFFERING = RANK["lossy"] + ORDER_COSTS
SIFTED, LOOKED_AT, JUDGED = range(3)


class Search:
    """The search for ways in one catalogue; what it works out of leads and ports serves every pair."""

    def __init__(
        self,
        catalogue: Catalogue,
        judge: Judge | None = None,
        glance: Glance = glance,
        least: Sift | None = None,
        among: Collection[str] = (),
    ) -> None:
        """`among` has leads of which at least one is to be in every chain; without any, all will do. `judge`
        gives a verdict at once, instead of way by way."""
        self.catalogue, self.plain = catalogue, plainly(catalogue)
        self.judge, self.glance = judge, glance
        useful = {lead.id: not _extension(catalogue, lead) for lead in catalogue.leads.values()}
        self.least = least or Sieve(catalogue, useful, among).least

    def routes(
        self,
        start: str,
        target: str,
        offered: int = OFFERED,
        most: int = MOST_LEADS,
        known: Sequence[Verdict] = (),
    ) -> list[Verdict]:
        """The best chains, best first; never one that carries no signal or does not fit, nor one that is
        dangerous, but for a danger while plugging that a switch avoids: it is offered with its order, after
        what is as good without. Chains longer than one that is safe are not looked for, nor any where neither
        sends what the other hears, nor what is worse than so many ways that are `known`, best first."""
        catalogue = self.catalogue
        if not something_to_hear(catalogue.ports[start], catalogue.ports[target]):
            return []
        found: list[Verdict] = []
        if known and known[0].verdict == "safe":
            most = len(known[0].through)
        worst = cost(catalogue, known[offered - 1]) if len(known) >= offered else None
        judging: dict[tuple[str, ...], Iterator[Least | Verdict]] = {}
        # what waits: the least it can come to, how much is known of it, and what it is
        queue: list[tuple] = [((0, 0, 0, length), SIFTED, length) for length in range(most + 1)]
        while queue and len(found) < offered:
            bound, seen, best = heappop(queue)
            if worst and bound > worst:
                break
            if isinstance(best, int):
                if not (found and found[0].verdict == "safe"):
                    for chain, least in self.least(start, target, best).items():
                        heappush(queue, (_bound(catalogue, chain, *least), SIFTED, chain))
            elif seen == SIFTED:
                least = Least(*self.glance(self.plain, start, best, target))
                if least.rank <= WORTH_OFFERING:
                    heappush(queue, (_bound(catalogue, best, least.rank, least.lost), LOOKED_AT, best))
                    judging[best] = self._judging(start, best, target, least)
            elif seen == LOOKED_AT:
                told = next(judging[best])
                if isinstance(told, Verdict):
                    item = cost(catalogue, told), JUDGED, told
                else:
                    item = max(bound, _bound(catalogue, best, told.rank, told.lost)), LOOKED_AT, best
                if told.rank <= WORTH_OFFERING:
                    heappush(queue, item)
            else:
                found.append(best)
        return found

    def _judging(
        self, start: str, chain: tuple[str, ...], target: str, least: Least
    ) -> Iterator[Least | Verdict]:
        if self.judge:
            yield self.judge(self.catalogue, start, chain, target)
        else:
            yield from by_ways(self.catalogue, start, chain, target, least._replace(lost=0))


def settled(verdicts: Sequence[Verdict]) -> list[Verdict]:
    """Those of some ways, best first, that are no longer than the first, where that is safe."""
    most = len(verdicts[0].through) if verdicts and verdicts[0].verdict == "safe" else MOST_LEADS
    return [verdict for verdict in verdicts if len(verdict.through) <= most]


def routes(
    catalogue: Catalogue, start: str, target: str, offered: int = OFFERED, most: int = MOST_LEADS, **how
) -> list[Verdict]:
    """What a search of one pair finds."""
    return Search(catalogue, **how).routes(start, target, offered, most)


def remedies(catalogue: Catalogue, verdict: Verdict) -> tuple[Verdict, ...]:
    """What ends better, with up to two leads. `routes` looks further and takes its time."""
    better = routes(catalogue, verdict.start, verdict.target, most=2)
    return tuple(found for found in better if cost(catalogue, found) < cost(catalogue, verdict))


def cost(catalogue: Catalogue, verdict: Verdict) -> tuple:
    """What makes one answer worse than another: its rank, while plugging, how much is lost, leads, how rare
    they are in a bag, what to mind, metres, name."""
    lost = loss(finding.id for finding in verdict.findings if finding.severity == "lossy")
    notes = sum(finding.severity == "note" for finding in verdict.findings)
    rank, _, _, leads, rare, _, metres, name = _bound(catalogue, verdict.through, verdict.rank, lost)
    return rank, RANK[verdict.plugging], lost, leads, rare, notes, metres, name


def _bound(catalogue: Catalogue, chain: tuple[str, ...], rank: float, lost: int) -> tuple:
    """The least cost of a chain that loses so much: nothing while plugging and nothing to mind."""
    leads = [catalogue.leads[lead] for lead in chain]
    rare, metres = sum(FORMS.index(lead.form) for lead in leads), sum(lead.length or 0.0 for lead in leads)
    return rank, 0, lost, len(leads), rare, 0, metres, chain


def chains(catalogue: Catalogue, start: str, target: str, length: int) -> Iterator[tuple[str, ...]]:
    """Every chain of exactly `length` different leads whose halves go into each other, grown from From
    and pruned towards Into.

    Beside another lead a plain extension changes nothing and is left out. In chains of three every lead leads
    to a half not met before, or has parts inside: more plain adapters of one form in a row are thousands of
    chains that help nobody.
    """
    goal = _halves_towards(catalogue, catalogue.ports[target], length)
    useful = [lead for lead in catalogue.leads.values() if length < 2 or not _extension(catalogue, lead)]

    def grow(
        taken: tuple[str, ...], open_half: tuple[str, str], met: frozenset = frozenset()
    ) -> Iterator[tuple[str, ...]]:
        left = length - len(taken)
        if not any(_goes(catalogue, open_half, half) for half in goal[left]):
            return
        if not left:
            yield taken
            return
        met |= {open_half}
        for lead in useful:
            if lead.id in taken:
                continue
            for half in dict.fromkeys(_far_halves(catalogue, lead, open_half)):
                if length < MOST_LEADS or half not in met or lead.parts:
                    yield from grow((*taken, lead.id), half, met)

    port = catalogue.ports[start]
    yield from dict.fromkeys(grow((), (port.connector, port.half)))


def _extension(catalogue: Catalogue, lead: Lead) -> bool:
    """Does it lead every contact on to the same contact of the same connector, and do nothing else?"""
    near, *others = lead.ends.values()
    if (
        lead.parts
        or len(others) != 1
        or (others[0].connector, others[0].half) != (near.connector, OPPOSITE[near.half])
    ):
        return False
    straight = {
        frozenset((f"{near.id}.{contact}", f"{others[0].id}.{contact}"))
        for contact in catalogue.connectors[near.connector].contacts
    }
    return {frozenset(join.nodes) for join in lead.joins} == straight


def _halves_towards(catalogue: Catalogue, target: Port, length: int) -> list[set[tuple[str, str]]]:
    """For each number of leads still to come, the halves a chain may present next."""
    reach = [{(target.connector, target.half)}]
    for _ in range(length):
        reach.append(
            {
                (near.connector, near.half)
                for lead in catalogue.leads.values()
                for near in lead.ends.values()
                for far in lead.ends.values()
                if far is not near
                and any(_goes(catalogue, (far.connector, far.half), half) for half in reach[-1])
            }
        )
    return reach


def _far_halves(catalogue: Catalogue, lead: Lead, open_half: tuple[str, str]) -> Iterator[tuple[str, str]]:
    for near in lead.ends.values():
        if _goes(catalogue, open_half, (near.connector, near.half)):
            yield from ((far.connector, far.half) for far in lead.ends.values() if far is not near)


def _goes(catalogue: Catalogue, one: tuple[str, str], two: tuple[str, str]) -> bool:
    return fits((catalogue.connectors[one[0]], one[1]), (catalogue.connectors[two[0]], two[1]))
