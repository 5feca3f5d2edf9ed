"""Which fact decides each verdict, and how that fact is known: coverage weighted by what hangs on it.

A verdict hangs on the number its first deciding finding was held against: what a part stands or needs, which
the catalogue says, or a limit of the rulebook.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from generator.catalogue.records import GRADES, Catalogue, Lead, Limit, Need, Port
from generator.engine.limits import kind_of
from generator.engine.rulebook import Rule, rules
from generator.engine.words import quantity
from generator.ledger.rows import Row

SOURCED = ("standard", "published")
DECIDED = ("dangerous", "no signal", "lossy")  # safe and "does not fit" hang on no single number


@dataclass(frozen=True)
class Fact:
    """`says` in words; `path` is the address of a page that has it; circuits that share a
    template share its facts."""

    says: str
    path: str
    grade: str
    note: str


class Facts:
    """The facts that the rows of a catalogue's ledger hang on."""

    def __init__(self, catalogue: Catalogue) -> None:
        self.catalogue = catalogue
        self.own: dict[tuple, Fact] = {}  # of the parts of a record

    def of(self, row: Row) -> Fact | None:
        """The fact a row hangs on; None where it hangs on no number."""
        if row["verdict"] not in DECIDED or not row["findings"]:
            return None
        spoken = any(
            source.kind == "microphone"
            for end in ("from", "into")
            for source in self.catalogue.ports[row[end]].sources
        )
        met = [
            rule
            for rule in rules()
            if rule.id == row["findings"][0]
            and rule.severity in DECIDED
            and (spoken or rule.quantity != "shout-level")
        ]
        limit = row.get("number", "").partition(" / ")[2]
        met = [rule for rule in met if limit and _may_tell(rule, limit)] or met
        place, _, id = row.get("subject", "").partition("/")
        record = self._record(row, place)
        part = (
            next(
                (one for one in (*record.network.limits, *getattr(record, "needs", ())) if one.id == id), None
            )
            if record
            else None
        )
        if part and any(rule.limit == "own" for rule in met):
            return self._part(record, part)
        unrated = [
            rule
            for rule in met
            if isinstance(part, Limit)
            and rule.quantity == f"unrated-{part.quantity}"
            and rule.only.get("kind", "") in ("", kind_of(record, part))
        ]
        # of rows that the ledger cannot tell apart the weakest
        return _limit(max(unrated or met, key=lambda rule: GRADES.index(rule.evidence))) if met else None

    def weighed(self, rows: list[Row]) -> dict[Fact, Counter[str]]:
        """Fact -> how many of each verdict it decides, the one that most of the
        dangerous ones hang on first."""
        found: dict[Fact, Counter[str]] = {}
        for row in rows:
            fact = self.of(row)
            if fact:
                found.setdefault(fact, Counter())[row["verdict"]] += 1
        return dict(
            sorted(
                found.items(), key=lambda item: (-item[1]["dangerous"], -sum(item[1].values()), item[0].says)
            )
        )

    def _record(self, row: Row, place: str) -> Port | Lead | None:
        """The port or lead at a place; None for a partner in a spare end, which the row does not name."""
        kind, number = place.rstrip("0123456789"), place.lstrip("abcdefghijklmnopqrstuvwxyz")
        if kind == "lead":
            return self.catalogue.leads[row["through"][int(number) - 1]]
        return self.catalogue.ports[row[kind]] if kind in ("from", "into") else None

    def _part(self, record: Port | Lead, part: Limit | Need) -> Fact:
        """What the record says of a part of it, or of what it needs."""
        key = getattr(record, "circuits", (record.id,)), part.id.rpartition(".")[2], part.where, part.evidence
        if key not in self.own:
            kind = "ports" if isinstance(record, Port) else "leads"
            needs = "needs" if isinstance(part, Need) else "stands"
            self.own[key] = Fact(
                f"What the {part.where} {needs}: {record.name}",
                f"{kind}/{record.id}/",
                part.evidence.grade,
                part.evidence.note or "",
            )
        return self.own[key]


def _may_tell(rule: Rule, limit: str) -> bool:
    """May it be this rule's limit that a row has in words?"""
    return rule.limit == "own" or limit in (
        quantity(float(rule.limit), unit) for unit in ("", "V", "A", "W", "dB", "ohm", "Hz", "s")
    )


def _limit(rule: Rule) -> Fact:
    return Fact(f"The limit of “{rule.id.replace('-', ' ')}”", "methods/", rule.evidence, rule.reason)


def by_grade(weighed: Mapping[Fact, Counter[str]]) -> dict[str, Counter[str]]:
    """Verdict -> grade -> how many verdicts hang on a fact of that grade."""
    found = {verdict: Counter() for verdict in DECIDED}
    for fact, counts in weighed.items():
        for verdict, count in counts.items():
            found[verdict][fact.grade] += count
    return found


def share(counts: Mapping[str, int]) -> float:
    """The share of what has a source, of counts by grade; 0 of none."""
    return sum(counts.get(grade, 0) for grade in SOURCED) / (sum(counts.values()) or 1)


def unsourced(weighed: Mapping[Fact, Counter[str]]) -> Iterator[tuple[Fact, Counter[str]]]:
    """The facts most in need of a source, worst first."""
    return ((fact, counts) for fact, counts in weighed.items() if fact.grade not in (*SOURCED, "derived"))
