"""A whole connection down the page: the device it comes from, the leads between, the device it goes into."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from generator.catalogue.records import Catalogue, Connector, Lead, Port
from generator.drawing import text
from generator.drawing.layout import ROOM, ROW, Block, in_words, listed, picture, small_print, stack
from generator.drawing.leads import draw_lead, top_ends
from generator.drawing.scene import BODY, MARGIN, WIDE, Group, Item, Path, Scene
from generator.drawing.strips import strip
from generator.engine.mate import mate

JOINT = 24  # height of the gap in which two halves meet
SPARE = "not part of this connection"
Through = Sequence[tuple[Lead, str, str]]


@dataclass(frozen=True)
class Side:
    """A half that is about to meet another: where its contacts stand, what they carry if known,
    which are brought out."""

    connector: Connector
    half: str
    pins: Mapping[str, float]
    marked: frozenset[str]


def chain(
    catalogue: Catalogue, from_port: Port, through: Through, into_port: Port, marks: Iterable[str] = ()
) -> Scene:
    """The picture of a connection. `through` holds (lead, end towards From, end towards Into), in order.

    `marks` brings out what decided the verdict: `from.CONTACT`, `into.CONTACT`, and for the leads, counted
    from 1, `1.END.CONTACT` for a contact or `1.JOIN` for a conductor.
    """
    marks = frozenset(marks)
    block, side = _device(catalogue, from_port, "From", _mine(marks, "from"))
    blocks, said, notes = [block], [], []
    for number, (lead, end_in, end_out) in enumerate(through, 1):
        mine = _mine(marks, str(number))
        spare = {end: SPARE for end in lead.ends if end not in (end_in, end_out)}
        drawn = draw_lead(catalogue, lead, *_arranged(catalogue, lead, end_in, end_out), mine, spare)
        entry, leaving = (
            Side(
                catalogue.connectors[lead.ends[end].connector],
                lead.ends[end].half,
                {
                    contact: x
                    for (owner, contact), x in {**drawn.tops, **drawn.bottoms}.items()
                    if owner == end
                },
                _mine(mine, end),
            )
            for end in (end_in, end_out)
        )
        joint, words = _joint(side, entry)
        blocks += [joint, drawn.block]
        said.append(f"{words}; {lead.name}")
        notes += [f"Lead {number}, {note}" if len(through) > 1 else note for note in drawn.notes]
        side = leaving
    block, last = _device(catalogue, into_port, "Into", _mine(marks, "into"))
    joint, words = _joint(side, last)
    blocks += [joint, block]
    leads = listed([lead.name for lead, _, _ in through], "then") or "no lead"
    return picture(
        f"{from_port.name} → {into_port.name}",
        f"Through {leads}",
        f"{'; '.join([*said, words])}.",
        [stack(blocks), *small_print(dict.fromkeys(notes))],
    )


def _mine(marks: frozenset[str], owner: str) -> frozenset[str]:
    return frozenset(mark.removeprefix(f"{owner}.") for mark in marks if mark.startswith(f"{owner}."))


def _arranged(
    catalogue: Catalogue, lead: Lead, end_in: str, end_out: str
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Ends above and below, the ones in use first."""
    above = next(
        (
            side
            for side in (
                top_ends(catalogue, lead),
                tuple(e for e in lead.ends if e not in top_ends(catalogue, lead)),
            )
            if end_in in side and end_out not in side
        ),
        (end_in,),
    )
    below = [end for end in lead.ends if end not in above]
    return tuple(sorted(above, key=lambda end: end != end_in)), tuple(
        sorted(below, key=lambda end: end != end_out)
    )


def _device(catalogue: Catalogue, port: Port, word: str, marked: frozenset[str]) -> tuple[Block, Side]:
    connector, roles = (
        catalogue.connectors[port.connector],
        in_words(catalogue.assignments[port.assignment].carries),
    )
    row = strip(
        connector,
        port.half,
        (f"{word}: {port.name}", f"{connector.name}, {port.half}"),
        roles,
        MARGIN,
        ROOM,
        word == "Into",
        marked,
        "device",
    )
    return Block(row.items, row.height), Side(connector, port.half, row.pins, marked)


def _joint(upper: Side, lower: Side) -> tuple[Block, str]:
    """Lines from contact to contact where two halves meet, dotted where it hangs on how the jack is made."""
    mating = mate((upper.connector, upper.half), (lower.connector, lower.half))
    if mating is None:
        words = f"{_called(upper)} does not go into {_called(lower)}"
        lines = text.wrap(words[0].upper() + words[1:], BODY, ROOM, "bold")
        tall = len(lines) * ROW + 10
        return Block(tuple(text.block(lines, WIDE / 2, 5, anchor="middle", weight="bold")), tall), words
    touches = sorted(
        {touch for state in mating.home for touch in state},
        key=lambda touch: (
            upper.connector.contacts.index(touch[0]),
            lower.connector.contacts.index(touch[1]),
        ),
    )
    items: list[Item] = []
    for one, two in touches:
        x1, x2 = upper.pins[one], lower.pins[two]
        steps = (("M", x1, 0), ("C", x1, JOINT * 0.6, x2, JOINT * 0.4, x2, JOINT))
        if one in upper.marked and two in lower.marked:
            items.append(Path(steps, "marked"))
        items.append(Path(steps, "mate" if all((one, two) in state for state in mating.home) else "dots"))
    said = listed([f"{one} to {two}" if one != two else one for one, two in touches])
    return Block(
        (Group(tuple(items), title=f"touching: {said}"),), JOINT
    ), f"{_called(upper)} meets {_called(lower)}: {said}"


def _called(side: Side) -> str:
    return f"{side.connector.name} {side.half}"
