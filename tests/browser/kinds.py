"""One page of every kind, each the hardest of its kind: of the records the one with the longest name."""

from __future__ import annotations

from answers import CHAINS, address

from generator.catalogue import Catalogue

PLAIN = {
    "front": "", "check": "check/", "choosing a lead": "check/#from=mic-dynamic-xlr", "answer": address(*CHAINS["dangerous"]),
    "not found": "check/#from=no-such-port", "matrix": "matrix/", "connectors": "connectors/", "assignments": "assignments/", "ports": "ports/",
    "leads": "leads/", "bench": "bench/", "wired": "bench/#ends=xlr-3/female,phone-35-trs/plug&joins=a.1_b.sleeve,a.2_b.tip", "bag": "bag/", "recognise": "recognise/", "cards": "cards/", "cards chosen": "cards/#connectors=xlr-3&leads=xlr-f-to-xlr-m-3m&paper=a4",
    "methods": "methods/", "sources": "sources/", "coverage": "coverage/", "changes": "changes/",
    "class": "class/", "practice": "class/practice/#ask=contact:xlr-3-balanced,2", "lesson": "class/lesson/#lesson=02-xlr&at=6", "making a lesson": "class/make/#lesson=01-bands", "test": "class/test/",
    "handout": "class/lessons/02-xlr/", "guide": "guides/meter/", "glossary": "guides/glossary/",
}
RECORDS = {"connector": "connectors", "assignment": "assignments", "port": "ports", "lead": "leads"}
KINDS = [*PLAIN, *RECORDS]


def page_of(kind: str, catalogue: Catalogue) -> str:
    """The address of the page of a kind."""
    if kind in PLAIN:
        return PLAIN[kind]
    records = getattr(catalogue, RECORDS[kind]).values()
    return f"{RECORDS[kind]}/{max(records, key=lambda record: len(record.name)).id}/"
