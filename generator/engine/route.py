"""Find the lead, or chain of leads, that gets one port into another: safest first, then least lost, then shortest.

Best-first over chains of up to MOST leads. Every chain offered has been judged; nothing is inferred from its parts.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from generator.catalogue.records import Catalogue, Lead, Port

from .judge import RANK, Verdict, judge
from .mate import fits

MOST = 3  # leads in a row
OFFERED = 3

Judge = Callable[[Catalogue, str, tuple[str, ...], str], Verdict]


def routes(catalogue: Catalogue, start: str, target: str, offered: int = OFFERED, most: int = MOST, judge: Judge = judge) -> list[Verdict]:
    """The best chains, best first; never one that is dangerous, carries no signal or does not fit. Shorter chains are searched first and a
    longer one is only looked for while nothing safe has been found."""
    found: list[Verdict] = []
    length = 0
    while length <= most and not (found and found[0].verdict == "safe"):
        found += [judge(catalogue, start, chain, target) for chain in chains(catalogue, start, target, length)]
        found = sorted((v for v in found if RANK[v.verdict] <= RANK["lossy"]), key=cost)
        if found:  # something works: one more adapter is worth it only if it makes it safe
            most = min(most, length + 1)
        length += 1
    return found[:offered]


def remedies(catalogue: Catalogue, verdict: Verdict) -> tuple[Verdict, ...]:
    """What ends better: without or with one lead, and two in a row only where nothing else works. `routes` looks further and takes its time."""
    for most in (1,) if verdict.verdict == "lossy" else (1, 2):
        better = tuple(found for found in routes(catalogue, verdict.start, verdict.target, most=most) if cost(found) < cost(verdict))
        if better:
            return better
    return ()


def cost(verdict: Verdict) -> tuple:
    """What makes one answer worse than another: verdict, while plugging, how much is lost, leads, name."""
    lost = sum(finding.severity == "lossy" for finding in verdict.findings)
    notes = sum(finding.severity == "note" for finding in verdict.findings)
    return RANK[verdict.verdict], RANK[verdict.plugging], lost, len(verdict.through), notes, verdict.through


def chains(catalogue: Catalogue, start: str, target: str, length: int) -> Iterator[tuple[str, ...]]:
    """Every chain of exactly `length` different leads whose halves go into each other, grown from From and pruned towards Into.

    In chains of three every lead has to lead to a half not met before: more boxes of one form in a row are thousands of chains that help nobody.
    """
    goal = _halves_towards(catalogue, catalogue.ports[target], length)

    def grow(taken: tuple[str, ...], open_half: tuple[str, str], met: frozenset = frozenset()) -> Iterator[tuple[str, ...]]:
        left = length - len(taken)
        if not any(_goes(catalogue, open_half, half) for half in goal[left]):
            return
        if not left:
            yield taken
            return
        met |= {open_half}
        for lead in catalogue.leads.values():
            if lead.id in taken:
                continue
            for half in dict.fromkeys(_far_halves(catalogue, lead, open_half)):
                if length < MOST or half not in met:
                    yield from grow((*taken, lead.id), half, met)

    port = catalogue.ports[start]
    yield from dict.fromkeys(grow((), (port.connector, port.half)))


def _halves_towards(catalogue: Catalogue, target: Port, length: int) -> list[set[tuple[str, str]]]:
    """For each number of leads still to come, the halves a chain may present next."""
    reach = [{(target.connector, target.half)}]
    for _ in range(length):
        reach.append({(near.connector, near.half) for lead in catalogue.leads.values() for near in lead.ends.values()
                      for far in lead.ends.values() if far is not near and any(_goes(catalogue, (far.connector, far.half), half) for half in reach[-1])})
    return reach


def _far_halves(catalogue: Catalogue, lead: Lead, open_half: tuple[str, str]) -> Iterator[tuple[str, str]]:
    for near in lead.ends.values():
        if _goes(catalogue, open_half, (near.connector, near.half)):
            yield from ((far.connector, far.half) for far in lead.ends.values() if far is not near)


def _goes(catalogue: Catalogue, one: tuple[str, str], two: tuple[str, str]) -> bool:
    return fits((catalogue.connectors[one[0]], one[1]), (catalogue.connectors[two[0]], two[1]))
