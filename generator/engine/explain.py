"""Show the working: the case behind a verdict's number, with its nets, parts and currents."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from math import atan2, copysign, degrees

from generator.catalogue.records import Catalogue, Lead, Port

from . import direct_cases, signal_cases
from .assemble import EARTHS, Assembly, Way, assemble, placed, ways
from .cases import Case
from .circuit import CircuitError
from .direct import settings, supply_switches
from .judge import Finding, Verdict, combine, decisive, judge_way, met, read
from .naming import conductors, contact_name, element_name, in_words, net_labels, owner
from .readings import Reading
from .relevant import Element, Relevant, relevant
from .rulebook import Rule, rules
from .words import fixed, quantity
from .working import Equation, Net, Term, Worked, Working

FINDERS = {**direct_cases.FINDERS, **signal_cases.FINDERS}
CORNERS = {"nominal": "every part at its nominal value", "strong": "supplies at their highest, resistances at their lowest",
           "weak": "supplies at their lowest, resistances at their highest", "skewed": "matched pairs as far apart as they may be"}
SMALL = 1e-4  # share of the largest current below which a term is not written out
ASKED = "path-gain"  # what is shown when nothing is wrong
SHORTED = "Both points the number is measured between are one net: they are shorted together."
NOWHERE = "Nothing joins the two points: a test current has nowhere to go."
NO_CASE = "No voltage or current decides this; it follows from what the two devices are."


def explain(catalogue: Catalogue, start: str, through: Sequence[str], target: str, finding: str | None = None) -> Working:
    """The working behind the verdict's deciding finding, or behind the worst finding of a given id; of a connection without findings, how the
    signal arrives. Raises KeyError for an unknown id, ValueError when the halves do not fit or there is no such finding."""
    outlet, inlet, leads = catalogue.ports[start], catalogue.ports[target], [catalogue.leads[name] for name in through]
    possible = ways(catalogue, outlet, leads, inlet)
    if not possible:
        raise ValueError("The halves do not go into each other: there is no circuit to work out.")
    judged = [judge_way(catalogue, outlet, leads, inlet, way) for way in possible]
    verdict, group = combine(leads, judged), decisive(leads, judged)
    chosen = _chosen(verdict, finding)
    way = next((v.ways[0][0] for v in group if chosen in v.findings), max(group, key=lambda v: v.verdict == verdict.verdict).ways[0][0])
    places = placed(catalogue, outlet, leads, inlet, way)
    base = _base(verdict, places, leads, way)
    try:
        rule, reading = _reading(read(catalogue, outlet, leads, inlet, way), chosen)
    except CircuitError as error:
        return _numbered(base, catalogue, None, None, chosen, str(error))
    if reading is None or reading.quantity not in FINDERS:
        return _numbered(base, catalogue, rule, reading, chosen, NO_CASE)
    assembly = assemble(catalogue, outlet, leads, inlet, way)
    base = replace(base, setting=_setting(assembly, reading))
    case = FINDERS[reading.quantity](assembly, reading)
    numbered = _numbered(base, catalogue, rule, reading, chosen, "" if case else NO_CASE)
    return _shown(numbered, assembly, case) if case else numbered


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
            if reading.quantity == rule.quantity and (reading.subject, reading.state, reading.setting, reading.value) == (
                    chosen.subject, chosen.state, chosen.setting, chosen.value) and met(rule, reading.value, _limit(rule, reading)):
                return rule, reading
    return None, None


def _limit(rule: Rule, reading: Reading) -> float:
    return reading.limit if rule.limit == "own" else float(rule.limit)


def _base(verdict: Verdict, places: Mapping[str, Port | Lead], leads: Sequence[Lead], way: Way) -> Working:
    steps = [f"{lead.ends[near].label} to the outlet's side, {lead.ends[far].label} to the inlet's" for lead, (near, far) in zip(leads, way.ends)]
    steps += [f"{leads[i].ends[end].label} in {owner(places, f'extra{number}')}" for number, (i, end) in enumerate(way.plugged, 1)]
    return Working(verdict.start, verdict.through, verdict.target, verdict.verdict, "", "", "", "rule", "; ".join(steps) or "plugged straight in", {}, "", "",
                   (), None, None, "", "", "", 0.0, "", "", None, "", "", (), ())


def _setting(assembly: Assembly, reading: Reading) -> dict[str, str]:
    names = {switch.key: switch.name for switch in supply_switches(assembly.ports)}
    return {} if reading.setting is None else {names[key]: state for key, state in settings(assembly.ports)[reading.setting].items()}


def _numbered(base: Working, catalogue: Catalogue, rule: Rule | None, reading: Reading | None, chosen: Finding | None, note: str) -> Working:
    """The number, its limit and where that comes from."""
    if chosen is None and reading is None:
        return replace(base, note=note)
    own = rule is not None and rule.limit == "own"
    limit = chosen.limit if chosen else _limit(rule, reading)
    evidence, cite = (chosen.evidence, chosen.cite) if chosen else (rule.evidence, rule.cite)
    remark = reading.evidence.note if own and reading.evidence else None
    return replace(
        base, finding=chosen.id if chosen else "", severity=chosen.severity if chosen else "safe",
        says=chosen.says if chosen else "Nothing speaks against it; this is how the signal arrives.",
        quantity=reading.quantity if reading else "", where=chosen.where if chosen else reading.where, state=chosen.state if chosen else reading.state,
        value=chosen.value if chosen else reading.value, unit=chosen.unit if chosen else reading.unit, compare=rule.compare if rule else "", limit=limit,
        limit_from=" ".join(filter(None, ["The part's own rating." if own else "The rulebook.", remark or (rule.reason if rule and not own else "")])),
        evidence=evidence, cite=cite, titles=tuple(catalogue.sources[name].title for name in cite if name in catalogue.sources), note=note)


def _shown(base: Working, assembly: Assembly, case: Case) -> Working:
    """The case in words and numbers."""
    places = assembly.places
    found = relevant(case, conductors(places))
    groups: dict[int, list[str]] = {}
    for net, into in enumerate(found.merged):
        groups.setdefault(into, []).extend(case.nodes[net])
    drawn = list(dict.fromkeys(net for e in found.kept for net in (e.a, e.b)))
    labels = net_labels(places, {net: groups[net] for net in drawn})
    signal = case.nature == "signal"
    size = (lambda number: float(abs(number))) if signal else (lambda number: float(number.real))
    level = lambda number: float(copysign(abs(number), number.real))
    nets = tuple(Net(labels[net], tuple(dict.fromkeys(contact_name(places, node) for node in groups[net])), level(case.unknowns[net]), net in found.zeros,
                     tuple(level(row[net]) for row in case.spectrum) if case.spectrum is not None else ()) for net in drawn)
    listening = _meter(base, assembly, case)
    parts = tuple(_worked(places, case, e, labels, size, listening) for e in found.kept)
    apart = next(e for e in found.kept if e.decides)
    note = SHORTED if apart.a == apart.b else NOWHERE if case.nature == "test" and not case.level else ""
    return replace(base, nature=case.nature, corner=CORNERS[case.corner], touching=_touching(assembly, case), hertz=case.hertz, level=case.level if case.hertz is not None else None,
                   source=_source(places, case), terms=tuple(Term(_term(places, words), value, unit) for words, value, unit in case.terms),
                   nets=nets, parts=parts, left_out=sum(e.kind != "contact" for e in found.elements) - sum(e.kind != "contact" for e in found.kept),
                   equation=None if note == NOWHERE else _equation(places, case, found, labels, listening), note=note)


def _meter(base: Working, assembly: Assembly, case: Case) -> str:
    """What the meter is called: where it is put."""
    if case.nature == "test":
        return "test current"
    places = {node.split("/")[0] for node in case.decides} if isinstance(case.decides, tuple) else set()
    heard = f"what {owner(assembly.places, places.pop())} {'gives' if base.quantity.startswith('load') else 'hears'}" if len(places) == 1 else base.where
    return heard if case.nature == "signal" else base.where


def _source(places: Mapping, case: Case) -> str:
    if case.source in ("", EARTHS):
        return "difference between the chassis" if case.source else ""
    if "/" not in case.source:
        return f"every channel of {owner(places, case.source)} alike"
    place, name = case.source.split("/", 1)
    channel = next(s.channel for s in places[place].sources if s.id == name)
    return owner(places, place) if len(places[place].sources) == 1 else f"{channel} of {owner(places, place)}"


def _term(places: Mapping, words: str) -> str:
    """Part and source ids in a term's words become names."""
    found = [word for word in words.split() if word.split("/")[0] in places and "/" in word]
    for word in found:
        place, name = word.split("/", 1)
        words = words.replace(word, f"{name.removeprefix('main.').replace('-', ' ').replace('.', ' ')} of {owner(places, place)}")
    return words


