"""Which contact carries what, asked both ways, and what goes wrong where one assignment
is taken for another."""

from __future__ import annotations

import re
from collections.abc import Iterator
from difflib import SequenceMatcher
from functools import cache
from random import Random

from generator.catalogue.records import Assignment
from generator.drawing import roles
from generator.lessons.facts import Facts, remembered
from generator.lessons.levels import level
from generator.lessons.question import Choice, NoQuestion, Question
from generator.lessons.tables import table

from .kind import Kind, mixed, parts, shuffled

LEAST, MOST = 3, 8  # contacts; two are a coin's toss, twenty-five a wall
# numbered or told by its contact alone
VAGUE = re.compile(r"\d|spare|service|unused|select|detect|source|sink")
ALIKE = 0.6  # sentences more alike than this do not stand beside each other


def _clear(one: Assignment) -> bool:
    """Is every contact's role known?"""
    return all(roles.kind(role) != "unknown" for role in one.carries.values())


def _usable(facts: Facts) -> list[Assignment]:
    fit = lambda one: LEAST <= len(facts.catalogue.connectors[one.connector].contacts) <= MOST
    return [one for one in facts.catalogue.assignments.values() if fit(one) and _clear(one) and _single(one)]


def _likely(facts: Facts, found: list[Assignment], chance: Random) -> Assignment:
    """Everyday connectors half of the time."""
    everyday = [one for one in found if one.connector in table("common")["connectors"]]
    return chance.choice(everyday if everyday and chance.random() < 0.5 else found)


def _draw(facts: Facts, chance: Random) -> str:
    one = _likely(facts, facts.once("assignments to ask about", lambda: _usable(facts)), chance)
    return f"{one.id},{chance.choice(_single(one))}"


def _single(one: Assignment) -> list[str]:
    """The contacts whose role has a name of its own, which no other has, nor one that says much the same."""
    return [
        contact
        for contact, role in one.carries.items()
        if not VAGUE.search(role)
        and not any(contact != other and near(role, another) for other, another in one.carries.items())
    ]


@cache
def near(one: str, other: str) -> bool:
    """Are two roles words for much the same thing?"""
    first, second = ({role, *role.split("-")} for role in (one, other))
    return (
        one == other
        or roles.words(one) == roles.words(other)
        or any(first & set(row) and second & set(row) for row in table("mixed")["roles"])
    )


def _found(facts: Facts, subject: str) -> tuple[Assignment, str]:
    id, contact = parts(subject, 2, "ASSIGNMENT,CONTACT")
    one = facts.catalogue.assignments.get(id)
    if one is None or contact not in one.carries or not _clear(one) or VAGUE.search(one.carries[contact]):
        raise NoQuestion(f"“{subject}”: no assignment with a known role on that contact")
    if not LEAST <= len(facts.catalogue.connectors[one.connector].contacts) <= MOST:
        raise NoQuestion(f"“{subject}”: too few or too many contacts to ask about")
    return one, contact


def _common(facts: Facts, kind: str, one: Assignment) -> dict:
    grade, note = remembered(one.evidence, "What its contacts carry")
    return {
        "given": (("Plug", one.name),),
        "works": f"assignments/{one.id}/",
        "evidence": grade,
        "note": note,
        "level": _level(facts, kind, one),
        "pictures": (f"connector-{one.connector}",),
        "shown": (f"assignment-{one.id}",),
    }


def _level(facts: Facts, kind: str, one: Assignment) -> str:
    """What is unusual on its connector is as rare as a rare connector."""
    usual = one.id in facts.catalogue.connectors[one.connector].outside.usual
    return level(facts, kind, connectors=[one.connector if usual else one.id], mistakes=len(one.mistaken_for))


