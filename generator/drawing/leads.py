"""A lead as its ends and the joins between them, one end (or two that are joined) above, the others below."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from generator.catalogue.records import Catalogue, End, Join, Lead, Part
from generator.drawing import symbols
from generator.drawing.layout import ROOM, Block, listed, picture, small_print
from generator.drawing.scene import MARGIN, Group, Item, Scene
from generator.drawing.strips import Strip, strip
from generator.drawing.wires import inside
from generator.drawing.wiring import Pin, Plan, plan

BETWEEN = 8
MOST = 12  # conductors that are drawn together


@dataclass(frozen=True)
class Drawn:
    """A lead ready to be placed: where its contacts stand above and below, and what to say under it."""

    block: Block
    tops: Mapping[Pin, float]
    bottoms: Mapping[Pin, float]
    notes: list[str]


def lead(catalogue: Catalogue, which: Lead) -> Scene:
    """The picture of a lead; of one with many channels only the first, for twenty-five wires nobody follows,
    and of a large connector only the contacts in use."""
    above = top_ends(catalogue, which)
    found = channels(which)
    joins = found.get("1", which.joins)
    large = [end for end in which.ends.values() if len(catalogue.connectors[end.connector].contacts) > MOST]
    shown = _with(catalogue, which, joins, which.ends.values() if "1" in found else large)
    drawn = draw_lead(*shown, above, tuple(end for end in which.ends if end not in above))
    if "1" in found:
        drawn.notes.append(f"Channel 1 of {len(found)} is drawn. The table of contacts has them all.")
    elif large:
        drawn.notes.append(
            f"Of the {listed([end.label for end in large])} only contacts in use are drawn; the others are "
            "not connected."
        )
    length = f", {which.length:g} m" if which.length is not None else ""
    return picture(
        which.name,
        f"{which.form.capitalize()}{length}",
        describe(catalogue, which),
        [drawn.block, *small_print(drawn.notes)],
    )


def channels(which: Lead) -> dict[str, list[Join]]:
    """The joins of each channel by its number, for a lead of so many that they cannot be drawn
    together; else empty."""
    if len(which.joins) <= MOST:
        return {}
    found: dict[str, list[Join]] = {}
    for join in which.joins:
        if number := re.search(r"-(\d+)$", join.id):
            found.setdefault(number[1], []).append(join)
    return found if len(found) > 3 else {}


def _with(
    catalogue: Catalogue, which: Lead, joins: Sequence[Join], lean: Iterable[End]
) -> tuple[Catalogue, Lead]:
    """The lead with these joins alone, and for each of the ends `lean` a connector with the contacts
    that are in use there."""
    used = {node for join in joins for node in join.nodes} | {
        node for part in which.network.parts if part.id in which.parts for node in (part.a, part.b)
    }
    fewer, ends = {}, dict(which.ends)
    for end in lean:
        whole, name = catalogue.connectors[end.connector], f"{end.connector} at {end.id}"
        fewer[name] = replace(
            whole, contacts=tuple(contact for contact in whole.contacts if f"{end.id}.{contact}" in used)
        )
        ends[end.id] = replace(end, connector=name)
    return replace(catalogue, connectors={**catalogue.connectors, **fewer}), replace(
        which, ends=ends, joins=tuple(joins)
    )


def top_ends(catalogue: Catalogue, which: Lead) -> tuple[str, ...]:
    """The ends that belong above: the first, or for a lead of two into one the two that are alike."""
    ends = list(which.ends.values())
    if len(ends) > 2:
        last = ends[-1]
        alike = {(end.connector, end.half) for end in ends[:-1]}
        if len(alike) == 1 and (last.connector, last.half) not in alike:
            return tuple(end.id for end in ends[:-1])
    return (ends[0].id,)


def draw_lead(
    catalogue: Catalogue,
    which: Lead,
    above: tuple[str, ...],
    below: tuple[str, ...],
    marked: frozenset[str] = frozenset(),
    remarks: Mapping[str, str] | None = None,
) -> Drawn:
    """Draw with the given ends above and below. `marked` names joins, or nodes (`end.contact`), to bring out;
    `remarks` takes the place of the connector's name under an end's label."""
    connectors = {end.id: catalogue.connectors[end.connector] for end in which.ends.values()}
    top, tops, high = _row(catalogue, which, above, False, marked, remarks or {})
    bottom, bottoms, low = _row(catalogue, which, below, True, marked, remarks or {})
    layout = plan(which, connectors, above)
    middle = inside(layout, tops, bottoms, which.cable is not None, marked)
    items = (Group(middle.items, 0, high), Group(top), Group(bottom, 0, high + middle.height))
    return Drawn(
        Block(items, high + middle.height + low), tops, bottoms, _notes(which, layout, middle.letters)
    )


def describe(catalogue: Catalogue, which: Lead) -> str:
    """The lead in words: its joins, its parts, and the contacts left open."""
    said = [f"{join.id}: {listed([_node(which, node) for node in join.nodes])}" for join in which.joins]
    parts = [
        (
            f"{symbols.NOUN.get(p.kind, p.kind)}{' ' + value(p) if p.value else ''} between "
            f"{_node(which, p.a)} and {_node(which, p.b)}"
        )
        for p in which.network.parts
        if p.id in which.parts
    ]
    known = {node for join in which.joins for node in join.nodes} | {
        n for p in which.network.parts if p.id in which.parts for n in (p.a, p.b)
    }
    opened = [
        f"{end.label} {contact}"
        for end in which.ends.values()
        for contact in catalogue.connectors[end.connector].contacts
        if f"{end.id}.{contact}" not in known
    ]
    return (
        " ".join(
            filter(
                None,
                [
                    f"Joins {'; '.join(said)}." if said else "",
                    f"Parts: {'; '.join(parts)}." if parts else "",
                    f"Not connected: {listed(opened)}." if opened else "",
                ],
            )
        )
        or "Nothing is joined."
    )


def value(part: Part) -> str:
    """A part's value as it is printed on parts: `6.81 kΩ`, `10 µF`."""
    words = re.sub(r"\b([mkM]?)ohm\b", r"\1Ω", part.value.text)
    return re.sub(r"\bu(?=[FHVA])", "µ", words).replace("+-", "±")


