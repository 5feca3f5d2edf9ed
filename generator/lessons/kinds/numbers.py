"""What would the meter read, on a good lead and from the tables of the workshop."""

from __future__ import annotations

from random import Random

from generator.catalogue.light import fibres
from generator.catalogue.records import Lead
from generator.lessons.facts import Facts, remembered
from generator.lessons.levels import level
from generator.lessons.question import Choice, NoQuestion, Question
from generator.workshop import readings
from generator.workshop.readings import Reading
from generator.workshop.specimen import on_bench

from .kind import Kind, parts, shuffled

MOST = 12  # contacts of a lead that is asked about
APART = 1.3  # two resistances nearer than this factor are not two answers
NOTHING = ("No reading", "It would, if no conductor joined them. Here one does.")
FILLS = ("No reading", "In the end, yes: first the meter fills the capacitor.")
WIRE = ("A wire: it beeps", "Nothing in the lead joins these two.")


def _readings(facts: Facts, lead: Lead) -> dict[str, Reading]:
    """Pair -> reading, of the pairs whose reading can be said in a word or a number."""
    found = facts.once(f"readings of {lead.id}", lambda: readings.readings(on_bench(facts.catalogue, lead)))
    return {
        one.pair: one
        for one in found
        if "body" not in one.pair and not one.junction and one.beep in ("yes", "no", "once")
    }


def _draw(facts: Facts, chance: Random) -> str:
    """Half of the time a pair that is joined, a third of the time a lead with parts inside."""
    leads = facts.once(
        "leads to measure",
        lambda: [
            one
            for one in facts.catalogue.leads.values()
            if _contacts(facts, one) <= MOST and not fibres(one, facts.catalogue.connectors)
        ],
    )
    parted = [one for one in leads if one.parts]
    lead = chance.choice(parted if chance.random() < 0.35 else leads)
    found = _readings(facts, lead)
    joined = [pair for pair, reading in found.items() if readings.said(reading) != readings.NONE]
    if not found:
        return _draw(facts, chance)
    return f"{lead.id},{chance.choice(joined if joined and chance.random() < 0.5 else list(found))}"


def _contacts(facts: Facts, lead: Lead) -> int:
    return sum(len(facts.catalogue.connectors[end.connector].contacts) for end in lead.ends.values())


def _said(reading: Reading) -> str:
    """As the meter shows it."""
    if readings.said(reading) == readings.NONE:
        return NOTHING[0]
    return WIRE[0] if reading.beep == "yes" else readings.said(reading)


def _ask(facts: Facts, subject: str, chance: Random) -> Question:
    id, pair = parts(subject, 2, "LEAD,PAIR such as a.2-b.2")
    lead = facts.catalogue.leads.get(id)
    found = _readings(facts, lead) if lead else {}
    if pair not in found:
        raise NoQuestion(f"“{subject}”: no lead with such a pair whose reading can be said in a word")
    reading, right = found[pair], _said(found[pair])
    wrong = [Choice("no-reading", *(FILLS if reading.beep == "once" else NOTHING)), Choice("wire", *WIRE)]
    wrong += [
        Choice(f"like-{other}", _said(one), f"That is what {other} reads.")
        for other, one in found.items()
        if _apart(one, reading)
    ]
    wrong += (
        [Choice("kilohm", "About 1 kΩ", "No part of about that size is in this lead.")]
        if not _near(reading, 1000)
        else []
    )
    wrong += (
        [Choice("hundred", "About 100 Ω: a bad joint", "A good joint reads under an ohm.")]
        if not _near(reading, 100)
        else []
    )
    ends = {end.id: end.label for end in lead.ends.values()}
    place = lambda node: (
        f"{node.split('.', 1)[1]} of the {ends[node.split('.')[0]]} (end {node.split('.')[0]})"
    )
    grade, note = remembered(lead.evidence, "How this lead is wired")
    return Question(
        "meter",
        subject,
        "What should the meter read on a good lead?",
        ("right",),
        _sentence(right, pair),
        f"workshop/{id}/",
        level(
            facts,
            "meter",
            connectors=[end.connector for end in lead.ends.values()],
            mistakes=4 if lead.parts else 0,
        ),
        "derived" if not note else grade,
        choices=shuffled(Choice("right", right), wrong, chance),
        number=right,
        given=(
            ("The lead", lead.name),
            ("One probe on", place(reading.a)),
            ("The other on", place(reading.b)),
        ),
        pictures=(f"lead-{id}",),
        shown=(f"lead-{id}",),
        note=note,
    )


def _sentence(right: str, pair: str) -> str:
    why = {NOTHING[0]: "nothing joins the two.", WIRE[0]: "a conductor joins the two."}.get(
        right, "through the parts inside."
    )
    return f"{pair}: {right}: {why}"


def _apart(one: Reading, other: Reading) -> bool:
    """Would nobody take the one reading for the other?"""
    if _said(one) == _said(other) or not 0 < one.high < float("inf"):
        return False
    return other.high == float("inf") or one.low > other.high * APART or other.low > one.high * APART


def _near(reading: Reading, ohms: float) -> bool:
    return reading.low / APART <= ohms <= reading.high * APART


KINDS = (Kind("meter", "What would the meter read", _draw, _ask),)
