"""A phone plug home in a jack, in true proportion, with every spring where it lands; and the parts
of plugs and jacks lying.

Everything lengthwise is millimetres from the tip end times one scale; the plug points left. Tip and handle
outlines are sketches, segment edges and spring positions are the catalogue's.
"""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise

from generator.catalogue.records import Connector, Half
from generator.drawing.layout import Block, Label, ladder, listed, picture, stack
from generator.drawing.scene import MARGIN, WIDE, Group, Item, Line, Path, Rect, Scene, Text, polyline
from generator.engine.mate import mate

HANDLE = 0.3  # length of handle or jack mouth that is shown, as a share of the barrel
LEFT = MARGIN + 9  # where the tip end is drawn: behind it stands the back wall of a jack
WALL, LIFT = 9, 30  # jack wall and height of the springs' chamber, in pixels


def mated(plug_connector: Connector, jack_connector: Connector) -> Scene:
    """A plug fully home in a jack, possibly of another family. Raises ValueError if it does not go in."""
    mating = (
        mate((jack_connector, "jack"), (plug_connector, "plug"))
        if plug_connector.shape == "concentric"
        else None
    )
    if mating is None:
        raise ValueError(f"a plug of '{plug_connector.id}' does not go into a jack of '{jack_connector.id}'")
    male, female = plug_connector.halves["plug"], jack_connector.halves["jack"]
    home = length(male)
    scale = _scale(male)
    high = male.sizes["diameter"] * scale
    lands = {spring: _landing(spring, mating.home) for spring in female.springs}
    touched = {segment for state in mating.home for _, segment in state}
    above = ladder(
        [Label(_anchor(female, s, scale), s, f"→ {lands[s]}") for s in female.springs], WALL + 5, upward=True
    )
    below = ladder(
        [
            Label(x0(scale, sum(male.segments[c]) / 2), c, None if c in touched else "touched by no spring")
            for c in plug_connector.contacts
        ],
        WALL + high * 0.3,
    )
    inside = Group(tuple(plug_parts(plug_connector, male, scale, 0)), 0, WALL + LIFT)
    titles = {spring: f"{spring} spring on {words}" for spring, words in lands.items()}
    leaves = touching(jack_connector, scale, titles, high)
    chamber = Block(
        (*housing(high, x0(scale, home), bush(female, home, scale)), inside, *leaves),
        WALL + LIFT + high + WALL,
    )
    desc = (
        "Plug fully home in the jack. "
        f"{listed([f'The {s} spring touches {words}' for s, words in lands.items()])}."
    )
    return picture(
        f"{plug_connector.name} plug, home in a {jack_connector.name} jack",
        "Above: the jack's springs and where they land. Below: the plug's contacts.",
        desc,
        [stack([above, chamber, below])],
    )


def length(part: Half) -> float:
    """Length in mm from the tip end to the shoulder: a plug's barrel, or the depth of a jack."""
    bands = max((end for _, end in part.segments.values()), default=part.sizes.get("depth"))
    return part.sizes.get("length", bands)


def x0(scale: float, mm: float) -> float:
    """Where a place along the barrel is drawn."""
    return LEFT + mm * scale


def _scale(part: Half) -> float:
    """Pixels to the millimetre, so that barrel and handle fill the width."""
    return (WIDE - MARGIN - LEFT) / (length(part) * (1 + HANDLE))


def span(low_high: tuple[float, float]) -> str:
    return f"{low_high[0]:g} to {low_high[1]:g} mm"


def _landing(spring: str, states) -> str:
    """In words, what a spring touches over all the ways the jack may be made."""
    ways = {frozenset(segment for own, segment in state if own == spring) for state in states}
    alone = sorted(contact for way in ways if len(way) == 1 for contact in way)
    both = [" and ".join(sorted(way)) + " at once" for way in ways if len(way) > 1]
    if len(alone) == 2 and len(both) == 1:
        both = ["both"]
    return listed([*alone, *sorted(both), *(["nothing"] if frozenset() in ways else [])], "or")


def _ruler(scale: float) -> Block:
    mm = 10 if scale < 9 else 5
    right = LEFT + mm * scale
    bar = polyline([(LEFT, 4), (LEFT, 12), (right, 12), (right, 4)])
    return Block((bar, Text(right + 6, 14, f"{mm} mm", look="quiet")), 18)


