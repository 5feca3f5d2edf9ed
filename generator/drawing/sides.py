"""Which side of which half one looks at, and what a contact looks like from there.

The catalogue gives the male mating face. Turning to the back or to the other half mirrors left and right,
doing both mirrors twice: the male face and the female solder side are the same picture.
"""

from __future__ import annotations

from math import cos, radians, sin

from generator.catalogue.records import Connector
from generator.drawing.scene import Circle, Item, Path

Place = tuple[float, float]


def places(connector: Connector, half: str, view: str) -> dict[str, Place]:
    """Where each contact of a connector with a face is seen, in mm right of and below the centre."""
    ways = {contact: facing(spot.angle, half, view) for contact, spot in connector.face.items()}
    return {
        contact: (x * connector.face[contact].radius, y * connector.face[contact].radius)
        for contact, (x, y) in ways.items()
    }


def facing(angle: float, half: str, view: str) -> Place:
    """The direction of clock degrees on the male mating face, as seen on this half from this side."""
    mirror = -1 if (half == "female") != (view == "solder") else 1
    return mirror * sin(radians(angle)), -cos(radians(angle))


def painted(half: str, view: str, x: float, y: float, pin: float) -> list[Item]:
    """A pin, a socket or, from behind, a solder cup."""
    if view == "solder":
        cup = Path((("M", x - pin, y), ("A", pin, pin, 0, 0, 0, x + pin, y), ("Z",)), "cup")
        return [cup, Circle(x, y, pin, "line")]
    if half in ("male", "plug"):
        return [Circle(x, y, pin, "pin")]
    return [Circle(x, y, pin, "socket")]
