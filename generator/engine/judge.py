"""From readings to a verdict: hold every number against the rulebook and take the worst."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from math import isfinite

from generator.catalogue.records import Catalogue, Lead, Port

from .assemble import Way, assemble, placed, ways
from .circuit import CircuitError
from .direct import direct_readings, settings, supply_switches
from .discharge import discharge_readings
from .hearing import signal_readings
from .mate import fits
from .memory import recalled
from .readings import Named, Reading
from .rulebook import Rule, rules_about
from .signal import solve_signals
from .words import conditions, quantity, setting_words

VERDICTS = ("safe", "lossy", "no signal", "dangerous", "does not fit")  # from best to worst
RANK = {verdict: rank for rank, verdict in enumerate(VERDICTS)} | {"note": 0}
STATES = {"settled": "settled", "plugging": "while plugging", "signal": "with signal"}
WORD_UNITS = {"energy": "J", "charge": "V"}
OPPOSITE = {"plug": "jack", "jack": "plug", "male": "female", "female": "male"}
MOST_WAYS = 100  # splitters in a row multiply; no person plugs such a chain, and a phone would work on it for minutes
SLACK = 1e-9  # two numbers closer than this are the same to every solver


@dataclass(frozen=True)
class Finding:
    """A rule that was met: the deciding number, the limit it was held against and where that limit comes from.
    `subject` tells findings of one rule apart; `setting` is the number of the supply setting, None where supplies do not matter;
    `state` is settled, plugging or signal."""

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

    def as_data(self) -> dict:
        """The finding as section of the published answer."""
        names = ("id", "severity", "where", "value", "unit", "limit", "when", "says", "remedy", "evidence")
        return {name: getattr(self, name) for name in names} | {"cite": list(self.cite)}


@dataclass(frozen=True)
class Verdict:
    """The answer to From / Through / Into. `ways` tells each way of plugging and how it ends; `settings` each supply setting,
    `switches` what each supply is called."""

    start: str
    through: tuple[str, ...]
    target: str
    verdict: str
    settings: tuple[tuple[Mapping[str, str], str], ...]
    switches: Mapping[str, str]
    plugging: str
    findings: tuple[Finding, ...]
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
            "ways": [{"ends": [list(pair) for pair in way.ends], "plugged": [list(pair) for pair in way.plugged], "verdict": verdict}
                     for way, verdict in self.ways],
            "remedies": [{"through": list(r.through), "verdict": r.verdict} for r in self.remedies],
        }


def judge(catalogue: Catalogue, start: str, through: Sequence[str], target: str) -> Verdict:
    """Judge one connection. `start` and `target` are port ids, `through` lead ids. Raises KeyError for an unknown id."""
    outlet, inlet = catalogue.ports[start], catalogue.ports[target]
    leads = [catalogue.leads[name] for name in through]
    possible = ways(catalogue, outlet, leads, inlet)
    if not possible:
        return _outright(start, through, target, misfit(catalogue, outlet, leads, inlet))
    if len(possible) > MOST_WAYS:
        why = f"it can be plugged in {len(possible)} ways, and no more than {MOST_WAYS} are worked out"
        return _outright(start, through, target, _not_solved(why), possible[:1])
    return combine(leads, [judge_way(catalogue, outlet, leads, inlet, way) for way in possible])


def _outright(start: str, through: Sequence[str], target: str, finding: Finding, ways: Sequence[Way] = ()) -> Verdict:
    """An answer that one finding gives without any circuit."""
    return Verdict(start, tuple(through), target, finding.severity, (), {}, finding.severity, (finding,), tuple((way, finding.severity) for way in ways))


def judge_way(catalogue: Catalogue, outlet: Port, leads: Sequence[Lead], inlet: Port, way: Way) -> Verdict:
    """Judge one way of plugging."""
    places = placed(catalogue, outlet, leads, inlet, way)
    ports = {place: record for place, record in places.items() if isinstance(record, Port)}
    switches, names = settings(ports), {switch.key: switch.name for switch in supply_switches(ports)}
    told = [setting_words(setting, names) for setting in switches]
    try:
        findings = [finding for reading in read(catalogue, outlet, leads, inlet, way) for finding in _findings(reading, told, places)]
    except CircuitError as error:
        findings = [_not_solved(str(error))]
    per_setting = tuple((setting, severest(f.severity for f in findings if f.setting in (None, i))) for i, setting in enumerate(switches))
    headline = max((verdict for i, (_, verdict) in enumerate(per_setting) if not _only_unpowered(i, findings, len(switches))), key=RANK.get)
    plugging = severest(f.severity for f in findings if f.state == "plugging")
    return Verdict(outlet.id, tuple(lead.id for lead in leads), inlet.id, headline, per_setting, names, plugging,
                   _told_once(findings, len(switches)), ((way, headline),))


def read(catalogue: Catalogue, outlet: Port, leads: Sequence[Lead], inlet: Port, way: Way) -> tuple[Reading, ...]:
    """All readings of one way. Equal circuits, whatever the devices are called, are solved once."""
    def solve() -> tuple[Reading, ...]:
        assembly = assemble(catalogue, outlet, leads, inlet, way)
        signals = solve_signals(assembly)
        found = (*direct_readings(assembly, signals.peaks), *discharge_readings(assembly), *signal_readings(assembly, signals))
        if not all(isfinite(reading.value) and isfinite(reading.limit or 0.0) for reading in found):
            raise CircuitError("a reading or its limit is not a number")
        return found

    return recalled((catalogue.connectors, *placed(catalogue, outlet, leads, inlet, way).values()), way, solve)


def combine(leads: Sequence[Lead], judged: Sequence[Verdict]) -> Verdict:
    """One answer from all ways of plugging."""
    group = decisive(leads, judged)
    fullest = max(group, key=lambda v: len(v.settings))
    merged = tuple((setting, max((found for v in group for part, found in v.settings if part.items() <= setting.items()), key=RANK.get))
                   for setting, _ in fullest.settings)
    kept: dict[tuple, Finding] = {}
    for finding in (f for v in group for f in v.findings):
        _keep_worse(kept, finding)
    return replace(fullest, verdict=max((v.verdict for v in group), key=RANK.get), settings=merged,
                   plugging=max((v.plugging for v in group), key=RANK.get), findings=_worst_first(kept.values()),
                   ways=tuple(way for v in judged for way in v.ways))


def decisive(leads: Sequence[Lead], judged: Sequence[Verdict]) -> list[Verdict]:
    """The ways of plugging that count. Ends with different labels are chosen on purpose, so the best such choice counts (of equals the one with
    the least to say against it), unless another is dangerous; what a person cannot choose (which of two like ends, whether spare ends are
    used) counts at its worst."""
    choices: dict[tuple, list[Verdict]] = {}
    for verdict in judged:
        way = verdict.ways[0][0]
        labels = tuple(lead.ends[end].label for lead, pair in zip(leads, way.ends) for end in pair)
        choices.setdefault(labels, []).append(verdict)
    worst = [max((RANK[v.verdict] for v in group)) for group in choices.values()]
    counts = max(worst) if max(worst) == RANK["dangerous"] else min(worst)
    return min((group for group, found in zip(choices.values(), worst) if found == counts), key=lambda group: max(map(_faults, group)))


def _faults(verdict: Verdict) -> int:
    return sum(finding.severity != "note" for finding in verdict.findings)


def severest(severities: Iterable[str]) -> str:
    """The verdict a set of severities amounts to; notes cost nothing."""
    return VERDICTS[max((RANK[severity] for severity in severities), default=0)]


def met(rule: Rule, value: float, limit: float) -> bool:
    """Is the value beyond the limit, by more than rounding?"""
    slack = max(SLACK * max(abs(limit), abs(value), 1e-6), rule.margin * abs(limit))
    return value > limit + slack if rule.compare == "above" else value < limit - slack


def _findings(reading: Reading, switches: Sequence[str], places: Mapping[str, Port | Lead]) -> Iterable[Finding]:
    for rule in rules_about(reading.quantity):
        if any(reading.flags.get(key) != want for key, want in rule.only.items()):
            continue
        limit = reading.limit if rule.limit == "own" else float(rule.limit)
        if met(rule, reading.value, limit):
            yield _finding(rule, reading, limit, switches, places)


def _finding(rule: Rule, reading: Reading, limit: float, switches: Sequence[str],
             places: Mapping[str, Port | Lead]) -> Finding:
    shown = {name: _shown(name, word, places) for name, word in reading.words.items()}
    shown |= {"value": quantity(reading.value, reading.unit), "limit": quantity(limit, reading.unit), "loss": quantity(-reading.value, reading.unit)}
    known = reading.evidence if rule.limit == "own" and reading.evidence else None
    setting = switches[reading.setting] if reading.setting is not None else ""
    return Finding(
        rule.id, rule.severity, reading.subject, reading.where, reading.value, reading.unit, None if rule.id == "rating-not-known" else limit,
        ", ".join(part for part in (setting, STATES[reading.state]) if part), rule.says.format(**shown), rule.remedy.format(**shown),
        known.grade if known else rule.evidence, known.cite if known else rule.cite, reading.state, reading.setting)


def _shown(name: str, word: str | float | Named, places: Mapping[str, Port | Lead]) -> str:
    if isinstance(word, Named):
        return word(places)
    return quantity(word, WORD_UNITS[name]) if isinstance(word, float) else word


def _not_solved(why: str) -> Finding:
    """What cannot be worked out is never called safe."""
    return Finding("not-solved", "dangerous", "connection", "connection", 0.0, "", None, "always", f"This connection could not be worked out: {why}.",
                   "Do not connect it on the strength of this page; report it.", "derived", (), "settled")


def _only_unpowered(number: int, findings: Sequence[Finding], count: int) -> bool:
    """A setting that merely leaves a device without its supply, while another setting powers it, does not decide the headline."""
    here = [f for f in findings if f.setting in (None, number)]
    if not any(f.id == "not-powered" for f in here) or RANK[severest(f.severity for f in here if f.id != "not-powered")] > RANK["lossy"]:
        return False
    return len({f.setting for f in findings if f.id == "not-powered"}) < count


def _told_once(findings: Sequence[Finding], count: int) -> tuple[Finding, ...]:
    """What several settings share is told once, where it is worst; a setting is only named when it matters."""
    kept: dict[tuple, Finding] = {}
    seen: dict[tuple, set] = {}
    for finding in findings:
        seen.setdefault(_same(finding), set()).add(finding.setting)
        _keep_worse(kept, finding)
    everywhere = {key for key, found in seen.items() if len(found) == count}
    return _worst_first(replace(f, when=STATES[f.state]) if key in everywhere else f for key, f in kept.items())


def _same(finding: Finding) -> tuple:
    return finding.id, finding.subject, finding.state


def _keep_worse(kept: dict[tuple, Finding], finding: Finding) -> None:
    best = kept.setdefault(_same(finding), finding)
    if abs(finding.value - (finding.limit or 0.0)) > abs(best.value - (best.limit or 0.0)) * (1 + SLACK) + SLACK:
        kept[_same(finding)] = finding


def _worst_first(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    return tuple(sorted(findings, key=lambda f: (-RANK[f.severity], f.severity == "note")))


def misfit(catalogue: Catalogue, outlet: Port, leads: Sequence[Lead], inlet: Port) -> Finding:
    """Say where the chain first fails to mate, and what would go in there."""
    reach, name = [(outlet.connector, outlet.half)], outlet.name
    for lead in leads:
        onward = [(far.connector, far.half) for near in lead.ends.values() if any(_goes(catalogue, half, near) for half in reach)
                  for far in lead.ends.values() if far is not near]
        if not onward:
            return _misfit(catalogue, reach[0], name, lead.name)
        reach, name = onward, lead.name
    return _misfit(catalogue, reach[0], name, inlet.name)


def _goes(catalogue: Catalogue, half: tuple[str, str], other) -> bool:
    return fits((catalogue.connectors[half[0]], half[1]), (catalogue.connectors[other.connector], other.half))


def _misfit(catalogue: Catalogue, half: tuple[str, str], name: str, other: str) -> Finding:
    family = catalogue.connectors[half[0]]
    partner = OPPOSITE[half[1]]
    takes = sorted(c.name for c in catalogue.connectors.values() if partner in c.halves and fits((family, half[1]), (c, partner)))
    says = f"{name} ends in {family.name}, {half[1]}; {other} does not go in there. It takes the {partner} of: {'; '.join(takes)}."
    return Finding("does-not-mate", "does not fit", "connection", name, 0.0, "", None, "always", says, "Choose a lead with that end.", "derived", (), "settled")
