"""Preferred values of parts: the series of IEC 60063 by way of a page that lists them, and the nearest
value of a series."""

from __future__ import annotations

from math import floor, log10

from generator.engine.pad import E24

E6 = (1.0, 1.5, 2.2, 3.3, 4.7, 6.8)
E96 = tuple(round(10 ** (i / 96), 2) for i in range(96))  # unlike E24, it is the rounded formula throughout
SERIES = {"E6": E6, "E24": E24, "E96": E96}


def nearest(value: float, series: str = "E24") -> float:
    """The value of a series nearest in ratio."""
    decade = 10.0 ** floor(log10(value))
    found = min((*SERIES[series], 10.0), key=lambda step: abs(log10(step * decade / value)))
    return float(f"{found * decade:.6g}")


def upwards(low: float, high: float, series: str = "E24") -> list[float]:
    """The values of a series between two bounds, both included."""
    decades = range(floor(log10(low)), floor(log10(high)) + 1)
    values = (float(f"{step * 10.0**decade:.6g}") for decade in decades for step in SERIES[series])
    return [value for value in values if low <= value <= high]
