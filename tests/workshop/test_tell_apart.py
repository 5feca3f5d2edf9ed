"""What a lead's file says about telling it from its look-alikes, held against what a meter would read: the
pairs of contacts it names tell it from every look-alike that any pair tells it from."""

import re

import pytest

from generator.workshop import siblings
from generator.workshop.likely import apart
from generator.workshop.specimen import contact_of

WORD = re.compile(r"[\w+\-/]+")
SAME = {
    "inside": "centre",
    "outside": "sleeve",
    "pin": "centre",
    "shell": "shell",
    "body": "shell",
    "plus": "plus",
    "minus": "minus",
}


def named(text, lead, catalogue):
    """The contacts a text names: by their own names, by those people have for them, or by the
    conductor they are on."""
    told = [word.strip(".").lower() for word in WORD.findall(text)]
    words = {
        *told,
        *(f"{one}{two}" for one, two in zip(told, told[1:])),
        *(f"{one}-{two}" for one, two in zip(told, told[1:])),
    }
    words |= {SAME[word] for word in words & set(SAME)}
    contacts = {c for end in lead.ends.values() for c in catalogue.connectors[end.connector].contacts}
    if words & {"all-five", "all-of"}:
        return contacts
    on = {contact_of(node) for join in lead.joins if join.id in words for node in join.nodes}
    return {
        contact
        for contact in contacts
        if contact in words | on or any(part in words for part in contact.split("-"))
    }


def test_what_is_named_tells_them_apart(catalogue):
    wrong, held = [], 0
    for lead in catalogue.leads.values():
        if not (lead.looks_like and lead.tell_apart):
            continue
        known = siblings.apart(catalogue, siblings.alike(catalogue, lead))
        contacts = named(lead.tell_apart, lead, catalogue)
        asked = [
            m
            for m, sides in enumerate(known.measurements)
            if all(len(side) == 1 and contact_of(side[0]) in contacts for side in sides)
        ]
        for other in range(1, len(known.faults)):
            differ = [
                m
                for m in range(known.which.shape[1])
                if apart(known.classes[known.which[0, m]], known.classes[known.which[other, m]])
            ]
            held += bool(differ)
            if differ and not set(differ) & set(asked):
                wrong.append((lead.id, known.faults[other].at[0], sorted(contacts), lead.tell_apart[:160]))
    assert held > 300 and not wrong, f"{len(wrong)} of {held}:\n" + "\n".join(map(str, wrong))
