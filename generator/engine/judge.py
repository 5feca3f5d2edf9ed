"""From readings to a verdict: the worst finding of a setting, worst setting of a way, ways that count."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace
from math import isfinite

from generator.catalogue.records import Catalogue, Lead, Port

from .assemble import assemble, placed, ways
from .assembly import Assembly, Way
from .circuit import CircuitError
from .constants import ALIKE, MOST_WAYS, SLACK
from .direct import direct_readings
from .discharge import discharge_readings
from .findings import STATES, findings_of, not_solved
from .hearing import signal_readings
from .memory import recalled
from .misfit import misfit
from .readings import Reading, short
from .rulebook import loss, lower_is_worse
from .signal import solve_signals
from .switches import settings, supply_switches
from .verdict import RANK, Finding, Verdict, severest
from .words import setting_words

DEAD = ("not-powered", "switched-off")
WEAK = (*DEAD, "barely-powered")
Read = Callable[[Catalogue, Port, Sequence[Lead], Port, Way], Iterable[Reading]]


def judge(catalogue: Catalogue, start: str, through: Sequence[str], target: str) -> Verdict:
    """Judge one port into another through leads, all told by id. Raises KeyError for an unknown one."""
    outlet, inlet = catalogue.ports[start], catalogue.ports[target]
    leads = [catalogue.leads[name] for name in through]
    possible = ways(catalogue, outlet, leads, inlet)
    if not possible:
        return _outright(start, through, target, misfit(catalogue, outlet, leads, inlet))
    if len(possible) > MOST_WAYS:
        why = f"it can be plugged in {len(possible)} ways, and no more than {MOST_WAYS} are worked out"
        return _outright(start, through, target, not_solved(why), possible[:1])
    return combine(
        leads,
        [judge_way(catalogue, outlet, leads, inlet, way) for way in possible],
        partners(catalogue, possible),
    )


def partners(catalogue: Catalogue, possible: Sequence[Way]) -> dict[str, str]:
    """What the ports in spare ends are called, by id."""
    return {
        one.port: short(catalogue.ports[one.port])
        for way in possible
        for one in way.plugged
        if one.port in catalogue.ports
    }


def _outright(
    start: str, through: Sequence[str], target: str, finding: Finding, ways: Sequence[Way] = ()
) -> Verdict:
    """An answer that one finding gives without any circuit."""
    return Verdict(
        start,
        tuple(through),
        target,
        finding.severity,
        (),
        {},
        finding.severity,
        (finding,),
        (),
        tuple((way, finding.severity) for way in ways),
    )


def read(
    catalogue: Catalogue, outlet: Port, leads: Sequence[Lead], inlet: Port, way: Way
) -> tuple[Reading, ...]:
    """All readings of one way. Equal circuits, whatever the devices are called, are solved once."""
    records = (catalogue.connectors, *placed(catalogue, outlet, leads, inlet, way).values())
    return recalled(records, way, lambda: readings_of(assemble(catalogue, outlet, leads, inlet, way)))


def readings_of(assembly: Assembly) -> tuple[Reading, ...]:
    """Everything there is to read from an assembly. Raises CircuitError for what is no number."""
    signals = solve_signals(assembly)
    found = (
        *direct_readings(assembly, signals),
        *discharge_readings(assembly),
        *signal_readings(assembly, signals),
    )
    if not all(isfinite(reading.value) and isfinite(reading.limit or 0.0) for reading in found):
        raise CircuitError("a reading or its limit is not a number")
    return found


def judge_way(
    catalogue: Catalogue, outlet: Port, leads: Sequence[Lead], inlet: Port, way: Way, read: Read = read
) -> Verdict:
    """Judge one way of plugging by what `read` finds."""
    places = placed(catalogue, outlet, leads, inlet, way)
    ports = {place: record for place, record in places.items() if isinstance(record, Port)}
    switches, names = settings(ports), {switch.key: switch.name for switch in supply_switches(ports)}
    told = [setting_words(setting, names) for setting in switches]
    try:
        every = [
            finding
            for reading in read(catalogue, outlet, leads, inlet, way)
            for finding in findings_of(reading, told, places)
        ]
    except CircuitError as error:
        every = [not_solved(str(error))]
    findings, figures = (
        [f for f in every if f.severity != "figure"],
        [f for f in every if f.severity == "figure"],
    )
    here = [[f for f in findings if f.setting in (None, i)] for i in range(len(switches))]
    per_setting = tuple(
        (setting, severest(f.severity for f in found)) for setting, found in zip(switches, here)
    )
    moments = tuple(
        (
            severest(f.severity for f in found if f.state != "plugging"),
            severest(f.severity for f in found if f.state == "plugging"),
        )
        for found in here
    )
    headline = max(
        (
            verdict
            for i, (_, verdict) in enumerate(per_setting)
            if not _only_unpowered(i, findings, len(switches))
        ),
        key=RANK.get,
    )
    plugging = severest(f.severity for f in findings if f.state == "plugging")
    return Verdict(
        outlet.id,
        tuple(lead.id for lead in leads),
        inlet.id,
        headline,
        per_setting,
        names,
        plugging,
        _told_once(findings, len(switches)),
        _worst_figures(headline, figures),
        ((way, headline),),
        moments=moments,
    )


def combine(leads: Sequence[Lead], judged: Sequence[Verdict], names: Mapping[str, str]) -> Verdict:
    """One answer from all ways of plugging. `names` tells what a port is called."""
    meant = [v for v in judged if v.ways[0][0].meant]
    group, plugs = decisive(leads, meant)
    others = [v for v in judged if not v.ways[0][0].meant]
    fullest = max(group, key=lambda v: len(v.settings))
    merged, moments = [], []
    for setting, _ in fullest.settings:
        here = [
            (found, moment)
            for v in group
            for (part, found), moment in zip(v.settings, v.moments)
            if part.items() <= setting.items()
        ]
        merged.append((setting, _worst(found for found, _ in here)))
        moments.append((_worst(moment[0] for _, moment in here), _worst(moment[1] for _, moment in here)))
    kept: dict[tuple, Finding] = {}
    for finding in (f for v in group for f in v.findings):
        _keep_worse(kept, finding)
    verdict = _worst(v.verdict for v in group)
    for other in others:
        way, dangers = other.ways[0][0], [f for f in other.findings if f.severity == "dangerous"]
        for finding in dangers:
            _keep_worse(
                kept,
                _at_spare_end(finding, [names.get(one.port, one.port) for one in way.plugged])
                if way.plugged
                else finding,
            )
        if dangers and not way.plugged:  # nobody has to plug the other tail in
            verdict = "dangerous"
            merged, moments = (
                [(setting, "dangerous") for setting, _ in merged],
                [("dangerous", plugging) for _, plugging in moments],
            )
    return replace(
        fullest,
        verdict=verdict,
        settings=tuple(merged),
        moments=tuple(moments),
        plugs=plugs,
        plugging=_worst(v.plugging for v in group),
        findings=_worst_first(kept.values()),
        figures=_worst_figures(verdict, [f for v in group for f in v.figures]),
        ways=tuple(way for v in judged for way in v.ways),
    )


def _worst(verdicts: Iterable[str]) -> str:
    return max(verdicts, key=RANK.get)


def _at_spare_end(finding: Finding, partners: Sequence[str]) -> Finding:
    """A danger that hangs on what somebody else plugs into the spare end: told with its name, and
    no part of the verdict."""
    says = f"With {' and '.join(partners)} in the spare end: {finding.says[0].lower()}{finding.says[1:]}"
    return replace(finding, severity="note", subject=f"spare:{finding.subject}", says=says)


def decisive(leads: Sequence[Lead], judged: Sequence[Verdict]) -> tuple[list[Verdict], tuple[str, ...]]:
    """The ways of plugging that count, and the labels to look for where the choice of an end matters. Ends
    with different labels are chosen on purpose, so the best such choice counts (of equals the one with the
    least to say against it), unless another is dangerous; what a person cannot choose (which of two like
    ends, whether spare ends are used) counts at its worst."""
    choices: dict[tuple, list[Verdict]] = {}
    for verdict in judged:
        choices.setdefault(labels(leads, verdict.ways[0][0]), []).append(verdict)
    worst = {chosen: max(RANK[v.verdict] for v in group) for chosen, group in choices.items()}
    counts = max(worst.values()) if max(worst.values()) == RANK["dangerous"] else min(worst.values())
    best = min(
        (chosen for chosen in choices if worst[chosen] == counts),
        key=lambda chosen: max(map(_faults, choices[chosen])),
    )
    worse = [chosen for chosen in choices if worst[chosen] > counts]
    plugs = tuple(label for k, label in enumerate(best) if any(chosen[k] != label for chosen in worse))
    return choices[best], plugs


def labels(leads: Sequence[Lead], way: Way) -> tuple[str, ...]:
    """What a person reads on the ends of this way."""
    return tuple(lead.ends[end].label for lead, pair in zip(leads, way.ends) for end in pair)


def _faults(verdict: Verdict) -> int:
    return sum(finding.severity != "note" for finding in verdict.findings)


def _only_unpowered(number: int, findings: Sequence[Finding], count: int) -> bool:
    """A setting that merely leaves a device without its supply, or short of it, while another setting powers
    it better, does not decide the headline."""
    here = [f for f in findings if f.setting in (None, number)]
    lacking = DEAD if any(f.id in DEAD for f in here) else WEAK
    rest = severest(f.severity for f in here if f.id not in lacking)
    if not any(f.id in lacking for f in here) or RANK[rest] > RANK["lossy"]:
        return False
    return len({f.setting for f in findings if f.id in lacking}) < count


def _told_once(findings: Sequence[Finding], count: int) -> tuple[Finding, ...]:
    """What settings share is told once, where it is worst; a setting is named only where it matters."""
    kept: dict[tuple, Finding] = {}
    seen: dict[tuple, set] = {}
    for finding in findings:
        seen.setdefault(_same(finding), set()).add(finding.setting)
        _keep_worse(kept, finding)
    everywhere = {key for key, found in seen.items() if len(found) == count}
    return _worst_first(
        replace(f, when=STATES[f.state]) if key in everywhere else f for key, f in kept.items()
    )


def _same(finding: Finding) -> tuple:
    return finding.id, finding.subject, finding.state


def _keep_worse(kept: dict[tuple, Finding], finding: Finding) -> None:
    best = kept.setdefault(_same(finding), finding)
    if (
        abs(finding.value - (finding.limit or 0.0))
        > abs(best.value - (best.limit or 0.0)) * (1 + SLACK) + SLACK
    ):
        kept[_same(finding)] = finding


def _worst_figures(verdict: str, figures: Iterable[Finding]) -> tuple[Finding, ...]:
    """Of each figure, in each case told, the worst of all channels and ways; none where nothing works."""
    kept: dict[tuple[str, str], Finding] = {}
    for figure in figures if RANK[verdict] <= RANK["lossy"] else ():
        best = kept.setdefault((figure.id, figure.case), figure)
        worse = best.value - figure.value if lower_is_worse(figure.id) else figure.value - best.value
        if worse > ALIKE * max(1.0, abs(best.value)):
            kept[figure.id, figure.case] = figure
    return tuple(kept.values())


def _worst_first(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """By severity, then by what they weigh, notes last: a rule's milder row weighs nothing."""
    return tuple(
        sorted(
            findings,
            key=lambda f: (
                -RANK[f.severity],
                f.severity == "note",
                0 if f.severity == "note" else -loss([f.id]),
            ),
        )
    )
