"""What one sees of a connector, in words: for its own page, and for the page that finds a
connector by a few questions."""

from __future__ import annotations

from collections import Counter
from typing import Any

from generator.catalogue.records import Catalogue, Connector
from generator.drawing import small

WORDS = {  # the closed lists of the catalogue, as an answer would put them
    "outline": {
        "rod": "a bare rod, or the hole for one",
        "round": "round, with contacts inside",
        "D": "a flat D",
        "rectangular": "a rectangle",
        "cut corners": "a square with two corners cut",
        "oval": "a flat oval",
        "wires": "bare ends of wire",
    },
    "latch": {
        "none": "nothing but friction",
        "push-tab": "a tab one presses",
        "thread": "a thread",
        "screws": "two screws",
        "bayonet": "a quarter turn over two studs",
        "push-pull": "a collar one pulls back",
        "twist": "a twist of the whole plug",
    },
    "keyway": {
        "none": "nothing",
        "slot": "a slot",
        "ridge": "a ridge",
        "notch": "a notch",
        "outline": "the outline itself",
    },
    "shell": {"metal": "metal", "plastic": "plastic", "either": "metal or plastic", "none": "no shell"},
}
LABELS = {
    "outline": "Shape",
    "diameter": "Size",
    "contacts": "Contacts",
    "rings": "Insulating rings",
    "latch": "Held by",
    "keyway": "Turned right by",
    "shell": "Shell",
}
ALIKE = 1.25  # sizes within this ratio are not told apart by eye; a careful guess


def family(connector: Connector) -> str:
    """What it is called before its contacts are counted: `XLR`, `3.5 mm phone`."""
    return connector.name.split(",")[0]


def said(connector: Connector) -> dict[str, str]:
    """Each fact one sees, in words, in the order of LABELS: `{"outline": "a flat D", "diameter":
    "17 mm across", ...}`."""
    looks = connector.looks
    return {key: _said(key, looks[key]) for key in LABELS if key in looks}


def _said(key: str, value: str | float) -> str:
    if key in WORDS:
        return WORDS[key][value]
    if key == "diameter":
        return f"{value:g} mm across"
    return f"{value:g} {key.removesuffix('s') if value == 1 else key}"


def alike(catalogue: Catalogue, connector: Connector) -> dict[str, list[str]]:
    """Connectors easily taken for this one, by id: those of the same shape that differ in one fact at most or
    go into the same hole, with those facts in words. The list is empty where no fact tells the two apart."""
    if not connector.looks:
        return {}
    found = {}
    for other in catalogue.connectors.values():
        if other.id == connector.id or not other.looks or _shape(other) != _shape(connector):
            continue
        apart = [
            key
            for key in ("diameter", "contacts", "latch", "keyway", "shell")
            if _differ(key, connector, other)
        ]
        if len(apart) < 2 or _one_hole(connector, other):
            found[other.id] = [_named(key, said(other)[key]) for key in apart]
    return dict(sorted(found.items(), key=lambda item: (len(item[1]), item[0])))


def _shape(connector: Connector) -> tuple[str | float, bool]:
    """The outline, and whether contacts are behind one another: two rods are not taken for one."""
    return connector.looks["outline"], connector.shape == "concentric"


def _one_hole(one: Connector, other: Connector) -> bool:
    return one.shape == other.shape == "concentric" and one.bore == other.bore


def _named(key: str, words: str) -> str:
    return f"{LABELS[key].lower()}: {words}" if key in WORDS else words


def _differ(key: str, one: Connector, other: Connector) -> bool:
    """Whether an eye sees the difference; what is not known or may be either tells nothing apart."""
    a, b = one.looks.get(key), other.looks.get(key)
    if a is None or b is None or "either" in (a, b):
        return False
    return max(a, b) > ALIKE * min(a, b) if key == "diameter" else a != b


def published(catalogue: Catalogue) -> dict[str, Any]:
    """What the page's script needs: the words of the answers, and of each connector its looks, bare and
    in words, its twins, its halves, those with a small face to show, and how often ports and leads of
    the catalogue end in it."""
    met = Counter(port.connector for port in catalogue.ports.values()) + Counter(
        end.connector for lead in catalogue.leads.values() for end in lead.ends.values()
    )
    return {
        "words": WORDS,
        "labels": LABELS,
        "connectors": {
            connector.id: {
                "name": connector.name,
                "recognise": connector.recognise,
                "looks": {**connector.looks, "family": family(connector)},
                "said": said(connector),
                "alike": alike(catalogue, connector),
                "halves": list(connector.halves),
                "faces": [half for half in connector.halves if small.face(connector, half)[0]],
                "met": met[connector.id],
            }
            for connector in catalogue.connectors.values()
        },
    }
