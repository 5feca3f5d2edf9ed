"""What stands between two chassis, by how the two devices are powered. The rows are
data, in powering.yaml."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from math import pi
from pathlib import Path

import yaml

from .constants import CLOSED, LEAST_JOINT, MAINS, THROUGH

PATH = Path(__file__).with_name("powering.yaml")


@dataclass(frozen=True)
class Pair:
    """A row: how the two are powered, the open voltage (V rms at MAINS) and the resistance (ohm) and
    capacitance (F) in series behind which it stands, all typical."""

    powered: tuple[str, str]
    says: str
    volts: float
    ohm: float
    farad: float

    @property
    def amps(self) -> float:
        """What flows where the chassis are joined by LEAST_JOINT: which of several pairs is the worst."""
        return self.volts / abs(complex(self.ohm + LEAST_JOINT, -1 / (2 * pi * MAINS * self.farad)))


@cache
def rows() -> tuple[Pair, ...]:
    """The table in order."""
    return tuple(_pair(row) for row in yaml.safe_load(PATH.read_text(encoding="utf-8")))


def _pair(row: dict) -> Pair:
    ohm, farad = row.get("ohm", [0, CLOSED])[1], row.get("farad", [0, THROUGH])[1]
    return Pair(tuple(row["pair"]), row["says"], float(row["volts"][1]), float(ohm), float(farad))


@cache
def pairs(one: Sequence[str], other: Sequence[str]) -> tuple[Pair, ...]:
    """Every way two devices may be powered, the worst first."""
    found = {row: None for row in rows() for a in one for b in other if row.powered in ((a, b), (b, a))}
    return tuple(sorted(found, key=lambda pair: -pair.amps))
