"""Spot the wiring fault in this drawing, and which fault sounds like this."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations
from random import Random

from generator.catalogue.light import fibres
from generator.catalogue.records import Catalogue, Join, Lead
from generator.drawing import draw
from generator.lessons.facts import Facts, remembered
from generator.lessons.levels import level
from generator.lessons.question import Choice, NoQuestion, Question
from generator.workshop.tables import table

from .kind import Kind, mixed, parts, shuffled

PLAIN = (2, 7)  # joins of a lead that is asked about
CRACKLE, SILENT = "crackle", {"nothing"}  # what is moved, and symptoms that tell nothing
WORDS = {
    "open": "{0} is open",
    "short": "{0} and {1} touch",
    "crossed": "{0} and {1} are changed over",
    "loose": "{0} comes and goes",
}
SEEN = ("open", "short", "crossed")  # faults a drawing shows


def _plain(lead: Lead) -> bool:
    """Wires alone, one contact at each of two ends for every join, so that a drawing
    shows every fault plainly."""
    return (
        not lead.parts
        and len(lead.ends) == 2
        and PLAIN[0] <= len(lead.joins) <= PLAIN[1]
        and all(
            len(join.nodes) == 2
            and {node.split(".")[0] for node in join.nodes} == set(lead.ends)
            and "-" not in "".join(join.nodes)
            for join in lead.joins
        )
    )


def _leads(facts: Facts) -> list[Lead]:
    """Plain leads of wire: no iron and no meter is put to a fibre."""
    every, connectors = facts.catalogue.leads.values(), facts.catalogue.connectors
    return facts.once(
        "plain leads", lambda: [one for one in every if _plain(one) and not fibres(one, connectors)]
    )


def _faults(lead: Lead) -> Iterator[str]:
    """Every fault at the second end, as the workshop writes them."""
    end = list(lead.ends)[1]
    nodes = sorted(node for join in lead.joins for node in join.nodes if node.startswith(f"{end}."))
    yield from (f"open:{node}" for node in nodes)
    for pair in combinations(nodes, 2):
        yield from (f"{kind}:{'-'.join(pair)}" for kind in ("short", "crossed"))


def faulty(lead: Lead, fault: str) -> Lead:
    """The lead with one of these faults. ValueError for another."""
    kind, _, at = fault.partition(":")
    nodes = at.split("-")
    if kind == "open":
        joins = tuple(
            replace(join, nodes=tuple(node for node in join.nodes if node != nodes[0])) for join in lead.joins
        )
        return replace(lead, joins=tuple(join for join in joins if len(join.nodes) > 1))
    if kind == "crossed":
        other = {nodes[0]: nodes[1], nodes[1]: nodes[0]}
        return replace(
            lead,
            joins=tuple(
                replace(join, nodes=tuple(other.get(node, node) for node in join.nodes))
                for join in lead.joins
            ),
        )
    if kind == "short":
        both = [join for join in lead.joins if set(nodes) & set(join.nodes)]
        one = Join(
            both[0].id,
            tuple(dict.fromkeys(node for join in both for node in join.nodes)),
            any(join.screen for join in both),
        )
        return replace(
            lead, joins=tuple(one if join is both[0] else join for join in lead.joins if join not in both[1:])
        )
    raise ValueError(f"{fault} is not drawn")


def told(catalogue: Catalogue, lead: Lead, fault: str) -> str:
    """A fault in words: `2 and 3 are changed over at the XLR male`."""
    kind, _, at = fault.partition(":")
    nodes = at.split("-") if at else []
    end = lead.ends[nodes[0].split(".")[0]]
    return (
        f"{WORDS[kind].format(*(node.split('.', 1)[1] for node in nodes))}, at the {end.label} (end {end.id})"
    )


def _draw_fault(facts: Facts, chance: Random) -> str:
    lead = chance.choice(_leads(facts))
    return f"{lead.id},{chance.choice(list(_faults(lead)))}"


def _lead_and_fault(facts: Facts, subject: str) -> tuple[Lead, str]:
    id, fault = parts(subject, 2, "LEAD,FAULT such as open:b.2")
    lead = facts.catalogue.leads.get(id)
    if lead is None or not _plain(lead) or fault not in _faults(lead):
        raise NoQuestion(f"“{subject}”: no plain lead with such a fault")
    return lead, fault


def wiring(lead: Lead) -> tuple[tuple[str, str], ...]:
    """What a beep finds from every contact of the first end, so that the drawing is not needed."""
    first = next(iter(lead.ends))
    found = {}
    for join in lead.joins:
        for node in join.nodes:
            if node.startswith(f"{first}."):
                found[node] = ", ".join(other for other in join.nodes if other != node)
    return tuple((node, other) for node, other in sorted(found.items()))


def _fault(facts: Facts, subject: str, chance: Random) -> Question:
    lead, fault = _lead_and_fault(facts, subject)
    broken = faulty(lead, fault)
    name = f"fault-{lead.id}-{fault.replace(':', '-').replace('.', '-')}"
    picture = draw_lead(facts.catalogue, replace(broken, name=f"{lead.name}, with a fault"), name)
    wrong = [
        Choice(other, told(facts.catalogue, lead, other)) for other in mixed(list(_faults(lead)), chance)
    ]
    # another fault at the same contacts first
    wrong.sort(key=lambda choice: choice.id.partition(":")[2] != fault.partition(":")[2])
    wired, should = dict(wiring(broken)), dict(wiring(lead))
    made = "; ".join(f"{a} to {b}" for a, b in should.items())
    straight = all(len({node.split(".", 1)[1] for node in join.nodes}) == 1 for join in lead.joins)
    given = (
        ("The lead", lead.name),
        *(() if straight else (("As it should be", made),)),
        *((f"{node} beeps to", wired.get(node, "nothing")) for node in should),
    )
    grade, note = remembered(lead.evidence, "How this lead is wired")
    right = told(facts.catalogue, lead, fault)
    return Question(
        "fault",
        subject,
        "What is wrong with this lead?",
        (fault,),
        f"{right[:1].upper()}{right[1:]}. As it should be: {made}.",
        f"workshop/{lead.id}/",
        level(facts, "fault", connectors=[end.connector for end in lead.ends.values()]),
        grade,
        choices=shuffled(Choice(fault, right), wrong, chance),
        given=given,
        number=fault.partition(":")[2].split("-")[0].split(".", 1)[1],
        pictures=(name,),
        shown=(f"lead-{lead.id}",),
        note=note,
        drawn=(name, picture),
    )


def draw_lead(catalogue: Catalogue, lead: Lead, prefix: str) -> str:
    """The drawing of a lead that is not in the catalogue."""
    return draw(
        replace(catalogue, leads={**catalogue.leads, lead.id: lead}), lead.id, prefix=f"draw-{prefix}"
    )


def _sounds(facts: Facts, lead: Lead) -> dict[str, set[str]]:
    """Symptom -> those of the plain faults of a lead that make it. What comes and goes is asked about
    by its crackle alone."""
    plain = {
        fault
        for ids in facts.symptoms[lead.id].values()
        for fault in ids
        if fault.partition(":")[0] in WORDS and len(fault.partition(":")[2].split("-")) < 3
    }
    steady = {fault for fault in plain if not fault.startswith("loose")}
    return {
        symptom: (plain if symptom == CRACKLE else steady) & set(ids)
        for symptom, ids in facts.symptoms[lead.id].items()
        if symptom not in SILENT
    }


def _draw_sound(facts: Facts, chance: Random) -> str:
    lead = chance.choice([one for one in _leads(facts) if one.id in facts.symptoms])
    sounds = _sounds(facts, lead)
    every = set().union(*sounds.values())
    able = [
        symptom
        for symptom, ids in sounds.items()
        if ids and len(every - set(facts.symptoms[lead.id][symptom])) > 1
    ]
    return f"{lead.id},{chance.choice(able)}" if able else _draw_sound(facts, chance)


def _sound(facts: Facts, subject: str, chance: Random) -> Question:
    id, symptom = parts(subject, 2, "LEAD,SYMPTOM")
    lead = facts.catalogue.leads.get(id)
    if lead is None or not _plain(lead) or symptom in SILENT or symptom not in facts.symptoms.get(id, {}):
        raise NoQuestion(f"“{subject}”: that lead has no such symptom")
    sounds = _sounds(facts, lead)
    if not sounds[symptom]:
        raise NoQuestion(f"“{subject}”: no plain fault sounds like that")
    right = next(fault for fault in facts.symptoms[id][symptom] if fault in sounds[symptom])
    others = mixed(sorted(set().union(*sounds.values()) - set(facts.symptoms[id][symptom])), chance)
    others.sort(key=lambda fault: fault.partition(":")[2] != right.partition(":")[2])
    heard = lambda fault: "; ".join(
        table("symptoms")[name]["says"] for name in facts.symptoms[id] if fault in facts.symptoms[id][name]
    )
    wrong = [
        Choice(fault, told(facts.catalogue, lead, fault), f"That would be: {heard(fault)}.")
        for fault in others
    ]
    grade, note = remembered(lead.evidence, "How this lead is wired")
    says, words = table("symptoms")[symptom]["says"], told(facts.catalogue, lead, right)
    return Question(
        "sound",
        subject,
        "Which of these faults sounds like this?",
        (right,),
        f"{says[:1].upper()}{says[1:]}: {words}.",
        f"workshop/{id}/",
        level(facts, "sound", connectors=[end.connector for end in lead.ends.values()]),
        "derived" if grade != "from memory" else grade,
        choices=shuffled(Choice(right, words), wrong, chance),
        given=(("The lead", lead.name), ("You hear", says)),
        number=right.partition(":")[2].split("-")[0].split(".", 1)[1],
        pictures=(f"lead-{id}",),
        shown=(f"lead-{id}",),
        note=note,
    )


KINDS = (
    Kind("fault", "Spot the wiring fault in this drawing", _draw_fault, _fault),
    Kind("sound", "Which fault sounds like this", _draw_sound, _sound),
)