def plug_parts(
    connector: Connector, part: Half, scale: float, top: float, right: float = WIDE - MARGIN
) -> list[Item]:
    """A plug lying with its tip to the left, its handle up to `right`."""
    high = part.sizes["diameter"] * scale
    middle, r = top + high / 2, high / 2
    end = x0(scale, length(part))
    edges = [part.segments[contact] for contact in connector.contacts]
    if connector.light:
        return [*_point_of_light(edges[0], scale, middle, r, end), _handle(end, right, middle, r)]
    items: list[Item] = [
        Rect(x0(scale, behind), middle - r * 0.9, (ahead - behind) * scale, r * 1.8, "insulator")
        for (_, behind), (ahead, _) in pairwise(edges)
    ]
    for contact in connector.contacts:
        start, stop = (x0(scale, mm) for mm in part.segments[contact])
        if contact == connector.contacts[0]:
            shapes = [tip(start, stop, middle, r)]
        else:
            shapes = [
                Rect(start, middle - r, stop - start, high, "metal", 1.5),
                Rect(start, middle + r * 0.35, stop - start, r * 0.65, "shade"),
            ]
        items.append(Group(tuple(shapes), title=f"band {contact}"))
    return [*items, _handle(end, right, middle, r)]


def _handle(end: float, right: float, middle: float, r: float) -> Group:
    grip = right - end
    body = [
        Rect(end, middle - r * 1.3, wide, r * 2.6, look, 4)
        for wide, look in ((grip, "plate"), (grip * 0.18, "shade"))
    ]
    grooves = [
        Line(x, middle - r * 0.95, x, middle + r * 0.95, "hair")
        for x in (end + grip * share for share in (0.4, 0.52, 0.64, 0.76))
    ]
    return Group((*body, *grooves), title="handle")


def _point_of_light(
    edge: tuple[float, float], scale: float, middle: float, r: float, end: float
) -> list[Item]:
    """A barrel that touches nothing, with a fibre in its middle that ends at its very end."""
    start, stop = (x0(scale, mm) for mm in edge)
    barrel = Rect(start, middle - r, end - start, 2 * r, "plate", r * 0.3)
    fibre = Rect(start, middle - r * 0.22, end - start, r * 0.44, "hair")
    point = Rect(start, middle - r * 0.3, stop - start, r * 0.6, "insulator", 2)
    return [Group((barrel, fibre), title="barrel"), Group((point,), title="end of the fibre")]


def tip(start: float, stop: float, middle: float, r: float) -> Path:
    """A ball-nosed tip with the groove behind it that a jack's spring drops into."""

    def along(share: float) -> float:
        return start + (stop - start) * share

    steps: list[tuple] = [("M", start, middle)]
    for side in (-1, 1):  # the upper edge from the nose, then the lower one, also from the nose
        full, neck, foot = (middle + side * r * share for share in (1, 0.7, 0.9))
        steps += [("M", start, middle)] if side > 0 else []
        steps += [
            ("C", along(0.02), middle + side * r * 0.45, along(0.2), full, along(0.42), full),
            ("C", along(0.55), full, along(0.62), neck, along(0.74), neck),
            ("L", along(0.86), foot),
            ("L", stop, foot),
            ("L", stop, middle),
        ]
    return Path(tuple(steps), "metal")


def housing(high: float, mouth: float, bush: float) -> list[Item]:
    """The walls of a jack around a bore `high` pixels across, its mouth where the plug's shoulder
    stops, `bush` pixels long."""
    left = MARGIN
    top, bottom = 0.0, WALL + LIFT + high
    return [
        Rect(left, top, mouth - left, WALL, "metal", 2),
        Rect(left, bottom, mouth - left, WALL, "metal", 2),
        Rect(left, top + WALL, 5, bottom - top - WALL, "metal"),
        Rect(mouth - bush, top + WALL, bush, LIFT - 2, "metal"),
    ]


def bush(part: Half, home: float, scale: float) -> float:
    """The mouth's solid part: what the last spring leaves free."""
    return max((home - max(spring.far for spring in part.springs.values())) * scale - 4, 6)


def _anchor(part: Half, contact: str, scale: float) -> float:
    """Where a spring is held: a little nearer to the tip than it touches."""
    spring = part.springs[contact]
    return max(x0(scale, (spring.near + spring.far) / 2) - 14, MARGIN)


def touching(connector: Connector, scale: float, titles: Mapping[str, str], high: float) -> list[Item]:
    """The springs of a jack; in one for light the lamp or the eye at its bottom."""
    if connector.light:
        eye = Rect(MARGIN + 5, WALL + LIFT + high * 0.35, 6, high * 0.3, "insulator", 2)
        return [Group((eye,), title="lamp or eye")]
    return spring_parts(connector.halves["jack"], scale, titles)


def spring_parts(part: Half, scale: float, titles: Mapping[str, str]) -> list[Item]:
    bore = WALL + LIFT
    items: list[Item] = []
    for contact, spring in part.springs.items():
        touch, held = x0(scale, (spring.near + spring.far) / 2), _anchor(part, contact, scale)
        near, far = x0(scale, spring.near), x0(scale, spring.far)
        leaf = Path(
            (("M", held, WALL), ("L", held, WALL + 9), ("L", touch, bore - 1), ("L", touch + 8, bore - 10)),
            "heavy",
        )
        items.append(
            Group((Rect(near, bore - 2.5, max(far - near, 2), 5, "range"), leaf), title=titles[contact])
        )
    return items
