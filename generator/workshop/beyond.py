"""What no ohmmeter tells apart, and the capacitance reading that would: which end a core is off at, a
screen that is a core at both ends."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import isnan

import numpy as np

from generator.engine.words import quantity

from .faulty import Fault, injected
from .paths import HIGH, LOW, capacitances
from .readings import pairs
from .specimen import Specimen
from .tables import amount


@dataclass(frozen=True)
class Further:
    """A capacitance reading between terminals `a` and `b`, far ends open, and what it shows in F under each
    fault: (low, high)."""

    a: str
    b: str
    shows: tuple[tuple[Fault, tuple[float, float]], ...]


def further(specimen: Specimen, group: Sequence[Fault]) -> Further | None:
    """The capacitance reading that splits the group into most parts; None where none splits it."""
    if len(group) < 2:
        return None
    found = [capacitances(injected(specimen, fault)) for fault in group]
    at = {terminal: i for i, terminal in enumerate(specimen.terminals)}
    best, most = None, 1
    for a, b in pairs(specimen):
        spans = [(float(one[LOW, at[a], at[b]]), float(one[HIGH, at[a], at[b]])) for one in found]
        if any(isnan(bound) for span in spans for bound in span):
            continue
        parts = _parts(spans)
        if parts > most:
            best, most = Further(a, b, tuple(zip(group, spans))), parts
    return best


def _parts(spans: Sequence[tuple[float, float]]) -> int:
    """Into how many the spans fall that a capacitance meter tells apart."""
    step, share = (amount("meters", "capacitance", key).nominal for key in ("step", "share"))
    count, reach = 0, -np.inf
    for low, high in sorted(spans):
        if low * (1 - share) - 5 * step > reach:
            count += 1
        reach = max(reach, high * (1 + share) + 5 * step)
    return count


def told(span: tuple[float, float]) -> str:
    """What the meter shows, as a range."""
    seen = span[1] >= amount("meters", "capacitance", "step").nominal
    return " to ".join(_farads(bound) for bound in span) if seen else "nothing"


def _farads(value: float) -> str:
    """With the prefixes a meter has: pF below a nanofarad."""
    return f"{value * 1e12:.0f} pF" if value < 1e-9 else quantity(value, "F")