def _worked(places: Mapping, case: Case, e: Element, labels: Mapping[int, str], size, listening: str) -> Worked:
    part = case.circuit.parts[e.part] if e.part is not None else None
    place = e.id.split("/")[0]
    value = _value(case, e)
    return Worked(e.id, element_name(places, part, e.id, listening), owner(places, place) if place in places else "", e.kind, value, labels[e.a], labels[e.b],
                  size(e.volts), size(e.amps), round(degrees(atan2(e.amps.imag, e.amps.real)), 3) if case.nature == "signal" and abs(e.amps) else 0.0, e.decides)


def _value(case: Case, e: Element) -> str:
    units = {"resistor": "ohm", "capacitor": "F", "inductor": "H", "emf": "V", "sink": "A", "clamp": "V"}
    if e.kind == "contact":
        return quantity(0.01, "ohm")
    if e.kind == "meter":
        return quantity(case.level, "A") if case.nature == "test" and case.level else ""
    amount = float(case.values[e.part])
    if e.kind == "emf" and case.nature in ("signal", "test"):
        amount = abs(case.drive.get(e.id, 0.0)) * case.level
        return quantity(amount, "V") if amount else "silent"
    if e.kind == "emf" and not amount:
        return "silent"
    return quantity(amount * 1e12, "pF") if e.kind == "capacitor" and amount < 1e-9 else quantity(amount, units[e.kind])


