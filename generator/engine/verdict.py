"""What an answer consists of: the verdict, the findings that led to it, and the figures of what works."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property

from .assembly import Way
from .constants import ORDER_COSTS
from .words import conditions, in_order

VERDICTS = ("safe", "lossy", "no signal", "dangerous", "does not fit")  # from best to worst
RANK = {verdict: rank for rank, verdict in enumerate(VERDICTS)} | {"note": 0, "figure": 0}
FIGURE = ("id", "where", "value", "unit", "says")  # what is published of one


@dataclass(frozen=True)
class Finding:
    """A rule that was met: the deciding number, the limit it was held against and where that limit comes
    from. `subject` tells findings of one rule apart; `setting` is the number of the supply setting, None
    where supplies do not matter; `state` is settled, plugging, switching or signal; `mend` says what a lead
    would have to do about it; `case` tells figures of one kind apart."""

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
    case: str = ""

    def as_data(self) -> dict:
        """The published form of a finding; `subject` is the place and the part, need
        or channel it is about."""
        names = (
            "id",
            "severity",
            "subject",
            "where",
            "value",
            "unit",
            "limit",
            "when",
            "says",
            "remedy",
            "evidence",
        )
        return {name: getattr(self, name) for name in names} | {"cite": list(self.cite)}


@dataclass(frozen=True)
class Verdict:
    """The answer to From / Through / Into. `ways` tells each way of plugging and how it ends; `settings` each
    supply setting, `switches` what each supply is called; `figures` are the numbers of what works, all
    supplies on. `moments` tells for each setting how it is once plugged in, and how it is while plugging;
    `plugs` are the labels of the ends a person has to choose for this verdict."""

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
    moments: tuple[tuple[str, str], ...] = ()
    plugs: tuple[str, ...] = ()

    @property
    def fits(self) -> bool:
        """Do all halves go into each other?"""
        return self.verdict != "does not fit"

    @property
    def conditions(self) -> str:
        """One sentence on how the verdict hangs on switches and on the moment; empty when it does not."""
        told = [
            (setting, _when(verdict, moment))
            for (setting, verdict), moment in zip(self.settings, self.moments)
        ]
        return conditions(told, self.switches)

    @cached_property
    def offered(self) -> str:
        """What it is once plugged in, where a danger lasts only while plugging and a switch
        avoids it; empty elsewhere."""
        return self._order[0] if self._order else ""

    @property
    def offer(self) -> str:
        """The order of plugging and switching that avoids a danger, in a sentence; empty where there is
        none or none is needed."""
        return in_order(*self._order, self.switches) if self._order else ""

    @property
    def rank(self) -> float:
        """Where it stands among ways to connect: as its verdict, but half a step below what it is once
        plugged in where a switch avoids a danger that lasts only while plugging."""
        return RANK[self.offered] + ORDER_COSTS if self.offered else RANK[self.verdict]

    @property
    def least_rank(self) -> float:
        """The least rank that it can come to when more is found against it: a setting that is well in itself
        may turn out to be one that must not be plugged."""
        ends = [RANK[settled] for settled, _ in self.moments]
        if self.verdict != "dangerous" or not any(
            RANK["dangerous"] > max(RANK[settled], RANK[plugging]) for settled, plugging in self.moments
        ):
            return RANK[self.verdict]
        return min(ends) + ORDER_COSTS if min(ends) <= RANK["lossy"] else RANK[self.verdict]

    @cached_property
    def _order(self) -> tuple[str, Mapping[str, str], Mapping[str, str], bool] | None:
        """How it is in the end, the setting to plug in, the setting to switch to, and whether it stays as it
        was plugged instead. Of those that end well the one with the most on, from the one nearest to it that
        may be plugged; where that one is as good, it stays."""
        if self.verdict != "dangerous":
            return None
        states = [(setting, *moment) for (setting, _), moment in zip(self.settings, self.moments)]
        ends = [
            (RANK[settled], number)
            for number, (_, settled, plugging) in enumerate(states)
            if RANK[settled] <= RANK["lossy"]
        ]
        starts = [
            (setting, settled)
            for setting, settled, plugging in states
            if RANK["dangerous"] > max(RANK[settled], RANK[plugging])
        ]
        if not ends or not starts:
            return None
        setting, settled, plugging = states[min(ends)[1]]
        if plugging != "dangerous":
            return None  # that setting is well in itself
        near, there = min(starts, key=lambda start: sum(start[0][key] != setting[key] for key in setting))
        if RANK[there] <= RANK[settled]:
            return there, near, setting, True  # nothing is gained by switching
        return settled, near, setting, False

    def as_data(self) -> dict:
        """The published form."""
        return {
            "from": self.start,
            "through": list(self.through),
            "into": self.target,
            "fits": self.fits,
            "verdict": self.verdict,
            "settings": [
                {"supplies": dict(setting), "verdict": verdict} for setting, verdict in self.settings
            ],
            "conditions": self.conditions,
            "offer": self.offer,
            "offered": self.offered,
            "plugs": list(self.plugs),
            "moments": [{"settled": settled, "plugging": plugging} for settled, plugging in self.moments],
            "plugging": self.plugging,
            "findings": [finding.as_data() for finding in self.findings],
            "figures": [{name: getattr(figure, name) for name in FIGURE} for figure in self.figures],
            "ways": [
                {
                    "ends": [list(pair) for pair in way.ends],
                    "plugged": [[one.lead, one.end, one.port] for one in way.plugged],
                    "verdict": verdict,
                }
                for way, verdict in self.ways
            ],
            "remedies": [
                {"through": list(r.through), "verdict": r.verdict, "offer": r.offer, "offered": r.offered}
                for r in self.remedies
            ],
        }


def _when(verdict: str, moment: tuple[str, str]) -> str:
    """A verdict of a setting; a danger that lasts only while plugging says so."""
    return "dangerous while plugging" if verdict == "dangerous" and moment[0] != "dangerous" else verdict


def severest(severities: Iterable[str]) -> str:
    """The verdict a set of severities amounts to; notes cost nothing."""
    return VERDICTS[max((RANK[severity] for severity in severities), default=0)]
