"""What an answer consists of: the verdict, the findings that led to it, and the figures of what works."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from .assemble import Way
from .words import conditions

VERDICTS = ("safe", "lossy", "no signal", "dangerous", "does not fit")  # from best to worst
RANK = {verdict: rank for rank, verdict in enumerate(VERDICTS)} | {"note": 0, "figure": 0}
FIGURE = ("id", "where", "value", "unit", "says")  # what is published of one


@dataclass(frozen=True)
class Finding:
    """A rule that was met: the deciding number, the limit it was held against and where that limit comes from.
    `subject` tells findings of one rule apart; `setting` is the number of the supply setting, None where supplies do not matter;
    `state` is settled, plugging or signal; `mend` says what a lead would have to do about it."""

    id: str
    severity: str
    subject: str
    where: str
    value: float
    unit: str
    limit: float | None
    when: str
    says: str
    remedy: str
    evidence: str
    cite: tuple[str, ...]
    state: str
    setting: int | None = None
    mend: str = ""

    def as_data(self) -> dict:
        """The finding as section of the published answer."""
        names = ("id", "severity", "where", "value", "unit", "limit", "when", "says", "remedy", "evidence")
        return {name: getattr(self, name) for name in names} | {"cite": list(self.cite)}


@dataclass(frozen=True)
class Verdict:
    """The answer to From / Through / Into. `ways` tells each way of plugging and how it ends; `settings` each supply setting,
    `switches` what each supply is called; `figures` are the numbers of what works, all supplies on."""

    start: str
    through: tuple[str, ...]
    target: str
    verdict: str
    settings: tuple[tuple[Mapping[str, str], str], ...]
    switches: Mapping[str, str]
    plugging: str
    findings: tuple[Finding, ...]
    figures: tuple[Finding, ...] = ()
    ways: tuple[tuple[Way, str], ...] = ()
    remedies: tuple["Verdict", ...] = field(default=())

    @property
    def fits(self) -> bool:
        """Do all halves go into each other?"""
        return self.verdict != "does not fit"

    @property
    def conditions(self) -> str:
        """One sentence on how the verdict hangs on switches; empty when it does not."""
        return conditions(self.settings, self.switches)

    def as_data(self) -> dict:
        """The published form."""
        return {
            "from": self.start, "through": list(self.through), "into": self.target, "fits": self.fits, "verdict": self.verdict,
            "settings": [{"supplies": dict(setting), "verdict": verdict} for setting, verdict in self.settings],
            "conditions": self.conditions,
            "plugging": self.plugging,
            "findings": [finding.as_data() for finding in self.findings],
            "figures": [{name: getattr(figure, name) for name in FIGURE} for figure in self.figures],
            "ways": [{"ends": [list(pair) for pair in way.ends], "plugged": [list(pair) for pair in way.plugged], "verdict": verdict}
                     for way, verdict in self.ways],
            "remedies": [{"through": list(r.through), "verdict": r.verdict} for r in self.remedies],
        }


def severest(severities: Iterable[str]) -> str:
    """The verdict a set of severities amounts to; notes cost nothing."""
    return VERDICTS[max((RANK[severity] for severity in severities), default=0)]
