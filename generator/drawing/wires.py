"""The inside of a lead between its ends: bridges, lanes, screen, parts. Measured from a plan, then placed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from generator.catalogue.records import Part
from generator.drawing import symbols, text
from generator.drawing.looks import CORES
from generator.drawing.scene import BODY, MARGIN, SMALLEST, WIDE, Circle, Group, Item, Line, Path, Rect, Text
from generator.drawing.places import (
    BRIDGE,
    STUB,
    bridge_depth,
    bridge_levels,
    label_rows,
    lane_places,
    letters,
)
from generator.drawing.wiring import Net, Pin, Plan, Step

TURN = 46  # height of a crossing, before what the longest shift adds
ROW = 18
WINDING = 16  # from the middle of a transformer to its windings
SIDE, NAMED = 20, 7  # from a core, and from its name, to the screen around it
TALL = {"series": 2 * symbols.HALF + 6, "across": 46, "transformer": 84}
Steps = tuple[tuple, ...]


@dataclass(frozen=True)
class Inside:
    """The drawn inside, `height` tall, with the letter given to each part in `letters`."""

    items: tuple[Item, ...]
    height: float
    letters: Mapping[str, str]


def inside(
    plan: Plan, tops: Mapping[Pin, float], bottoms: Mapping[Pin, float], cable: bool, marked: frozenset[str]
) -> Inside:
    """Wires from the pins above (x by pin, at y = 0) to those below (at y = the height returned)."""
    return _Drawer(plan, tops, bottoms, cable, marked).draw()


class _Drawer:
    def __init__(
        self,
        plan: Plan,
        tops: Mapping[Pin, float],
        bottoms: Mapping[Pin, float],
        cable: bool,
        marked: frozenset[str],
    ):
        self.plan, self.pins, self.marked = plan, {**tops, **bottoms}, marked
        self.tops, self.bottoms = tops, bottoms
        self.x = lane_places(plan, self.pins)
        screens = [n for n, lane in enumerate(plan.lanes) if lane.nets[0].screen]
        cores = [n for n in range(len(plan.lanes)) if n not in screens]
        self.envelope = screens[0] if cable and len(screens) == 1 and cores and not plan.steps else None
        self.looks = {
            n: "screen" if n in screens else CORES[cores.index(n) % len(CORES)]
            for n in range(len(plan.lanes))
        }
        self.cores = cores
        self.letters = letters(plan.steps)
        self.wires: list[Item] = []
        self.over: list[Item] = []

    def draw(self) -> Inside:
        y = self._bridges(self.tops, 0, 1)
        y = self._turns(self.tops, y, 1)
        y = self._middle(y)
        y = self._parts(y)
        depth = bridge_depth(self.plan.nets, self.bottoms)
        turn = self._turn_height(self.bottoms)
        height = y + turn + depth
        self._turns(self.bottoms, height - depth, -1)
        self._bridges(self.bottoms, height, -1)
        return Inside((*self.wires, *self.over), height, self.letters)

    # wires -----------------------------------------------------------------

    def _wire(self, steps: Steps, net: Net, look: str) -> None:
        if net.label in self.marked or len(net.nodes & self.marked) > 1:
            self.wires.append(Path(steps, "marked"))
        else:
            self.wires.append(Path(steps, "gap"))
        if look == "screen":
            self.wires.append(Path(steps, "braid"))
        self.wires.append(Path(steps, look))

    def _look(self, net: Net) -> str:
        for number, lane in enumerate(self.plan.lanes):
            if net in lane.nets:
                return self.looks[number]
        return "screen" if net.screen else "core-1"

    def _attached(self, net: Net, side: Mapping[Pin, float]) -> list[Pin]:
        """The one pin at each end from which this net's wire goes on."""
        mine = [pin for pin in (*net.tops, *net.bottoms) if pin in side]
        target = next((self.x[n] for n, lane in enumerate(self.plan.lanes) if net in lane.nets), None)
        return [
            min(
                (p for p in mine if p[0] == end),
                key=lambda p: abs(side[p] - target) if target is not None else 0,
            )
            for end in dict.fromkeys(pin[0] for pin in mine)
        ]

    # bridges inside one plug -----------------------------------------------

    def _bridges(self, side: Mapping[Pin, float], edge: float, way: int) -> float:
        """Stubs, links between contacts of one end, and crosses at contacts left open. Returns
        where the wires go on."""
        depth = bridge_depth(self.plan.nets, side)
        levels = bridge_levels(self.plan.nets, side)
        for net in self.plan.nets:
            mine = [pin for pin in (*net.tops, *net.bottoms) if pin in side]
            going = self._attached(net, side) if any(net in lane.nets for lane in self.plan.lanes) else []
            look = self._look(net)
            for pin in mine:
                x, level = side[pin], levels.get((id(net), pin[0]))
                reach = depth if pin in going else STUB + BRIDGE * level if level is not None else STUB
                self._wire((("M", x, edge), ("L", x, edge + way * reach)), net, look)
                if pin not in going and level is None:
                    self.over += _cross(x, edge + way * (STUB + 1))
            for end in dict.fromkeys(pin[0] for pin in mine):
                xs = [side[pin] for pin in mine if pin[0] == end]
                if len(xs) > 1:
                    y = edge + way * (STUB + BRIDGE * levels[id(net), end])
                    self._wire((("M", min(xs), y), ("L", max(xs), y)), net, look)
                    self.over += [Circle(x, y, 3, "solid") for x in xs]
        return edge + way * depth

    # crossings ---------------------------------------------------------------

    def _turn_height(self, side: Mapping[Pin, float]) -> float:
        shift = max(
            (
                abs(self.x[n] - side[pin])
                for n, lane in enumerate(self.plan.lanes)
                for pin in self._attached(lane.nets[0 if side is self.tops else -1], side)
            ),
            default=0,
        )
        return TURN + shift * 0.15 if shift > 0.5 else 6

    def _turns(self, side: Mapping[Pin, float], pins_y: float, way: int) -> float:
        """Curves between the pins' row and the lanes; returns the lanes' y."""
        lanes_y = pins_y + way * self._turn_height(side)
        half = (pins_y + lanes_y) / 2
        for number, lane in enumerate(self.plan.lanes):
            net = lane.nets[0 if side is self.tops else -1]
            attached = self._attached(net, side)
            for pin in attached:
                x = side[pin]
                self._wire(
                    (("M", x, pins_y), ("C", x, half, self.x[number], half, self.x[number], lanes_y)),
                    net,
                    self.looks[number],
                )
            if len(attached) > 1:
                self.over.append(Circle(self.x[number], lanes_y, 3.5, "solid"))
        return lanes_y

    # names and screen ---------------------------------------------------------

    def _middle(self, top: float) -> float:
        """The stretch where each conductor bears its name and the screen is drawn around the cores."""
        names = {
            n: lane.nets[0].label.replace("-", " ")
            for n, lane in enumerate(self.plan.lanes)
            if lane.nets[0].label
        }
        rows = label_rows(sorted((_on_page(self.x[n], words), words, n) for n, words in names.items()))
        pad = 22 if self.envelope is not None else 6
        bottom = top + 2 * pad + ROW * max(len(rows), 1)
        at = {
            n: (x, top + pad + ROW * (row + 0.5), words)
            for row, line in enumerate(rows)
            for x, words, n in line
        }
        left, right = self._around(at)
        if self.envelope in at:
            x, y, words = at[self.envelope]
            half = text.width(words, SMALLEST) / 2
            at[self.envelope] = (
                min(x, left - half - 4)
                if self.x[self.envelope] <= left
                else max(x, right + half + 4)
                if self.x[self.envelope] >= right
                else x,
                y,
                words,
            )
        for number, lane in enumerate(self.plan.lanes):
            net, x = lane.nets[0], self.x[number]
            if number == self.envelope:
                continue
            first = (
                top
                if net.tops
                else (bottom - pad if net.bottoms and len(lane.nets) == 1 and net.hanging else None)
            )
            last = bottom if not net.hanging or net.bottoms else top + pad
            if first is None:
                continue
            covered = sorted(
                y for middle, y, words in at.values() if abs(x - middle) < text.width(words, SMALLEST) / 2 + 2
            )
            for a, b in zip([first, *(y + 10 for y in covered)], [*(y - 10 for y in covered), last]):
                if b > a:  # a wire stops short of every name it would run through
                    self._wire((("M", x, a), ("L", x, b)), net, self.looks[number])
            if net.hanging:
                self.over += _cross(x, top + pad if net.tops else bottom - pad)
        for number, (x, y, words) in at.items():
            if self.plan.lanes[number].nets[0].tops or self.plan.lanes[number].nets[0].hanging:
                self.over.append(Text(x, y + SMALLEST * 0.36, words, SMALLEST, "middle"))
        if self.envelope is not None:
            self._screen(top, bottom, left, right)
        return bottom

    def _around(self, names: Mapping[int, tuple[float, float, str]]) -> tuple[float, float]:
        """How far the screen reaches to both sides: around the cores and their names."""
        reach = {
            n: max(SIDE, text.width(names[n][2], SMALLEST) / 2 + NAMED) if n in names else SIDE
            for n in self.cores
        }
        middle = {n: names[n][0] if n in names else self.x[n] for n in self.cores}
        return (
            max(min((min(self.x[n] - SIDE, middle[n] - reach[n]) for n in self.cores), default=0), 2),
            min(
                max((max(self.x[n] + SIDE, middle[n] + reach[n]) for n in self.cores), default=WIDE), WIDE - 2
            ),
        )

    def _screen(self, top: float, bottom: float, left: float, right: float) -> None:
        net, x = self.plan.lanes[self.envelope].nets[0], self.x[self.envelope]
        high, low = top + 8, bottom - 8
        shape = Rect(left, high, right - left, low - high, "envelope", 14)
        halo = net.label in self.marked or len(net.nodes & self.marked) > 1
        self.wires = [
            *([Rect(left, high, right - left, low - high, "marked", 14)] if halo else []),
            shape,
            *self.wires,
        ]
        edge = min(max(x, left), right)
        for joined, y0, y1, turn in ((net.tops, top, high, 1), (net.bottoms, bottom, low, -1)):
            if not joined:
                continue
            side = y1 if left < x < right else y1 + turn * 16
            self._wire(
                (("M", x, y0), ("L", x, y1) if left < x < right else ("Q", x, side, edge, side)),
                net,
                "screen",
            )
            self.over.append(Circle(edge, side, 4, "solid"))  # joined to it, not passing through

    # parts -------------------------------------------------------------------

    def _parts(self, top: float) -> float:
        levels = sorted({step.level for step in self.plan.steps})
        at: dict[int, float] = {}
        y = top
        for level in levels:
            tall = max(TALL[step.kind] for step in self.plan.steps if step.level == level)
            at[level], y = y + tall / 2, y + tall
        for number in range(len(self.plan.lanes)):
            self._lane(number, top, y, at)
        drawers = {"series": self._series, "across": self._across, "transformer": self._transformer}
        for step in self.plan.steps:
            drawers[step.kind](step, at[step.level])
        return y

    def _lane(self, number: int, top: float, bottom: float, at: Mapping[int, float]) -> None:
        lane, mine = self.plan.lanes[number], [step for step in self.plan.steps if number in step.lanes]
        if not mine and (lane.nets[0].hanging or bottom == top):
            return
        touched = [at[step.level] + _winding(step, number) for step in mine]
        start = top if lane.nets[0].tops else min(touched)
        end = bottom if lane.nets[-1].bottoms else max([*touched, start])
        pieces, y = [], start
        for cut, net in zip([*lane.cuts, None], lane.nets):
            step = next((s for s in mine if s.level == cut and s.kind != "across"), None)
            reach = {"series": symbols.HALF, "transformer": WINDING}.get(step.kind, 0) if step else 0
            stop = at[cut] - reach if cut is not None else end
            pieces.append((y, stop, net))
            y = stop + 2 * reach
        for a, b, net in pieces:
            if b > a:
                self._wire((("M", self.x[number], a), ("L", self.x[number], b)), net, self.looks[number])

    def _symbol(self, part: Part, x: float, y: float, turn: float) -> None:
        self.over.append(
            Group(
                tuple(symbols.symbol(part.kind)),
                x,
                y,
                title=f"{symbols.NOUN[part.kind]} {part.id}",
                turn=turn,
            )
        )

    def _series(self, step: Step, y: float) -> None:
        part, x = step.parts[0], self.x[step.lanes[0]]
        self._symbol(part, x, y, 180 if step.turned else 0)
        self.over.append(
            Text(
                x + (10 if part.kind == "resistor" else 15),
                y + BODY * 0.36,
                self.letters[part.id],
                BODY,
                weight="bold",
            )
        )

    def _across(self, step: Step, y: float) -> None:
        part, (one, two) = step.parts[0], (self.x[n] for n in step.lanes)
        left, right = min(one, two), max(one, two)
        x = sum(self._widest(left, right)) / 2
        for start, end in ((left, x - symbols.HALF), (x + symbols.HALF, right)):
            self.over += _over_wires(start, end, y)
        self._symbol(part, x, y, -90 if one < two else 90)
        self.over += [Circle(end, y, 3.5, "solid") for end in (left, right)]
        self.over.append(Text(x, y - 14, self.letters[part.id], BODY, "middle", "bold"))

    def _widest(self, left: float, right: float) -> tuple[float, float]:
        """The widest room between two wires from left to right: a wire through a symbol would
        read as a part of it."""
        stops = sorted({left, right, *(x for x in self.x.values() if left < x < right)})
        return max(zip(stops, stops[1:]), key=lambda gap: gap[1] - gap[0])

    def _transformer(self, step: Step, y: float) -> None:
        windings = [tuple(self.x[n] for n in step.lanes[:2]), tuple(self.x[n] for n in step.lanes[2:])]
        # where both windings can stand face to face
        left, right = max(map(min, windings)), min(map(max, windings))
        if right - left < 30:
            left, right = min(map(min, windings)), max(map(max, windings))
        left, right = self._widest(left, right)
        bumps = min(max(int((right - left - 8) // (2 * symbols.BUMP)), 2), 8)
        long = bumps * 2 * symbols.BUMP
        start = (left + right - long) / 2
        items: list[Item] = [Line(start, y - 3, start + long, y - 3), Line(start, y + 3, start + long, y + 3)]
        for (one, two), side in zip(windings, (-1, 1)):
            level = y + side * WINDING
            items.append(symbols.coil(start, level, bumps, side=side))
            for lane_x, end in ((min(one, two), start), (max(one, two), start + long)):
                items += _over_wires(min(lane_x, end), max(lane_x, end), level)
                if not any(step.level == cut for lane in self.plan.lanes for cut in lane.cuts):
                    self.over.append(Circle(lane_x, level, 3.5, "solid"))
            # on no wire, where it would be a joint
            items.append(Circle(start + 5 if one < two else start + long - 5, level + side * 6, 2.2, "solid"))
        self.over.append(Group(tuple(items), title="transformer"))
        self.over.append(
            Text(start + long / 2, y - 30, self.letters[step.parts[0].id], BODY, "middle", "bold")
        )


def _winding(step: Step, lane: int) -> float:
    """How far from a part's middle its wire on a lane ends, of a transformer whose windings
    stand above and below it."""
    return 0 if step.kind != "transformer" else -WINDING if lane in step.lanes[:2] else WINDING


def _over_wires(start: float, end: float, y: float) -> list[Item]:
    """A level wire from start to end that breaks those it crosses without a joint."""
    return [Line(start + 5, y, end - 5, y, "gap"), Line(start, y, end, y)] if end > start else []


def _on_page(x: float, words: str) -> float:
    """The middle of a conductor's name: over its wire, or as near as the edges of the page let it be."""
    half = text.width(words, SMALLEST) / 2
    return min(max(x, MARGIN + half), WIDE - MARGIN - half)


def _cross(x: float, y: float) -> list[Item]:
    return [
        Group(
            (Line(x - 4, y - 4, x + 4, y + 4, "heavy"), Line(x - 4, y + 4, x + 4, y - 4, "heavy")),
            title="open",
        )
    ]
