"""Curves of the pages about hum and length: as a picture readable on a phone, and the same numbers
as a table.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import log10

from generator.drawing import draw_scene, plots
from generator.interference import Tables
from generator.interference.formulas import field, length, radio
from generator.interference.formulas.basics import db, parallel
from generator.interference.reach import LENGTHS, TOP

STEPS = 24  # points of a curve
METRES = (0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0)
AWAY = (0.1, 0.3, 1.0, 3.0, 10.0, 30.0)


@dataclass(frozen=True)
class Shown:
    """A picture, the head of its table and the rows."""

    id: str
    title: str
    picture: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def all(tables: Tables) -> list[Shown]:
    """Every curve of the page, in order."""
    return [
        treble("player", "A player of 1 kΩ into 20 kΩ", 1e3, 20e3, tables),
        treble("microphone", "A microphone of 200 Ω into 2 kΩ", 200.0, 2e3, tables),
        treble("guitar", "A guitar pickup of 10 kΩ into 1 MΩ", 10e3, 1e6, tables),
        fields(tables),
        transmitters(tables),
    ]


def treble(id: str, subtitle: str, source_ohm: float, input_ohm: float, tables: Tables) -> Shown:
    """Treble left at 20 kHz against the length of four kinds of cable."""
    ohm = parallel(source_ohm, input_ohm)
    cables = (
        ("coax-heavy", "coax-thin", "mic-pair", "star-quad")
        if source_ohm < 5e3
        else ("coax-heavy", "instrument-lead", "coax-thin")
    )
    curves = {tables.cables[cable]["name"]: _treble(ohm, tables.cables[cable]["farad"]) for cable in cables}
    return _shown(
        f"treble-{id}",
        "Treble against length",
        subtitle,
        "metres of lead",
        "dB left at 20 kHz",
        LENGTHS,
        (-12, -9, -6, -3, 0),
        curves,
        "m",
    )


def _treble(ohm: float, farad: float) -> Callable[[float], float]:
    return lambda metres: length.treble(ohm, farad, metres, TOP)


def fields(tables: Tables) -> Shown:
    """Field of 10 A against distance for each kind of mains cable, dB above a microtesla."""
    kinds = ("loudspeaker-or-busbar", "flat-feeder", "lamp-lead", "flex")
    curves = {tables.mains[kind]["name"]: _field(tables.mains[kind]) for kind in kinds}
    return _shown(
        "field",
        "Field of 10 A against distance",
        "typical spacing and lay, undimmed",
        "metres away",
        "dB above 1 µT",
        METRES,
        (-60, -40, -20, 0, 20, 40),
        curves,
        "m",
    )


def _field(row) -> Callable[[float], float]:
    def level(metres: float) -> float:
        together = field.cable(10.0, row["spacing"][1], row["lay"][1], metres)
        return db(max(together, field.wire(row["alone"][1], metres)) / 1e-6)

    return level


def transmitters(tables: Tables) -> Shown:
    """Field of what transmits against distance, with the level ordinary gear is tested with."""
    kinds = ("two-way-radio", "phone-old", "phone", "body-pack")
    curves = {
        tables.transmitters[kind]["name"]: _transmitter(tables.transmitters[kind]["watts"], tables)
        for kind in kinds
    }
    curves["what ordinary gear is tested with, 3 V/m"] = lambda metres: db(3.0)
    return _shown(
        "radio",
        "Field of transmitters against distance",
        "beyond a sixth of their wave",
        "metres away",
        "dB above 1 V/m",
        AWAY,
        (-40, -20, 0, 20, 40),
        curves,
        "m",
    )


def _transmitter(watts: float, tables: Tables) -> Callable[[float], float]:
    return lambda metres: db(radio.proximity_field(watts, metres, tables.radio["factor"]["values"][-1]))


def _shown(
    id: str,
    title: str,
    subtitle: str,
    across: str,
    up: str,
    xs: Sequence[float],
    ys: Sequence[float],
    curves: dict[str, Callable[[float], float]],
    unit: str,
) -> Shown:
    span = [10 ** (log10(xs[0]) + i / STEPS * (log10(xs[-1]) - log10(xs[0]))) for i in range(STEPS + 1)]
    drawn = [plots.Curve(name, tuple((x, curve(x)) for x in span)) for name, curve in curves.items()]
    picture = draw_scene(
        plots.plot(title, subtitle, across, up, xs, ys, drawn), prefix=f"curve-{id}", standalone=False
    )
    rows = tuple((name, *(f"{curve(x):.1f}".replace("-", "−") for x in xs)) for name, curve in curves.items())
    return Shown(id, f"{title}. {subtitle}", picture, (up, *(f"{x:g} {unit}" for x in xs)), rows)
