"""Show the working: the case behind a verdict's number, with its nets, parts and currents."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from generator.catalogue.records import Catalogue, Lead, Port

from .assemble import Assembly, Way, assemble, placed, ways
from .circuit import CircuitError
from .findings import met
from .judge import combine, decisive, judge_way, partners, read
from .naming import owner
from .readings import Reading
from .rulebook import Rule, rules
from .shown import shown
from .slices import case_of
from .switches import settings, supply_switches
from .verdict import Finding, Verdict
from .working import Working

ASKED = "path-gain"  # what is shown when nothing is wrong
NO_CASE = "No voltage or current decides this; it follows from what the two devices are."


def explain(
    catalogue: Catalogue, start: str, through: Sequence[str], target: str, finding: str | None = None
) -> Working:
    """The working behind the verdict's deciding finding, or behind the worst finding of a given id; of a
    connection without findings, how the signal arrives. Raises KeyError for an unknown id, ValueError when
    the halves do not fit or there is no such finding."""
    outlet, inlet, leads = (
        catalogue.ports[start],
        catalogue.ports[target],
        [catalogue.leads[name] for name in through],
    )
    possible = ways(catalogue, outlet, leads, inlet)
    if not possible:
        raise ValueError("The halves do not go into each other: there is no circuit to work out.")
    judged = [judge_way(catalogue, outlet, leads, inlet, way) for way in possible]
    verdict, (group, _) = (
        combine(leads, judged, partners(catalogue, possible)),
        decisive(leads, [v for v in judged if v.ways[0][0].meant]),
    )
    chosen = _chosen(verdict, finding)
    fallback = max(group, key=lambda v: v.verdict == verdict.verdict).ways[0][0]
    way = next((v.ways[0][0] for v in (*group, *judged) if chosen in v.findings), fallback)
    places = placed(catalogue, outlet, leads, inlet, way)
    base = _base(verdict, places, leads, way)
    try:
        rule, reading = _reading(read(catalogue, outlet, leads, inlet, way), chosen)
    except CircuitError as error:
        return _numbered(base, catalogue, None, None, chosen, str(error))
    if reading is None or reading.at is None:
        return _numbered(base, catalogue, rule, reading, chosen, NO_CASE)
    assembly = assemble(catalogue, outlet, leads, inlet, way)
    base = replace(base, setting=_setting(assembly, reading))
    return shown(_numbered(base, catalogue, rule, reading, chosen, ""), assembly, case_of(assembly, reading))


def _chosen(verdict: Verdict, wanted: str | None) -> Finding | None:
    if wanted is not None:
        found = next((f for f in verdict.findings if f.id == wanted), None)
        if found is None:
            known = ", ".join(dict.fromkeys(f.id for f in verdict.findings)) or "none"
            raise ValueError(f"'{wanted}' is not a finding of this connection; its findings: {known}.")
        return found
    return next((f for f in verdict.findings if f.severity == verdict.verdict), None)


def _reading(readings: Sequence[Reading], chosen: Finding | None) -> tuple[Rule | None, Reading | None]:
    """The reading a finding was made from, and the rule that made it."""
    if chosen is None:
        best = max((r for r in readings if r.quantity == ASKED), key=lambda r: r.value, default=None)
        return next(rule for rule in rules() if rule.quantity == ASKED), best
    for rule in rules():
        for reading in readings if rule.id == chosen.id else ():
            if (
                reading.quantity == rule.quantity
                and (reading.subject, reading.state, reading.setting, reading.value)
                == (chosen.subject, chosen.state, chosen.setting, chosen.value)
                and met(rule, reading.value, _limit(rule, reading))
            ):
                return rule, reading
    return None, None


def _limit(rule: Rule, reading: Reading) -> float:
    return reading.limit if rule.limit == "own" else float(rule.limit)


def _base(verdict: Verdict, places: Mapping[str, Port | Lead], leads: Sequence[Lead], way: Way) -> Working:
    steps = [
        f"{lead.ends[near].label} to the outlet's side, {lead.ends[far].label} to the inlet's"
        for lead, (near, far) in zip(leads, way.ends)
    ]
    steps += [f"{leads[one.lead].ends[one.end].label} in {owner(places, one.place)}" for one in way.plugged]
    return Working(
        verdict.start,
        verdict.through,
        verdict.target,
        verdict.verdict,
        "",
        "",
        "",
        "rule",
        "; ".join(steps) or "plugged straight in",
        {},
        "",
        "",
        (),
        None,
        None,
        "",
        "",
        "",
        0.0,
        "",
        "",
        None,
        "",
        "",
        (),
        (),
    )


def _setting(assembly: Assembly, reading: Reading) -> dict[str, str]:
    names = {switch.key: switch.name for switch in supply_switches(assembly.ports)}
    return (
        {}
        if reading.setting is None
        else {names[key]: state for key, state in settings(assembly.ports)[reading.setting].items()}
    )


def _numbered(
    base: Working,
    catalogue: Catalogue,
    rule: Rule | None,
    reading: Reading | None,
    chosen: Finding | None,
    note: str,
) -> Working:
    """The number, its limit and where that comes from."""
    if chosen is None and reading is None:
        return replace(base, note=note)
    own = rule is not None and rule.limit == "own"
    limit = chosen.limit if chosen else _limit(rule, reading)
    evidence, cite = (chosen.evidence, chosen.cite) if chosen else (rule.evidence, rule.cite)
    remark = reading.evidence.note if own and reading.evidence else None
    return replace(
        base,
        finding=chosen.id if chosen else "",
        severity=chosen.severity if chosen else "safe",
        says=chosen.says if chosen else "Nothing speaks against it; this is how the signal arrives.",
        quantity=reading.quantity if reading else "",
        where=chosen.where if chosen else reading.where,
        state=chosen.state if chosen else reading.state,
        value=chosen.value if chosen else reading.value,
        unit=chosen.unit if chosen else reading.unit,
        compare=rule.compare if rule else "",
        limit=limit,
        limit_from=" ".join(
            filter(
                None,
                [
                    "The part's own rating." if own else "The rulebook.",
                    remark or (rule.reason if rule and not own else ""),
                ],
            )
        ),
        evidence=evidence,
        cite=cite,
        titles=tuple(catalogue.sources[name].title for name in cite if name in catalogue.sources),
        note=note,
    )
