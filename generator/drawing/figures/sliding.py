"""A phone plug on its way into a jack, step by step: the same segments, springs and outlines as the plug
that is home (plugs.py).

Each spring is drawn, and taken, in the middle of where makers put it. Another maker's jack may touch earlier
or later, by what the grey bars show; what the engine judges holds all of them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise

from generator.catalogue.records import Connector, Half
from generator.drawing.layout import ROOM, Block, listed, stack
from generator.drawing.plugs import LEFT, LIFT, WALL, bush, housing, length, plug_parts, spring_parts, x0
from generator.drawing.scene import BODY, MARGIN, WIDE, Group, Item, Rect, Scene, Text
from generator.drawing.text import LEADING, block, wrap

LINES = 6  # room below a frame, so that all of them are equally high
SHOWN = 0.15  # how much of the handle is shown with the plug home, as a share of the barrel


@dataclass(frozen=True)
class Step:
    """A stretch of the way in over which nothing changes: from `far` to `near` mm short of home, and what
    each spring touches.
    """

    far: float
    near: float
    touches: Mapping[str, tuple[str, ...]]

    @property
    def out(self) -> float:
        """How far out the plug is drawn, in mm: in the middle of the stretch, and home in the last."""
        return (self.far + self.near) / 2 if self.near else 0.0

    @property
    def state(self) -> frozenset[tuple[str, str]]:
        """The pairs that touch, as the engine names them: (spring, segment)."""
        return frozenset((spring, segment) for spring, on in self.touches.items() for segment in on)


def steps(plug: Half, jack: Half) -> list[Step]:
    """From the first touch to home, every change a step. The last ends at 0 mm: home."""
    edges = {
        place(spring) + side * spring.width / 2 - end
        for spring in jack.springs.values()
        for side in (-1, 1)
        for low_high in plug.segments.values()
        for end in low_high
    }
    bounds = sorted({0.0, *(edge for edge in edges if edge > 0)}, reverse=True)
    found: list[Step] = []
    for far, near in [*pairwise(bounds), (0.0, 0.0)]:
        now = {
            name: _under(place(spring), spring.width, plug, (far + near) / 2)
            for name, spring in jack.springs.items()
        }
        if found and found[-1].touches == now:
            found[-1] = Step(found[-1].far, near, now)
        elif found or any(now.values()):
            found.append(Step(far, near, now))
    return found


def place(spring) -> float:
    """Where a spring is taken to be, in mm from the tip end of a plug that is home."""
    return (spring.near + spring.far) / 2


def _under(at: float, width: float, plug: Half, out: float) -> tuple[str, ...]:
    return tuple(
        name
        for name, (start, end) in plug.segments.items()
        if start < at - out + width / 2 and at - out - width / 2 < end
    )


def sliding(plug: Connector, jack: Connector, legs: tuple[str, str], ground: str) -> list[Scene]:
    """A frame for each step. `legs` are the two contacts that carry phantom, `ground` the one it comes back
    by, in the plug as in the jack. Raises ValueError if the plug does not go in."""
    if plug.shape != "concentric" or not (plug.bore == jack.bore or plug.id in jack.takes):
        raise ValueError(f"a plug of '{plug.id}' does not go into a jack of '{jack.id}'")
    male, female = plug.halves["plug"], jack.halves["jack"]
    way = steps(male, female)
    scale = (WIDE - MARGIN - LEFT) / (length(male) * (1 + SHOWN) + way[0].far)
    return [
        _frame(plug, jack, step, number, len(way), scale, uneven(step, legs, ground))
        for number, step in enumerate(way, 1)
    ]


def uneven(step: Step, legs: tuple[str, str], ground: str) -> str:
    """What phantom does in this step to what lies between the two legs; empty where it does nothing."""
    pushed = {on for leg in legs for on in step.touches.get(leg, ())}
    drained = set(step.touches.get(ground, ()))
    for one, other in (legs, legs[::-1]):
        if one in pushed - drained and other in drained - pushed:
            return (
                f"With phantom on, it is on the {one} alone: it flows to the {other}, through the microphone."
            )
    return ""


def _frame(
    plug: Connector, jack: Connector, step: Step, number: int, of: int, scale: float, warning: str
) -> Scene:
    male, female = plug.halves["plug"], jack.halves["jack"]
    out, high = step.out, male.sizes["diameter"] * scale
    words = {spring: f"{spring} spring: {_landing(on)}" for spring, on in step.touches.items()}
    left = WIDE - MARGIN - out * scale
    moved = Group(tuple(plug_parts(plug, male, scale, 0, left)), out * scale, WALL + LIFT)
    chamber: list[Item] = [
        *housing(high, x0(scale, length(male)), bush(female, length(male), scale)),
        moved,
        *spring_parts(female, scale, words),
        *_bridges(step, female, scale),
    ]
    names = Block(
        tuple(
            Text(x0(scale, place(spring)) - 4, BODY, name, BODY, "middle", "bold")
            for name, spring in female.springs.items()
        ),
        BODY * LEADING,
    )
    home = "home" if not out else f"{_mm(out)} short of home"
    body = stack(
        [
            Block((Text(MARGIN, BODY, f"of {of}: {home}", strong=str(number)),), BODY * LEADING),
            names,
            Block(tuple(chamber), WALL + LIFT + high + WALL),
            _told(words.values(), warning),
        ],
        gap=4,
    )
    return Scene(
        WIDE,
        round(body.height + 2 * MARGIN),
        f"Step {number} of {of}: {plug.name} plug, {home}, in a {jack.name} jack",
        f"{'; '.join(words.values())}. {warning}".strip(),
        (Group(body.items, 0, MARGIN),),
    )


def _landing(on: tuple[str, ...]) -> str:
    return listed(on) + (", and joins them" if len(on) > 1 else "") if on else "touches nothing"


def _mm(value: float) -> str:
    return f"{value:.1f} mm".replace(".0 mm", " mm")


def _bridges(step: Step, jack: Half, scale: float) -> Iterator[Item]:
    """A mark where one spring lies on two segments."""
    for name, on in step.touches.items():
        if len(on) > 1:
            yield Rect(x0(scale, place(jack.springs[name])) - 9, WALL + LIFT - 6, 18, 14, "marked", 3)


def _told(words: Iterable[str], warning: str) -> Block:
    lines = [line for one in words for line in wrap(one, BODY, ROOM)]
    items: list[Item] = block(lines, MARGIN, 0, size=BODY)
    top = len(lines) * BODY * LEADING + 3
    items += block(
        wrap(warning, BODY, ROOM, "bold") if warning else [], MARGIN, top, size=BODY, weight="bold"
    )
    return Block(tuple(items), LINES * BODY * LEADING)
