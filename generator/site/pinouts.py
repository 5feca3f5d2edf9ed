"""What opens the page of a connector or an assignment: the face with what its contacts carry, every half and
side of it in one frame."""

from __future__ import annotations

import re
from collections import Counter
from typing import Any

from generator.catalogue.records import Assignment, Catalogue, Connector
from generator.drawing import SIDE, draw, looks, roles
from generator.drawing import views as views_of
from generator.drawing.faces import held, looking

SIDES = {"face": "Front", "solder": "Solder side"}
EDGE, NOTHING = looks.LOOKS["role-edge"], looks.LOOKS["role-nothing"]


def shown(catalogue: Catalogue, connector: Connector, first: str | None = None) -> dict[str, Any]:
    """For the template: `views` ({name, svg, half, side, says}), `first` (the assignment drawn), the others
    in three groups (`usual`, `more`, `seldom`), its `rows` ({contact, words, lines}) and `data`, by which a
    page changes the words without drawing anew."""
    mine = {one.id: one for one in catalogue.assignments.values() if one.connector == connector.id}
    usual = [name for name in connector.outside.usual if name in mine]
    seldom = [name for name in connector.outside.seldom if name in mine]
    more = [name for name in mine if name not in (*usual, *seldom)]
    first = first or next(iter([*usual, *more, *seldom]), None)
    views = [
        {
            "name": f"{half}-{view}",
            "half": half,
            "side": view,
            "says": _says(connector, half, view),
            "svg": draw(
                catalogue, first or connector.id, view, half, prefix=f"pinout-{half}-{view}", standalone=False
            ),
        }
        for view in views_of(connector)
        if view != SIDE
        for half in connector.halves
    ]
    return {
        "views": views,
        "first": first,
        "short": short({name: one.name for name, one in mine.items()}),
        "usual": usual,
        "more": more,
        "seldom": seldom,
        "halves": list(connector.halves),
        "sides": {view: SIDES[view] for view in views_of(connector) if view in SIDES},
        "rows": [
            _row(contact, mine[first].carries.get(contact) if first else None)
            for contact in connector.contacts
        ],
        "data": {
            "looks": {"edge": EDGE, **{kind: looks.LOOKS[f"role-{kind}"] for kind in roles.NAMES}},
            "carries": {name: _carries(connector, one) for name, one in mine.items()},
        }
        if first
        else None,
    }


def short(names: dict[str, str]) -> dict[str, str]:
    """Names that stand side by side, without the words most of them share about the connector: `Timecode
    (LTC) on a three-contact XLR` becomes `Timecode (LTC)`. A name stays whole where nothing would be left,
    or two would be alike."""
    tails = Counter(tail for name in names.values() for tail in _tails(name))
    shared = max(
        (tail for tail, count in tails.items() if count > 1 and 2 * count >= len(names)),
        key=len,
        default=None,
    )
    cut = {id: name.replace(shared, "", 1).strip() if shared else name for id, name in names.items()}
    alike = Counter(cut.values())
    return {id: cut[id] if cut[id] and alike[cut[id]] == 1 else name for id, name in names.items()}


def _tails(name: str) -> set[str]:
    """` on a three-contact XLR`, ` on a three-contact` ... of a name, up to its first comma or
    bracket after ` on `."""
    at = name.find(" on ")
    words = re.split("[,;(:]", name[at:])[0].rstrip().split(" ")[1:] if at > 0 else []
    return {" " + " ".join(words[:count]) for count in range(2, len(words) + 1)}


def _says(connector: Connector, half: str, view: str) -> str:
    if connector.shape == "concentric":
        return "Plug, tip above." if half == "plug" else "Jack, cut open."
    return f"{looking(connector, half, view)} {held(connector)}".strip()


def _carries(connector: Connector, assignment: Assignment) -> dict[str, tuple[str, str]]:
    return {
        contact: (roles.kind(role), roles.words(role))
        for contact in connector.contacts
        for role in [assignment.carries.get(contact)]
    }


def _row(contact: str, role: str | None) -> dict[str, Any]:
    kind = roles.kind(role)
    return {
        "contact": contact,
        "words": roles.words(role),
        "edge": NOTHING if kind == "nothing" else EDGE,
        "line": looks.LOOKS[f"role-{kind}"],
    }
