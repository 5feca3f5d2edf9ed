"""What a meter should read between every two contacts of a good lead, in the words and windows of a hand
meter."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import cache
from itertools import combinations
from math import inf, isnan

import numpy as np

from generator.catalogue.quantity import parse
from generator.catalogue.records import Quantity
from generator.engine.words import fixed, quantity

from .paths import HIGH, LOW, WIRE, capacitances, resistances
from .specimen import SHELL, Specimen, contact_of, end_of
from .tables import amount, table

NONE = "no reading"  # beyond the highest range
CHIRP = 1e-6  # F; a smaller capacitor is full before the beeper has noticed


@dataclass(frozen=True)
class Reading:
    """Between terminals `a` and `b`: `low` and `high` bound of the lead in ohm (infinite: no path), `farad`
    its capacitance where a meter can read one. `charging` is what a meter charges a large capacitor through,
    in ohm: infinite where none lies between."""

    a: str
    b: str
    low: float
    high: float
    farad: tuple[float, float] | None = None
    charging: float = inf

    @property
    def pair(self) -> str:
        """As it is typed: `a.1-b.1`."""
        return f"{self.a}-{self.b}"

    @property
    def junction(self) -> bool:
        """Does the reading hang on which probe is where?"""
        return self.low < inf and self.high == inf

    @property
    def window(self) -> tuple[float, float]:
        """What the ohm range may show, probes subtracted: the lead's own bounds and the meter's error on
        top."""
        return max(0.0, self.low - error(self.low)), self.high + error(self.high)

    @property
    def beep(self) -> str:
        """yes, no, once (a capacitor), perhaps (some meters do) or either way (a junction)."""
        if self.junction:
            return "either way"
        if self.low == inf:
            return "once" if self.charging <= amount("meters", "beeper", "never").nominal else "no"
        if self.high < amount("meters", "beeper", "sure").nominal:
            return "yes"
        return "no" if self.low > amount("meters", "beeper", "never").nominal else "perhaps"

    @property
    def chirp(self) -> tuple[float, float] | None:
        """How long a capacitor beeps, s: until the meter's current has charged it past the threshold, C V /
        I. None where a resistor in series leaves no capacitance to read."""
        if self.beep != "once" or self.farad is None:
            return None
        amps, volts = amount("meters", "beeper", "amps").nominal, amount("meters", "beeper", "volts").low
        return self.farad[0] * volts / amps, self.farad[1] * volts / amps


def error(ohms: float) -> float:
    """What the ohm range may be off at a value, in ohm: a share of it and some digits of the range it falls
    in. 0 beyond all ranges."""
    meter = table("meters")["ohms"]
    top = next((top for top in _tops() if ohms < top), None)
    share = amount("meters", "ohms", "share").nominal
    return 0.0 if top is None else share * ohms + int(meter["digits"]) * top / int(meter["steps"])


@cache
def _tops() -> tuple[float, ...]:
    """The ranges, ohm."""
    return tuple(parse(text).nominal for text in table("meters")["ohms"]["ranges"])


def pairs(specimen: Specimen) -> list[tuple[str, str]]:
    """Every pair worth a probe: contacts end to end and within an end, and each metal shell with the
    contacts of its own end."""
    return [
        (a, b)
        for a, b in combinations(specimen.terminals, 2)
        if SHELL not in (contact_of(a), contact_of(b)) or end_of(a) == end_of(b)
    ]


def readings(specimen: Specimen) -> list[Reading]:
    """The reading of every pair."""
    at = {terminal: i for i, terminal in enumerate(specimen.terminals)}
    ohms, farads, charging = resistances(specimen), capacitances(specimen), _charging(specimen)
    return [
        Reading(
            a,
            b,
            _bound(ohms, LOW, at[a], at[b]),
            _bound(ohms, HIGH, at[a], at[b]),
            _farad(farads, at[a], at[b]),
            float(charging[LOW, at[a], at[b]]),
        )
        for a, b in pairs(specimen)
    ]


def _charging(specimen: Specimen) -> np.ndarray:
    """Ohm between every two terminals while the large capacitors that are parts are empty."""
    empty = Quantity(1.0, 1.0, 1.0, "ohm", "1 ohm")
    parts = [
        replace(part, kind="resistor", value=empty)
        if part.kind == "capacitor" and part.id in specimen.made and part.value.nominal >= CHIRP
        else part
        for part in specimen.parts
    ]
    return resistances(replace(specimen, parts=tuple(parts)))


def _bound(ohms: np.ndarray, bound: int, a: int, b: int) -> float:
    """Beyond the highest range a meter shows no reading."""
    found = float(ohms[bound, a, b])
    return found if found <= _tops()[-1] else inf


def _farad(farads: np.ndarray, a: int, b: int) -> tuple[float, float] | None:
    low, high = float(farads[LOW, a, b]), float(farads[HIGH, a, b])
    return (
        None
        if isnan(low) or isnan(high) or high < amount("meters", "capacitance", "step").nominal
        else (low, high)
    )


def said(reading: Reading) -> str:
    """One line for the person with the probes."""
    if reading.junction:
        return "depends on which probe is where: a diode or regulator; only a short would be wrong"
    if reading.low == inf:
        if reading.beep == "once":
            chirp = f"beeps for {quantity(reading.chirp[1], 's')} at most, " if reading.chirp else ""
            return f"{chirp}climbs, ends with no reading: a capacitor"
        return NONE
    low, high = (metered(bound) for bound in reading.window)
    shown = f"below {high}" if low == metered(0) else f"{low} to {high}"
    return f"{shown}: a wire" if reading.high < WIRE else shown


def metered(ohms: float) -> str:
    """As the display has it: tenths of an ohm on the lowest range."""
    return f"{fixed(ohms, 1).removesuffix('.0')} Ω" if ohms < 100 else quantity(ohms, "ohm")


def unseen() -> str:
    """What no hand meter can tell, said once on every sheet."""
    ohms = metered(amount("meters", "unseen", "ohm").nominal)
    sure, never = (metered(amount("meters", "beeper", key).nominal) for key in ("sure", "never"))
    return (
        f"A hand meter cannot tell differences below {ohms}: such a joint may be good or bad. A beep is not "
        f"a pass: meters beep below {sure} or even {never}, and 40 Ω in one leg leaves 48 dB of hum "
        "rejection. Ask for a number."
    )


def as_data(found: Iterable[Reading]) -> list[dict]:
    """The readings in published form: ohm and farad, null for no path and for what no meter can read."""

    def bound(value: float) -> float | None:
        return None if value == inf else round(value, 6)

    return [
        {
            "between": [r.a, r.b],
            "ohm": {"low": bound(r.low), "high": bound(r.high)},
            "shows": {"low": bound(r.window[0]), "high": bound(r.window[1])},
            "beep": r.beep,
            "farad": None if r.farad is None else {"low": r.farad[0], "high": r.farad[1]},
            "says": said(r),
        }
        for r in found
    ]
