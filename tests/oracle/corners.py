"""Tolerances, read a second time: parts at a corner, and supplies of several places pulled apart."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from wiring import Wiring

from generator.catalogue.records import Part

NOMINAL, WEAK, STRONG, PULLED = "nominal", "weak", "strong", "matched pairs apart"


def worth(part: Part, corner: str) -> float:
    """A part's value at a corner. Strong: sources at their highest, resistances and loads at their lowest;
    weak the other way round; matched pairs apart: one up and one down by half their mismatch. All else
    stays nominal."""
    value = part.value
    if corner == PULLED:
        return value.nominal * (1 + part.skew * part.match / 2)
    if corner == NOMINAL or part.kind not in ("emf", "resistor", "sink"):
        return value.nominal
    small, large = sorted((value.low, value.high), key=abs)  # a rail below 0 V is strong far below it
    return large if (part.kind == "emf") == (corner == STRONG) else small


def values(wired: Wiring, corner: str) -> np.ndarray:
    """Every piece at a corner, (pieces,)."""
    return np.array([worth(piece.part, corner) for piece in wired.pieces])


def corners(wired: Wiring) -> list[str]:
    """Those at which anything differs from nominal, nominal first."""
    parts = [piece.part for piece in wired.pieces]
    spread = any(part.value.low != part.value.high for part in parts)
    pulled = any(part.skew and part.match for part in parts)
    return [NOMINAL, *[WEAK] * spread, *[PULLED] * pulled, *[STRONG] * spread]


def supply_volts(wired: Wiring, corner: str) -> Iterator[tuple[str, np.ndarray]]:
    """What the supplies may give at a corner, (supplies,), with its name: all alike; at the strong one
    also those of one place at their highest with all others at their lowest, and the other way round."""
    pieces = [wired.pieces[i] for i in wired.supplies]
    yield corner, np.array([worth(piece.part, corner) for piece in pieces])
    places = dict.fromkeys(piece.place for piece in pieces)
    if corner != STRONG or len(places) < 2:
        return
    for place in places:
        for own, others in ((STRONG, WEAK), (WEAK, STRONG)):
            volts = [worth(piece.part, own if piece.place == place else others) for piece in pieces]
            yield f"supplies {own} at {place}, {others} elsewhere", np.array(volts)
