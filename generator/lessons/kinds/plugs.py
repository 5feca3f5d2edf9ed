"""Name this plug; which of these goes in."""

from __future__ import annotations

from random import Random

from generator.catalogue.records import Connector
from generator.engine.mate import OPPOSITE, PLUGS, RECEPTACLES, fits
from generator.lessons.facts import Facts, remembered
from generator.lessons.levels import level
from generator.lessons.question import Choice, NoQuestion, Question
from generator.lessons.tables import table

from .kind import Kind, parts, shuffled

THICK = 0.3  # mm; thinner differences than this may be pushed in
HALVES = {"plug": "plug", "jack": "socket", "male": "male, with pins", "female": "female, with holes"}
TELLS = {
    "diameter": "Across",
    "contacts": "Contacts",
    "rings": "Rings",
    "latch": "Latch",
    "keyway": "Key",
    "outline": "Outline",
}


def _draw_name(facts: Facts, chance: Random) -> str:
    one = _any(facts, chance)
    return f"{one.id},{chance.choice(list(one.outside.body))}"


def _any(facts: Facts, chance: Random) -> Connector:
    found = [one for one in facts.catalogue.connectors.values() if one.outside.body]
    everyday = [one for one in found if one.id in table("common")["connectors"]]
    return chance.choice(everyday if chance.random() < 0.4 else found)


def _looks(one: Connector) -> dict:
    return {name: one.looks.get(name) for name in TELLS}


def _said(one: Connector) -> tuple[tuple[str, str], ...]:
    """What one sees and can measure, in words, so that the picture is not needed."""
    said = lambda name, value: (
        f"{value:g} mm"
        if name == "diameter"
        else f"{value:g}"
        if isinstance(value, float)
        else str(value).replace("-", " ")
    )
    return tuple(
        (words, said(name, one.looks[name]))
        for name, words in TELLS.items()
        if one.looks.get(name) not in (None, "none", "unknown", 0.0)
    )


def _name(facts: Facts, subject: str, chance: Random) -> Question:
    id, half = parts(subject, 2, "CONNECTOR,HALF")
    one = facts.catalogue.connectors.get(id)
    if one is None or half not in one.outside.body:
        raise NoQuestion(f"“{subject}”: no connector with a side view of that half")
    others = [
        other
        for other in facts.catalogue.connectors.values()
        if other.id != id and half in other.halves and _looks(other) != _looks(one)
    ]
    likeness = lambda other: (
        other.shape != one.shape,
        -sum(other.looks.get(name) == one.looks.get(name) for name in TELLS),
        chance.random(),
    )
    wrong = [Choice(other.id, other.name, other.recognise) for other in sorted(others, key=likeness)]
    grade, note = remembered(one.evidence, "What it looks like")
    return Question(
        "name",
        subject,
        f"What is this? You see the {HALVES[half]}.",
        (id,),
        one.recognise,
        f"connectors/{id}/",
        level(facts, "name", connectors=[id]),
        grade,
        choices=shuffled(Choice(id, one.name), wrong, chance),
        given=_said(one),
        number="",
        pictures=(f"side-{id}-{half}",),
        shown=(f"connector-{id}",),
        note=note,
    )


def _draw_fits(facts: Facts, chance: Random) -> str:
    one = _any(facts, chance)
    sockets = [half for half in one.halves if half in RECEPTACLES]
    return f"{one.id},{sockets[0]}" if sockets else _draw_fits(facts, chance)


def _fits(facts: Facts, subject: str, chance: Random) -> Question:
    id, half = parts(subject, 2, "CONNECTOR,HALF")
    own = facts.catalogue.connectors.get(id)
    if own is None or half not in own.halves or half not in RECEPTACLES:
        raise NoQuestion(f"“{subject}” is no socket of the catalogue")
    goes = lambda other: any(fits((own, half), (other, one)) for one in other.halves if one in PLUGS)
    right = (
        own
        if OPPOSITE[half] in own.halves
        else next((other for other in facts.catalogue.connectors.values() if goes(other)), None)
    )
    if right is None:
        raise NoQuestion(f"“{subject}”: nothing in the catalogue goes in")
    others = [
        other
        for other in facts.catalogue.connectors.values()
        if set(PLUGS) & set(other.halves) and not goes(other) and not _forced(right, other)
    ]
    likeness = lambda other: (
        other.shape != own.shape,
        abs(other.looks.get("diameter", 0) - own.looks.get("diameter", 0)),
        chance.random(),
    )
    wrong = [
        Choice(other.id, other.name, f"It does not go in: {other.recognise}")
        for other in sorted(others, key=likeness)
    ]
    size = f"{right.looks['diameter']:g} mm" if "diameter" in right.looks else ""
    grade, note = remembered(own.evidence, "The socket's size")
    return Question(
        "fits",
        subject,
        "Which of these goes into this socket?",
        (right.id,),
        f"It takes “{right.name}”{f', {size} across' if size else ''}. What goes in need not belong there.",
        f"connectors/{id}/",
        level(facts, "fits", connectors=[id]),
        grade,
        choices=shuffled(Choice(right.id, right.name), wrong, chance),
        given=_said(own),
        number=size,
        pictures=(f"side-{id}-{half}",) if half in own.outside.body else (f"connector-{id}",),
        shown=(f"side-{right.id}-{OPPOSITE[half]}",)
        if OPPOSITE[half] in right.outside.body
        else (f"connector-{right.id}",),
        note=note,
    )


def _forced(right: Connector, other: Connector) -> bool:
    """A rod as thick as the right one: it may go in with some force, so it is no wrong answer."""
    return {right.shape, other.shape} <= {"concentric", "coaxial"} and abs(
        right.looks.get("diameter", 0) - other.looks.get("diameter", 0)
    ) < THICK


KINDS = (
    Kind("name", "Name this plug", _draw_name, _name),
    Kind("fits", "Which of these goes in", _draw_fits, _fits),
)
