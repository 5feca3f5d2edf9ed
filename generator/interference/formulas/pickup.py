"""What a changing field induces in a circuit: volts of a loop from its area, from four distances, from a coil
of spare lead.
"""

from __future__ import annotations

from math import cos, log, pi, radians, sin, sqrt

from .basics import MU0, omega

FACTOR = MU0 / (2 * pi)


def uniform(tesla: float, area: float, hertz: float, turns: float = 1.0, tilt: float = 0.0) -> float:
    """Volts in a loop small against the distance; `tilt` in degrees off the worst direction."""
    return omega(hertz) * turns * tesla * area * cos(radians(tilt))


def loop_beside_wire(amps: float, along: float, near: float, far: float, hertz: float) -> float:
    """Volts in a flat loop between distances `near` and `far` of one long conductor, in its plane."""
    return hertz * MU0 * amps * along * log(far / near)


def flux_of_wire(amps: float, along: float, near: float, far: float) -> float:
    """Webers through that loop."""
    return FACTOR * amps * along * log(far / near)


def loop_beside_pair(
    amps: float,
    along: float,
    go_near: float,
    go_far: float,
    return_near: float,
    return_far: float,
    hertz: float,
) -> float:
    """Volts between two conductors beside go and return, from the four distances; exact for long straight
    wires.
    """
    return omega(hertz) * FACTOR * along * amps * abs(log(go_far * return_near / (go_near * return_far)))


def strip_beside_pair(spacing: float, near: float, width: float) -> float:
    """Square metres times tesla for each ampere and metre: flux into a strip `width` wide that begins `near`
    a straight pair.
    """
    return FACTOR * spacing * (1 / near - 1 / (near + width))


def strip_beside_wire(near: float, width: float) -> float:
    """The same beside one conductor."""
    return FACTOR * log((near + width) / near)


def strip_beside_cable(spacing: float, twist: float, near: float, width: float) -> float:
    """The same beside a mains cable: `twist` is what its twist leaves at the near edge, so the rest is told
    too large.
    """
    alone = strip_beside_wire(near, width)
    return min(alone, twist * strip_beside_pair(spacing, near, width)) if spacing else alone


def crossing(degrees: float) -> float:
    """What is left when the lead crosses instead of running alongside: `degrees` off a right angle, 90 for
    parallel.
    """
    return abs(sin(radians(degrees)))


def untwisted_area(spacing: float, along: float) -> float:
    """Two wires side by side."""
    return spacing * along


def twisted_area(spacing: float, lay: float, along: float, uneven: float) -> float:
    """A twisted pair: half a lay remains whatever its length, and the unevenness (a fraction) of its half
    twists adds as noise does.
    """
    return spacing * lay / pi * sqrt(1 + 2 * along / lay * uneven**2)


def coil_area(turns: float, across: float) -> float:
    """Spare lead in a coil of that diameter: in series with the earth loop, not with the pair."""
    return turns * pi * (across / 2) ** 2


def area_beside_dipole(spacing: float, distance: float) -> float:
    """Two wires passing a transformer at `distance`: the length that counts is twice the distance. For an
    infinite straight lead.
    """
    return 2 * spacing * distance


def loop_beside_dipole(distance: float) -> float:
    """A half plane beyond a lead that passes a transformer, in square metres of the field at the lead."""
    return 2 * distance**2


def solenoid_field(amps: float, turns_per_metre: float) -> float:
    """Tesla inside a long coil."""
    return MU0 * turns_per_metre * amps


def rectangle_of_plates(width: float, height: float, gap: float, permittivity: float, e0: float) -> float:
    """Farads of two plates, without their edges."""
    return e0 * permittivity * width * height / gap
