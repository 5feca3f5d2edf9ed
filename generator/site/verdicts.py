"""Judged connections as the pages need them: rows (see `generator.ledger.rows`), and the best of a group."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable

from generator.engine.rulebook import loss
from generator.engine.constants import ORDER_COSTS
from generator.engine.verdict import VERDICTS
from generator.ledger.rows import Row

ORDER = VERDICTS  # best first
SLUGS = {verdict: verdict.replace(" ", "-") for verdict in ORDER}


def rank(entry: Row) -> tuple:
    """Sort key: best verdict first, what a switch makes well half a step below what is well without, then
    least lost, then fewest leads, then name."""
    return (
        ORDER.index(entry["offered"]) + ORDER_COSTS if entry["offered"] else ORDER.index(entry["verdict"]),
        loss(entry["findings"]),
        len(entry["through"]),
        entry["through"],
    )


def best(rows: Iterable[Row]) -> str:
    """The best verdict of some rows. One that is dangerous is, whatever a switch makes of it."""
    return min((entry["verdict"] for entry in rows), key=ORDER.index)


def grouped(rows: Iterable[Row], key: str) -> dict[str, list[Row]]:
    """Rows by their `from` or `into`, each group best first, groups in id order."""
    groups: dict[str, list[Row]] = defaultdict(list)
    for entry in rows:
        groups[entry[key]].append(entry)
    return {name: sorted(groups[name], key=rank) for name in sorted(groups)}


def tally(rows: Iterable[Row]) -> dict[str, int]:
    """How many rows have each verdict, worst first, leaving out verdicts nobody has."""
    counts = dict.fromkeys(reversed(ORDER), 0)
    for entry in rows:
        counts[entry["verdict"]] += 1
    return {verdict: count for verdict, count in counts.items() if count}
