"""Readings held against the rulebook: each rule that is met makes a finding, with its sentences filled in."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from generator.catalogue.records import Lead, Port

from .constants import SLACK
from .readings import Named, Reading
from .rulebook import Rule, rules_about
from .verdict import Finding
from .words import quantity

STATES = {
    "settled": "settled",
    "plugging": "while plugging",
    "switching": "when switched",
    "signal": "with signal",
}
# what such a number is held against is no rating of the part
UNRATED = ("rating-not-known", "supply-reversed")
WORD_UNITS = {"energy": "J", "charge": "V", "seconds": "s"}


def met(rule: Rule, value: float, limit: float) -> bool:
    """Is the value beyond the limit, by more than rounding?"""
    slack = max(SLACK * max(abs(limit), abs(value), 1e-6), rule.margin * abs(limit))
    return value > limit + slack if rule.compare == "above" else value < limit - slack


def findings_of(
    reading: Reading, switches: Sequence[str], places: Mapping[str, Port | Lead]
) -> Iterable[Finding]:
    """What the rulebook says of a reading, in its order; figures only with every supply on, which
    is the first setting."""
    for rule in rules_about(reading.quantity):
        if (
            rule.severity == "figure"
            and reading.setting
            or any(reading.flags.get(key) != want for key, want in rule.only.items())
        ):
            continue
        limit = reading.limit if rule.limit == "own" else float(rule.limit)
        if met(rule, reading.value, limit) and (rule.until is None or reading.value <= rule.until):
            yield _finding(rule, reading, limit, switches, places)


def _finding(
    rule: Rule, reading: Reading, limit: float, switches: Sequence[str], places: Mapping[str, Port | Lead]
) -> Finding:
    shown = {name: _shown(name, word, places) for name, word in reading.words.items()}
    shown |= {"value": quantity(reading.value, reading.unit), "limit": quantity(limit, reading.unit)}
    known = reading.evidence if rule.limit == "own" and reading.evidence else None
    setting = switches[reading.setting] if reading.setting is not None else ""
    # What the way back lacks is told, but does not spoil what was asked about.
    severity = "note" if rule.severity == "lossy" and reading.flags.get("way") == "back" else rule.severity
    return Finding(
        rule.id,
        severity,
        reading.subject,
        reading.where,
        reading.value,
        reading.unit,
        None if rule.id in UNRATED else limit,
        ", ".join(part for part in (setting, STATES[reading.state]) if part),
        _begun(rule.says.format(**shown)),
        rule.remedy.format(**shown),
        known.grade if known else rule.evidence,
        known.cite if known else rule.cite,
        reading.state,
        reading.setting,
        rule.mend.format(**shown),
        reading.flags.get("pair", ""),
    )


def _begun(sentence: str) -> str:
    """With a capital, whatever it begins with: `left of Camera ...`."""
    return sentence[0].upper() + sentence[1:]


def _shown(name: str, word: str | float | Named, places: Mapping[str, Port | Lead]) -> str:
    if isinstance(word, Named):
        return word(places)
    return quantity(word, WORD_UNITS[name]) if isinstance(word, float) else word


def not_solved(why: str) -> Finding:
    """What cannot be worked out is never called safe."""
    return Finding(
        "not-solved",
        "dangerous",
        "connection",
        "connection",
        0.0,
        "",
        None,
        "always",
        f"This connection could not be worked out: {why}.",
        "Do not connect it on the strength of this page; report it.",
        "derived",
        (),
        "settled",
    )