def _row(
    catalogue: Catalogue,
    which: Lead,
    ends: tuple[str, ...],
    upward: bool,
    marked: frozenset[str],
    remarks: Mapping[str, str],
) -> tuple[tuple[Item, ...], dict[Pin, float], float]:
    """Strips side by side, their wire edges in line; the pins' x; the row's height."""
    room = ROOM - BETWEEN * (len(ends) - 1)
    counts = [len(catalogue.connectors[which.ends[end].connector].contacts) + 1 for end in ends]

    def strips(least: float) -> dict[str, Strip]:
        made, left = {}, float(MARGIN)
        for end, count in zip(ends, counts):
            wide, connector, half = (
                room * count / sum(counts),
                catalogue.connectors[which.ends[end].connector],
                which.ends[end].half,
            )
            mine = frozenset(contact for contact in connector.contacts if f"{end}.{contact}" in marked)
            heading = (which.ends[end].label, remarks.get(end, f"{connector.name}, {half}"))
            made[end] = strip(connector, half, heading, {}, left, wide, upward, mine, least=least, seen=True)
            left += wide + BETWEEN
        return made

    high = max(made.height for made in strips(0).values())
    row = strips(high)
    pins = {(end, contact): x for end, made in row.items() for contact, x in made.pins.items()}
    return tuple(Group(made.items) for made in row.values()), pins, high


def _notes(which: Lead, layout: Plan, letters: Mapping[str, str]) -> list[str]:
    notes, seen = [], set()
    by_id = {part.id: part for part in which.network.parts}
    for part_id, letter in sorted(letters.items(), key=lambda item: item[1]):
        if letter in seen:
            continue
        seen.add(letter)
        mine = [by_id[p] for p, other in letters.items() if other == letter]
        kind = "transformer" if len(mine) > 1 else mine[0].kind
        amount = (
            f" {_ratio(mine)}" if kind == "transformer" else f" {value(mine[0])}" if mine[0].value else ""
        )
        notes.append(
            f"{letter}: {symbols.NOUN[kind]}{amount} "
            f"({' and '.join(part.id.replace('-', ' ') for part in mine)})"
        )
    laid = [net for lane in layout.lanes for net in lane.nets]
    if any(net.hanging or net not in laid and len(net.tops) + len(net.bottoms) == 1 for net in layout.nets):
        notes.append("×: not connected.")
    return notes


def _ratio(windings: list[Part]) -> str:
    """Turns of the first winding to those of the second: the root of their inductances."""
    turns = (windings[0].value.nominal / windings[1].value.nominal) ** 0.5
    return f"{turns:.3g} to 1" if turns >= 1 else f"1 to {1 / turns:.3g}"


def _node(which: Lead, node: str) -> str:
    end, _, contact = node.partition(".")
    return f"{which.ends[end].label} {contact}" if end in which.ends and contact else node