def _contact(facts: Facts, subject: str, chance: Random) -> Question:
    one, contact = _found(facts, subject)
    if contact not in _single(one):
        raise NoQuestion(f"“{subject}”: more than one contact carries that")
    slips = table("mixed")["contacts"].get(contact, {})
    carries = lambda other: (
        f"It carries {roles.words(one.carries[other])}."
        if other in one.carries
        else "Nothing known is on it."
    )
    choices = [
        Choice(
            other,
            _name(other),
            "" if other == contact else " ".join(filter(None, (carries(other), slips.get(other)))),
        )
        for other in facts.catalogue.connectors[one.connector].contacts
    ]
    word = roles.words(one.carries[contact])
    return Question(
        "contact",
        subject,
        f"Which contact carries {word}?",
        (contact,),
        f"{word[:1].upper()}{word[1:]} is on {_name(contact)}.",
        form="tap",
        choices=tuple(choices),
        number=_name(contact),
        **_common(facts, "contact", one),
    )


def _name(contact: str) -> str:
    return f"contact {contact}" if contact[0].isdigit() else re.sub(r"(?<=\D)(?=\d)", " ", contact)


def _role(facts: Facts, subject: str, chance: Random) -> Question:
    one, contact = _found(facts, subject)
    right = one.carries[contact]
    word = roles.words(right)
    wrong = [
        Choice(role, roles.words(role), why)
        for role, why in _wrong_roles(facts, one, contact)
        if not near(role, right)
    ]
    return Question(
        "role",
        subject,
        f"What does {_name(contact)} carry?",
        (right,),
        f"{word[:1].upper()}{word[1:]} is on {_name(contact)}.",
        choices=shuffled(Choice(right, word), wrong, chance),
        number=_name(contact),
        **_common(facts, "role", one),
    )


def _wrong_roles(facts: Facts, one: Assignment, contact: str) -> Iterator[tuple[str, str]]:
    """First what it carries where this plug is taken for another, then what other contacts carry here."""
    for other in one.mistaken_for:
        taken = facts.catalogue.assignments.get(other)
        if taken and taken.connector == one.connector and contact in taken.carries and _clear(taken):
            yield taken.carries[contact], f"So it is on another: {taken.name}."
    for other, role in one.carries.items():
        yield role, f"That is on {_name(other)}."


def _draw_mistaken(facts: Facts, chance: Random) -> str:
    found = [one for one in facts.catalogue.assignments.values() if len(one.mistaken_for) > 2]
    one = _likely(facts, found, chance)
    return f"{one.id},{chance.choice(list(one.mistaken_for))}"


def _mistaken(facts: Facts, subject: str, chance: Random) -> Question:
    id, other = parts(subject, 2, "ASSIGNMENT,ASSIGNMENT")
    one, taken = (facts.catalogue.assignments.get(name) for name in (id, other))
    if one is None or taken is None or other not in one.mistaken_for:
        raise NoQuestion(f"“{subject}”: the one is not listed as mistaken for the other")
    right, shape = one.mistaken_for[other], {*one.connector.split("-"), *taken.connector.split("-")}
    wrong = [
        Choice(name, text, f"That is what happens with another: {facts.catalogue.assignments[name].name}.")
        for name, text in mixed(list(one.mistaken_for.items()), chance)
        if name in facts.catalogue.assignments and _unlike(name, text, other, right, shape)
    ]
    grade, note = remembered(one.evidence, "What happens here")
    return Question(
        "mistaken",
        subject,
        "One is taken for the other. What follows?",
        (other,),
        right,
        f"assignments/{id}/",
        _level(facts, "mistaken", one),
        grade,
        choices=shuffled(Choice(other, right), wrong, chance),
        given=(("It is", one.name), ("Taken for", taken.name)),
        note=note,
        pictures=(f"connector-{one.connector}",),
        shown=(f"assignment-{one.id}", f"assignment-{taken.id}"),
    )


def _unlike(name: str, text: str, other: str, right: str, shape: set[str]) -> bool:
    """Not another variant of the same thing, nor much the same sentence. `shape` are the words
    of the connectors' ids."""
    one, two = set(name.split("-")) - shape, set(other.split("-")) - shape
    return (
        2 * len(one & two) <= len(two) and SequenceMatcher(None, text.lower(), right.lower()).ratio() < ALIKE
    )


KINDS = (
    Kind("contact", "Which contact carries it: tap the contact", _draw, _contact),
    Kind("role", "What a contact carries", _draw, _role),
    Kind("mistaken", "What follows where one plug is taken for another", _draw_mistaken, _mistaken),
)
