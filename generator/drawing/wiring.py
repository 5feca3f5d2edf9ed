"""A lead's joins and parts sorted into nets, lanes and steps: what a drawing of it needs to
know before it has any size.

Lanes run from the end drawn at the top to the ends drawn at the bottom. A part in line with a
wire divides its lane into two nets; a part between two wires bridges lanes. Every part has a
step, its place on the way down.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from generator.catalogue.records import Connector, Lead, Part

Pin = tuple[str, str]  # end, contact


@dataclass
class Net:
    """Everything joined by wire. `label` is the join's name, None for inner nodes and single contacts."""

    nodes: frozenset[str]
    label: str | None
    screen: bool
    tops: list[Pin] = field(default_factory=list)
    bottoms: list[Pin] = field(default_factory=list)

    @property
    def hanging(self) -> bool:
        """A conductor joined at one end of the lead only, such as a screen left open."""
        return self.label is not None and len(self.tops) + len(self.bottoms) == 1 == len(self.nodes)


@dataclass
class Lane:
    """Nets in a row down the page; `cuts[i]` is the step between `nets[i]` and `nets[i + 1]`."""

    nets: list[Net]
    cuts: list[int] = field(default_factory=list)


@dataclass(frozen=True)
class Step:
    """A part at its place: in line (one lane), across (two lanes) or a transformer (two
    lanes for each winding)."""

    kind: str  # series | across | transformer
    parts: tuple[Part, ...]
    lanes: tuple[int, ...]
    level: int
    turned: bool = False  # in line, and its second terminal is at the top


@dataclass(frozen=True)
class Plan:
    nets: list[Net]
    lanes: list[Lane]
    steps: list[Step]


def plan(lead: Lead, connectors: Mapping[str, Connector], tops: tuple[str, ...]) -> Plan:
    """Sort a lead for drawing with the ends `tops` uppermost. `connectors` holds the connector
    of each end by end id."""
    nets = _nets(lead, connectors, tops)
    parts = [part for part in lead.network.parts if part.id in lead.parts and part.kind != "wire"]
    used = {node for part in parts for node in (part.a, part.b)}
    pairs = [(c.first, c.second) for c in lead.network.couplings]
    # a lattice has no order down the page: then every net has a lane of its own
    for in_line in (True, False):
        lanes, steps = _lanes(nets, parts, pairs, used, in_line)
        levels = _levels(lanes, steps)
        if levels is not None:
            break
    placed = []
    for number, step in enumerate(steps):
        placed.append(Step(step.kind, step.parts, step.lanes, levels[number], step.turned))
    for lane in lanes:
        lane.cuts = [levels[number] for number in lane.cuts]
    return Plan(nets, lanes, placed)


def _nets(lead: Lead, connectors: Mapping[str, Connector], tops: tuple[str, ...]) -> list[Net]:
    groups: list[tuple[set[str], str | None, bool]] = [
        (set(join.nodes), join.id, join.screen) for join in lead.joins
    ]
    groups += [
        ({part.a, part.b}, None, False)
        for part in lead.network.parts
        if part.kind == "wire" and part.id in lead.parts
    ]
    pins = [
        (end, contact)
        for end in sorted(lead.ends, key=lambda end: end not in tops)
        for contact in connectors[end].contacts
    ]
    groups += [({f"{end}.{contact}"}, None, False) for end, contact in pins]
    groups += [
        ({node}, None, False)
        for part in lead.network.parts
        if part.id in lead.parts
        for node in (part.a, part.b)
    ]
    merged: list[tuple[set[str], str | None, bool]] = []
    for nodes, label, screen in groups:
        for other in [other for other in merged if other[0] & nodes]:
            merged.remove(other)
            nodes, label, screen = nodes | other[0], other[1] or label, screen or other[2]
        merged.append((nodes, label, screen))
    nets = []
    for nodes, label, screen in merged:
        mine = [pin for pin in pins if ".".join(pin) in nodes]
        nets.append(
            Net(
                frozenset(nodes),
                label,
                screen,
                [p for p in mine if p[0] in tops],
                [p for p in mine if p[0] not in tops],
            )
        )
    return sorted(
        nets, key=lambda net: min([pins.index(pin) for pin in net.tops + net.bottoms], default=len(pins))
    )


