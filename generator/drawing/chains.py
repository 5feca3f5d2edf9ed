"""A whole connection down the page: the device it comes from, the leads between, the device it goes into."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from generator.catalogue.records import Catalogue, Connector, Lead, Port
from generator.drawing.layout import ROOM, Block, Label, listed, named, paragraph, picture, stack
from generator.drawing.leads import draw_lead, top_ends
from generator.drawing.scene import BODY, MARGIN, WIDE, Group, Item, Path, Scene, Text
from generator.drawing.strips import strip
from generator.engine.mate import Touch, mate

JOINT = 26  # height of the gap in which two halves meet
Through = Sequence[tuple[Lead, str, str]]


def chain(catalogue: Catalogue, from_port: Port, through: Through, into_port: Port, marks: Iterable[str] = ()) -> Scene:
    """The picture of a connection. `through` holds (lead, end towards From, end towards Into), in order.

    `marks` brings out what decided the verdict: `from.CONTACT`, `into.CONTACT`, and for the leads, counted from 1,
    `1.END.CONTACT` for a contact or `1.JOIN` for a conductor.
    """
    marks = frozenset(marks)
    blocks: list[Block] = []
    roles_from, roles_into = (_roles(catalogue, port) for port in (from_port, into_port))
    block, pins = _device(catalogue, from_port, "From", roles_from, False, _mine(marks, "from"))
    blocks.append(block)
    last: tuple[Connector, str, Mapping[str, float], frozenset[str]] = (
        catalogue.connectors[from_port.connector], from_port.half, pins, _mine(marks, "from"))
    said = []
    for number, (lead, end_in, end_out) in enumerate(through, 1):
        mine = _mine(marks, str(number))
        above, below = _sides(catalogue, lead, end_in, end_out)
        drawn = draw_lead(catalogue, lead, above, below, mine)
        entry, leaving = lead.ends[end_in], lead.ends[end_out]
        joint, words = _joint(last, (catalogue.connectors[entry.connector], entry.half, _of(drawn.tops, end_in), _contacts(mine, end_in)))
        frame = stack([paragraph(f"{number}. {lead.name}" if len(through) > 1 else lead.name, weight="bold"), drawn.block,
                       *(paragraph(note, look="quiet") for note in drawn.notes)], gap=2)
        blocks += [joint, drawn.block]
        notes = stack([paragraph(note, look="quiet") for note in drawn.notes], gap=1)
        said.append(f"{words} through {lead.name}")
        last = (catalogue.connectors[leaving.connector], leaving.half, _of(drawn.bottoms, end_out), _contacts(mine, end_out))
    block, pins = _device(catalogue, into_port, "Into", roles_into, True, _mine(marks, "into"))
    joint, words = _joint(last, (catalogue.connectors[into_port.connector], into_port.half, pins, _mine(marks, "into")))
    blocks += [joint, block]
    leads = listed([lead.name for lead, _, _ in through]) or "no lead"
    return picture(f"{from_port.name} into {into_port.name}", f"Through {leads}", f"{'; '.join(said)}; {words}.", [stack(blocks)])
