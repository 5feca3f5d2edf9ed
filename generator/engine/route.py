"""Find the lead, or chain of leads, that gets one port into another: safest first, then
least lost, then shortest.

Best-first over chains of up to MOST_LEADS leads. A chain waits in the queue with the least its verdict can
come to. When it is the best one left it is looked at more closely (sieve.py, glance.py), in the end judged,
so what comes out first is the best there is.
Every chain offered has been judged; nothing is inferred from its parts.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from heapq import heappop, heappush
from itertools import count

from generator.catalogue.records import Catalogue, Lead, Port

from .constants import MOST_LEADS, OFFERED, ORDER_COSTS
from .glance import glance, plainly
from .judge import judge
from .kinds import something_to_hear
from .mate import OPPOSITE, fits
from .rulebook import loss
from .sieve import sieve
from .verdict import RANK, Verdict

FORMS = ("cable", "adapter", "converter", "splitter")  # from most to least common in a bag

Judge = Callable[[Catalogue, str, tuple[str, ...], str], Verdict]
Glance = Callable[[Catalogue, str, tuple[str, ...], str], tuple[float, int]]
LOOKS: tuple[Glance, ...] = (sieve, glance)  # at a chain, each closer and dearer than the one before
WORTH_OFFERING = RANK["lossy"] + ORDER_COSTS


def routes(
    catalogue: Catalogue,
    start: str,
    target: str,
    offered: int = OFFERED,
    most: int = MOST_LEADS,
    judge: Judge = judge,
    looks: Sequence[Glance] = LOOKS,
) -> list[Verdict]:
    """The best chains, best first; never one that carries no signal or does not fit, nor one that is
    dangerous, but for a danger while plugging that a switch avoids: it is offered with its order, after what
    is as good without. Chains longer than one that is safe are not looked for, nor any where neither sends
    what the other hears."""
    if not something_to_hear(catalogue.ports[start], catalogue.ports[target]):
        return []
    found: list[Verdict] = []
    order = count()  # of equals the one that was met first
    plain = plainly(catalogue)
    queue: list[tuple] = [((0, 0, 0, length), next(order), length) for length in range(most + 1)]

    def look(chain: tuple[str, ...], closer: int) -> None:
        rank, lost = looks[closer](plain, start, chain, target)
        if rank <= WORTH_OFFERING:
            least = (rank, 0, lost, *_carried(catalogue, chain, notes=0))
            heappush(queue, (least, next(order), (chain, closer + 1)))

    while queue and len(found) < offered:
        _, _, best = heappop(queue)
        if isinstance(best, Verdict):
            found.append(best)
        elif isinstance(best, tuple):
            chain, looked = best
            if looked < len(looks):
                look(chain, looked)
                continue
            verdict = judge(catalogue, start, chain, target)
            if verdict.rank <= WORTH_OFFERING:
                heappush(queue, (cost(catalogue, verdict), next(order), verdict))
        elif not (found and found[0].verdict == "safe"):
            for chain in chains(catalogue, start, target, best):
                look(chain, 0)
    return found


def remedies(catalogue: Catalogue, verdict: Verdict) -> tuple[Verdict, ...]:
    """What ends better, with up to two leads. `routes` looks further and takes its time."""
    better = routes(catalogue, verdict.start, verdict.target, most=2)
    return tuple(found for found in better if cost(catalogue, found) < cost(catalogue, verdict))


def cost(catalogue: Catalogue, verdict: Verdict) -> tuple:
    """What makes one answer worse than another: its rank, while plugging, how much is lost, leads, how rare
    they are in a bag, what to mind, metres, name."""
    lost = loss(finding.id for finding in verdict.findings if finding.severity == "lossy")
    notes = sum(finding.severity == "note" for finding in verdict.findings)
    return verdict.rank, RANK[verdict.plugging], lost, *_carried(catalogue, verdict.through, notes)


def _carried(catalogue: Catalogue, through: tuple[str, ...], notes: int) -> tuple:
    """The part of it that hangs on the leads, but for what there is to mind."""
    leads = [catalogue.leads[lead] for lead in through]
    rare, metres = sum(FORMS.index(lead.form) for lead in leads), sum(lead.length or 0.0 for lead in leads)
    return len(leads), rare, notes, metres, through


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
