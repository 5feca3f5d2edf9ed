"""Phone plugs and jacks upright, tip above, in true proportion: every band with its name and what
it carries beside it."""

from __future__ import annotations

from collections.abc import Mapping

from generator.catalogue.records import Connector
from generator.drawing import roles as kinds
from generator.drawing.contacts import NUMERAL, Slot, contact, wire
from generator.drawing.layout import listed, paragraph
from generator.drawing.plugs import LEFT, LIFT, WALL, bush, housing, length, plug_parts, span, touching
from generator.drawing.scene import MARGIN, WIDE, Group, Item, Line, Scene, Text, polyline

TALL = 300  # px for the barrel of a plug
ACROSS = 96  # px, the middle of the plug
COLUMN = 196  # px, where names begin
ROW = 50  # px from name to name
WORD = 17


def plug(connector: Connector, roles: Mapping[str, str], name: str | None = None) -> Scene:
    """A plug with its contacts named; `roles` maps contacts to role ids."""
    part = connector.halves["plug"]
    scale = TALL / length(part)
    high = part.sizes["diameter"] * scale
    middles = [(LEFT + sum(part.segments[c]) / 2 * scale) for c in connector.contacts]
    shapes = plug_parts(connector, part, scale, 0, LEFT + TALL + 60)
    ends = (
        [LEFT + part.segments[c][0] * scale for c in connector.contacts],
        [LEFT + part.segments[c][1] * scale for c in connector.contacts],
    )
    items: list[Item] = [Group(tuple(shapes), ACROSS + high / 2, 0, turn=90)]
    for contact_name, y, label, top, bottom in zip(connector.contacts, middles, _spread(middles), *ends):
        bar = Line(ACROSS + high / 2 + 7, top + 2, ACROSS + high / 2 + 7, bottom - 2)
        items.append(_labelled(contact_name, roles, bar, (ACROSS + high / 2 + 7, y), label))
    bands = [
        f"{kinds.spoken(c, roles.get(c)).removeprefix('contact ')} {span(part.segments[c])}"
        for c in connector.contacts
    ]
    return _picture(
        connector,
        items,
        "plug, tip above, in true proportion",
        f"Plug of {connector.name}, tip above. From the tip back: {listed(bands)}.",
        name,
        LEFT + TALL + 66,
        scale,
        "Tip above.",
    )


def jack(connector: Connector, roles: Mapping[str, str], name: str | None = None) -> Scene:
    """A jack cut open: each spring over the stretch where makers may let it touch."""
    part = connector.halves["jack"]
    # a combination socket has no plug of its own and tells its bore itself
    taken = connector.halves.get("plug", part)
    home = length(taken)
    scale = TALL / home
    high = taken.sizes["diameter"] * scale
    middles = [LEFT + (part.springs[c].near + part.springs[c].far) / 2 * scale for c in part.springs]
    shapes = [
        *housing(high, LEFT + home * scale, bush(part, home, scale)),
        *touching(connector, scale, {c: f"{c} spring" for c in part.springs}, high),
    ]
    wide = WALL + LIFT + high + WALL
    right = ACROSS + wide / 2
    items: list[Item] = [Group(tuple(shapes), right, 0, turn=90)]
    for contact_name, y, label in zip(part.springs, middles, _spread(middles)):
        bar = Line(right + 6, y - 12, right + 6, y + 12)
        items.append(_labelled(contact_name, roles, bar, (right + 6, y), label))
    mouth = LEFT + home * scale
    arrow = [
        polyline([(ACROSS - 18, mouth + 40), (ACROSS - 18, mouth + 14)], "heavy"),
        polyline([(ACROSS - 25, mouth + 22), (ACROSS - 18, mouth + 13), (ACROSS - 11, mouth + 22)], "heavy"),
        Text(ACROSS - 2, mouth + 38, "the plug comes in here", look="quiet"),
    ]
    items.append(Group(tuple(arrow), title="the plug comes in here"))
    springs = [
        f"{kinds.spoken(c, roles.get(c)).removeprefix('contact ')} {span((s.near, s.far))}"
        for c, s in part.springs.items()
    ]
    lamp = "The lamp or the eye is at the bottom" if connector.light else ""
    inside = lamp or f"Measured from the tip end of a plug fully home, its springs touch: {listed(springs)}"
    return _picture(
        connector,
        items,
        "jack, cut open",
        f"Jack of {connector.name}, cut open, mouth below. {inside}.",
        name,
        mouth + 48,
        scale,
        f"Cut open. {lamp or 'Bars: where a maker may let each spring touch the plug'}.",
    )


def _labelled(name: str, roles: Mapping[str, str], bar: Line, start: tuple[float, float], y: float) -> Group:
    """A band's bar, its name and its word in the column at the right."""
    slot = Slot(COLUMN, y + 16, "start", WORD, WIDE - COLUMN - 4)
    said = Text(COLUMN, y + (0 if roles else 9), name, NUMERAL, "start", "bold")
    return contact(
        name, roles.get(name), slot, [], [bar, wire([start, (COLUMN - 8, y - 4)])], [said], bool(roles)
    )


def _spread(wished: list[float]) -> list[float]:
    """The heights nearest to those wished, in order, that keep the names apart."""
    ys: list[float] = []
    for y in wished:
        ys.append(max(y, ys[-1] + ROW, 24) if ys else max(y, 24))
    over = max(ys[-1] - (LEFT + TALL + 40), 0)
    for number in range(len(ys) - 1, -1, -1):  # from below, push up what is pushed too far down
        ys[number] = (
            min(ys[number], (LEFT + TALL + 40) if number == len(ys) - 1 else ys[number + 1] - ROW)
            if over
            else ys[number]
        )
    return ys


def _picture(
    connector: Connector,
    items: list[Item],
    what: str,
    desc: str,
    name: str | None,
    high: float,
    scale: float,
    said: str,
) -> Scene:
    mm = 10 if scale < 14 else 5
    bar = [
        polyline(
            [
                (MARGIN, high + 4),
                (MARGIN, high + 12),
                (MARGIN + mm * scale, high + 12),
                (MARGIN + mm * scale, high + 4),
            ]
        ),
        Text(MARGIN + mm * scale + 6, high + 14, f"{mm} mm", look="quiet"),
    ]
    foot = paragraph(said, look="quiet")
    title = f"{name}: {connector.name}: {what}" if name else f"{connector.name}: {what[0].upper()}{what[1:]}"
    return Scene(
        WIDE,
        round(high + 24 + foot.height + MARGIN),
        title,
        desc,
        (*items, *bar, Group(foot.items, 0, high + 22)),
    )