def _lanes(
    nets: list[Net], parts: list[Part], pairs: list[tuple[str, str]], used: set[str], in_line: bool
) -> tuple[list[Lane], list[Step]]:
    home = {node: net for net in nets for node in net.nodes}
    lanes = [Lane([net]) for net in nets if net.tops and (net.bottoms or net.nodes & used or net.hanging)]
    lanes += [Lane([net]) for net in nets if not net.tops and net.hanging and not net.nodes & used]
    lane_of = {id(net): number for number, lane in enumerate(lanes) for net in lane.nets}
    todo, steps = list(parts), []
    named = {part.id: part for part in parts}

    def tail(net: Net) -> bool:
        return id(net) in lane_of and lanes[lane_of[id(net)]].nets[-1] is net and not net.bottoms

    def extend(above: Net, below: Net) -> None:
        number = lane_of[id(above)]
        lanes[number].nets.append(below)
        lanes[number].cuts.append(len(steps))
        lane_of[id(below)] = number

    def transformer() -> bool:
        for pair in pairs:
            for one, two in (pair, pair[::-1]):
                if not {one, two} <= {part.id for part in todo}:
                    continue
                first, second = named[one], named[two]
                above, below = [home[first.a], home[first.b]], [home[second.a], home[second.b]]
                distinct = len({id(net) for net in above + below}) == 4
                inner = [net for net in above if id(net) not in lane_of and not net.tops and not net.bottoms]
                free = not any(id(net) in lane_of or net.tops for net in below)
                if distinct and free and len(inner) < 2 and all(net in inner or tail(net) for net in above):
                    for net in inner:
                        begin(net)
                    where = tuple(lane_of[id(net)] for net in above) * 2
                    for up, down in zip(above, below):
                        extend(up, down)
                    steps.append(Step("transformer", (first, second), where, 0))
                    todo.remove(first)
                    todo.remove(second)
                    return True
        return False

    def series(to_bottom: bool) -> bool:
        for part in todo:
            for a, b in ((home[part.a], home[part.b]), (home[part.b], home[part.a])):
                if (
                    a is not b
                    and tail(a)
                    and id(b) not in lane_of
                    and not b.tops
                    and bool(b.bottoms) == to_bottom
                ):
                    if part.id in {name for pair in pairs for name in pair}:
                        continue
                    extend(a, b)
                    steps.append(Step("series", (part,), (lane_of[id(a)],), 0, turned=b is home[part.a]))
                    todo.remove(part)
                    return True
        return False

    def begin(net: Net) -> None:
        lane_of[id(net)] = len(lanes)
        lanes.append(Lane([net]))

    def fresh() -> bool:
        waiting = next((net for net in nets if id(net) not in lane_of and net.nodes & used), None)
        if waiting:
            begin(waiting)
        return waiting is not None

    while (in_line and (transformer() or series(True) or series(False))) or fresh():
        pass
    for one, two in pairs:
        if {one, two} <= {part.id for part in todo}:
            pair = (named[one], named[two])
            steps.append(
                Step(
                    "transformer",
                    pair,
                    tuple(lane_of[id(home[node])] for part in pair for node in (part.a, part.b)),
                    0,
                )
            )
            todo = [part for part in todo if part not in pair]
    for part in todo:
        steps.append(Step("across", (part,), (lane_of[id(home[part.a])], lane_of[id(home[part.b])]), 0))
    return lanes, steps


def _levels(lanes: list[Lane], steps: list[Step]) -> list[int] | None:
    """A level for every step so that each lane meets its nets in order; None if there is no such order."""
    before: dict[int, set[int]] = {number: set() for number in range(len(steps))}
    for lane in lanes:
        for earlier, later in zip(lane.cuts, lane.cuts[1:]):
            before[later].add(earlier)
    for number, step in enumerate(steps):
        if step.kind == "series" or any(number in lane.cuts for lane in lanes):
            continue
        nodes = [node for part in step.parts for node in (part.a, part.b)]
        for node, lane in zip(nodes, (lanes[n] for n in step.lanes)):
            at = next(i for i, net in enumerate(lane.nets) if node in net.nodes)
            before[number] |= set(lane.cuts[at - 1 : at]) if at else set()
            for cut in lane.cuts[at : at + 1]:
                before[cut].add(number)
    levels: dict[int, int] = {}
    level = 0
    while len(levels) < len(steps):
        ready = [n for n in before if n not in levels and all(earlier in levels for earlier in before[n])]
        if not ready:
            return None
        in_line = [n for n in ready if steps[n].kind == "series"]
        for number in in_line or ready[:1]:
            levels[number] = level
        level += 1
    return [levels[n] for n in range(len(steps))]
