"""The least that a verdict can come to, as far as it is known."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from generator.catalogue.records import Catalogue, Lead, Port

from .assemble import placed
from .assembly import Way
from .constants import ORDER_COSTS
from .rulebook import loss
from .switches import settings
from .verdict import RANK, Verdict


class Least(NamedTuple):
    """A rank and what is lost; and the rank in case it is dangerous, which is to be offered with an order."""

    rank: float
    lost: int
    ordered: float = ORDER_COSTS

    def and_(self, other: "Least") -> "Least":
        """Both hold."""
        return Least(*map(max, self, other))


HOPELESS = Least(RANK["dangerous"], 0, RANK["dangerous"])


def switched(
    catalogue: Catalogue, outlet: Port, leads: Sequence[Lead], inlet: Port, way: Way
) -> list[dict[str, str]]:
    """Every setting of what can be switched in a way of plugging."""
    places = placed(catalogue, outlet, leads, inlet, way)
    return settings({place: record for place, record in places.items() if isinstance(record, Port)})


def least_of(verdict: Verdict, most: int) -> Least:
    """What the verdict of one way comes to when more is found against it, beside ways with so many settings.
    A setting that is well in itself may turn out to be one that must not be plugged; then another is needed
    to plug in with."""
    lost = loss(finding.id for finding in verdict.findings if finding.severity == "lossy")
    ends = [RANK[settled] for settled, _ in verdict.moments if settled != "dangerous"]
    starts = [moment for moment in verdict.moments if "dangerous" not in moment]
    others = len(ends) > 1 or len(verdict.settings) < most  # one of its settings may be several
    may_be = starts and others and min(ends) <= RANK["lossy"]
    ordered = min(ends) + ORDER_COSTS if may_be else HOPELESS.rank
    return Least(ordered if verdict.verdict == "dangerous" else verdict.least_rank, lost, ordered)