def _touching(assembly: Assembly, case: Case) -> tuple[str, ...]:
    """The contacts that meet in this case, in words; and what earth does."""
    pairs = [(interface, touch) for interface in assembly.interfaces for touch in sorted({t for state in (*interface.mating.home, *interface.mating.travel) for t in state})]
    met = [f"{contact_name(assembly.places, interface.nodes[0][a])} meets {contact_name(assembly.places, interface.nodes[1][b])}"
           for (interface, (a, b)), shut in zip(pairs, case.closed) if shut]
    earthed = len(case.closed) > len(pairs) and case.closed[-1]
    return (*met, "both chassis are tied by mains earth as well") if earthed else tuple(met)


def _equation(places: Mapping, case: Case, found: Relevant, labels: Mapping[int, str], listening: str) -> Equation | None:
    """The currents that leave the deciding net."""
    here = [(e, e.amps if e.a == found.at else -e.amps) for e in found.elements if found.at in (e.a, e.b) and e.a != e.b]
    largest = max((abs(amps) for _, amps in here), default=0.0)
    told = [(e, amps) for e, amps in here if largest and abs(amps) >= SMALL * largest]
    total = sum(amps for _, amps in here)
    names = tuple(in_words(element_name(places, case.circuit.parts[e.part] if e.part is not None else None, e.id, listening), e.kind) for e, _ in told)
    net, noise = labels[found.at], quantity(0.0, "A")
    if largest < 1e-9:
        says = f"No current flows at {net}, so nothing is dropped on the way to it."
    else:
        each = [_current(amps, name) for (_, amps), name in zip(told, names)]
        rest = "" if len(told) == len(here) else ", the rest below a ten-thousandth"
        says = f"Currents at {net} sum to zero: {'; '.join(each)}{rest}. Sum {quantity(abs(total), 'A') if abs(total) > 1e-6 * largest else noise}."
    return Equation(net, names, tuple(float(amps.real) for _, amps in told), tuple(float(amps.imag) for _, amps in told), float(abs(total)), says)


def _current(amps: complex, name: str) -> str:
    turned = abs(amps.imag) > 0.02 * abs(amps)
    if not turned:
        return f"{quantity(abs(amps), 'A')} {'out' if amps.real > 0 else 'in'} through the {name}"
    return f"{quantity(abs(amps), 'A')} at {fixed(degrees(atan2(amps.imag, amps.real)), 0)}° out through the {name}"
