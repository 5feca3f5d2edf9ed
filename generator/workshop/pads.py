"""Pads designed to a wanted loss, with parts one can buy: U and L as dividers, O as a U with its input
brought down, H (and O on request) matched.

Microphone pads are dividers, not matched: what the microphone sees and what the preamplifier sees should
stay about as they were.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import log2
from typing import Any

from generator.engine.words import fixed, quantity

from .attenuation import (
    Done,
    Ladder,
    balance_kept,
    done,
    least_loss,
    matched_pi,
    matched_t,
    mismatch_loss,
    parallel,
    ratio,
)
from .preferred import nearest, upwards
from .safety import Misuse

FORMS = ("U", "H", "L", "O")
LEAST, MOST = 1.0, 80.0  # dB
PHANTOM, FEED = 48.0, 6810.0  # V, ohm in each leg
HUNGRY = 5e-3  # A; a hungry microphone
TOLERANCES = (0.05, 0.01, 0.001)


@dataclass(frozen=True)
class Pad:
    """A form, its resistors by name (ohm, of the series asked for), the ladder they
    make, and what it does."""

    form: str
    resistors: dict[str, float]
    ladder: Ladder
    does: Done

    @property
    def leg(self) -> float:
        """The resistance in one leg, ohm."""
        return sum(ohms for way, ohms in self.ladder if way == "series") / (1 if self.form == "L" else 2)


def designed(
    loss: float, source: float, load: float, form: str, series: str = "E24", matched: bool = False
) -> Pad:
    """A pad that loses `loss` dB when put between a source and a load (ohm). Raises Misuse for what cannot
    be built."""
    if form not in FORMS:
        raise Misuse(f"'{form}' is not a form of pad; there are {', '.join(FORMS)}.")
    if not LEAST <= loss <= MOST:
        raise Misuse(f"a loss of {loss:g} dB is not built as one pad; ask for {LEAST:g} to {MOST:g} dB.")
    if form == "H" or matched:
        return _matched(loss, source, load, form, series)
    return _divider(loss, source, load, form, series)


def _matched(loss: float, source: float, load: float, form: str, series: str) -> Pad:
    """Matched pads are reckoned in power; without the pad two unequal impedances lose some of it already."""
    unmatched = mismatch_loss(source, load)
    least = least_loss(source, load) - unmatched
    if form not in ("H", "O"):
        raise Misuse(f"a {form}-pad is a divider and cannot be matched; ask for H or O.")
    if loss < least + 0.01:
        ends = f"from {quantity(source, 'ohm')} to {quantity(load, 'ohm')}"
        raise Misuse(f"a matched pad {ends} loses at least {fixed(least, 1)} dB, not {loss:g} dB.")
    if form == "H":
        one, shunt, other = matched_t(loss + unmatched, source, load)
        exact = {"source leg": one / 2, "across": shunt, "load leg": other / 2}
    else:
        one, through, other = matched_pi(loss + unmatched, source, load)
        exact = {"across the source": one, "leg": through / 2, "across the load": other}
    return made(form, {name: nearest(ohms, series) for name, ohms in exact.items()}, source, load)


def _divider(loss: float, source: float, load: float, form: str, series: str) -> Pad:
    """Of all values within half a decibel those that leave both ends most as they were; the nearest in loss
    if none is."""
    tried = []
    for across in upwards(source / 4, 4 * source, series):
        resistors = _resistors(loss, source, load, form, across)
        if resistors:
            named = {name: nearest(ohms, series) for name, ohms in resistors.items()}
            tried.append(made(form, named, source, load))
    if not tried:
        ends = f"between {quantity(source, 'ohm')} and {quantity(load, 'ohm')}"
        instead = " Build a U-pad." if form == "O" else ""
        raise Misuse(
            f"a loss of {loss:g} dB is too little for an {form}-pad {ends}.{instead}".replace("an U", "a U")
        )
    close = [pad for pad in tried if abs(pad.does.loss - loss) <= 0.5] or tried
    return min(
        close,
        key=lambda pad: (
            abs(log2(pad.does.load_sees / source)) + abs(pad.does.loss - loss),
            str(pad.resistors),
        ),
    )


def _resistors(loss: float, source: float, load: float, form: str, across: float) -> dict[str, float] | None:
    """Exact values for a given shunt at the output, or None where they would not be resistors."""
    k, end = ratio(loss), parallel(across, load)
    if form == "O":  # the shunt at the input makes the source see what it saw before
        seen = k * end
        shunt = seen * load / (seen - load) if seen > 1.02 * load else None
        return shunt and {"across the source": shunt, "leg": (seen - end) / 2, "across the load": across}
    leg = (k * end * (source + load) / load - end - source) / (1 if form == "L" else 2)
    return {"leg": leg, "across": across} if leg >= 1 else None


def made(form: str, resistors: dict[str, float], source: float, load: float) -> Pad:
    """A pad of given resistors."""
    return Pad(form, resistors, ladder(form, resistors), done(ladder(form, resistors), source, load))


def ladder(form: str, resistors: dict[str, float]) -> list[tuple[str, float]]:
    """From the source to the load, both legs together."""
    legs = 1 if form == "L" else 2
    if form == "H":
        return [
            ("series", 2 * resistors["source leg"]),
            ("shunt", resistors["across"]),
            ("series", 2 * resistors["load leg"]),
        ]
    if form == "O" and "across the source" in resistors:
        return [
            ("shunt", resistors["across the source"]),
            ("series", 2 * resistors["leg"]),
            ("shunt", resistors["across the load"]),
        ]
    return [("series", legs * resistors["leg"]), ("shunt", resistors["across"])]


def phantom_left(leg: float, amps: float) -> float:
    """Volts a microphone finds behind a pad with `leg` ohm in each leg."""
    return PHANTOM - amps * (FEED + leg) / 2


def leg_watts(leg: float, amps: float) -> tuple[float, float]:
    """What a leg takes with half a microphone's current, and with that leg shorted to the screen behind the
    pad."""
    return (amps / 2) ** 2 * leg, (PHANTOM / (FEED + leg)) ** 2 * leg


def as_data(pad: Pad, loss: float, source: float, load: float) -> dict[str, Any]:
    """The pad in published form."""
    does, balanced = pad.does, pad.form != "L"
    return {
        "form": pad.form,
        "wanted": loss,
        "source": source,
        "load": load,
        "resistors": dict(pad.resistors),
        "loss": round(does.loss, 2),
        "unloaded": round(does.unloaded, 2),
        "source_sees": round(does.source_sees, 1),
        "load_sees": round(does.load_sees, 1),
        "noise": round(does.noise, 1),
        "noise_cost": round(does.noise_cost, 1),
        "balance": (
            {f"{share:g}": round(balance_kept(pad.leg, share), 1) for share in TOLERANCES}
            if balanced
            else None
        ),
        "phantom": (
            {
                "left": round(phantom_left(pad.leg, HUNGRY), 1),
                "amps": HUNGRY,
                "watts": [round(w, 4) for w in leg_watts(pad.leg, HUNGRY)],
            }
            if balanced
            else None
        ),
    }


def text(data: dict[str, Any]) -> str:
    """The pad for a terminal."""
    ohms = lambda value: quantity(value, "ohm")  # noqa: E731
    lines = [
        (
            f"{data['form']}-pad, {fixed(data['loss'], 1)} dB between {ohms(data['source'])} and "
            f"{ohms(data['load'])} (asked for {data['wanted']:g} dB)"
        ),
        *(
            f"  {name}: {ohms(value)}{' each' if 'leg' in name and data['form'] != 'L' else ''}"
            for name, value in data["resistors"].items()
        ),
        f"  The source sees {ohms(data['source_sees'])} (before: {ohms(data['load'])}), the load sees "
        f"{ohms(data['load_sees'])} (before: {ohms(data['source'])}). With nothing behind it: "
        f"{fixed(data['unloaded'], 1)} dB.",
        (
            f"  Noise at its output: {fixed(data['noise'], 1)} dBu; {fixed(data['noise_cost'], 1)} dB less "
            "signal to noise where the source's own noise ruled."
        ),
    ]
    if data["balance"]:
        kept = ", ".join(
            f"{float(share) * 100:g} %: {fixed(decibels, 0)} dB"
            for share, decibels in data["balance"].items()
        )
        watts = data["phantom"]["watts"]
        lines += [
            (
                f"  Hum rejection left by legs that are off in opposite directions, 10 kΩ to ground: {kept}. "
                "Take both from one reel, or measure pairs."
            ),
            (
                f"  Phantom passes: a microphone of 5 mA finds {fixed(data['phantom']['left'], 1)} V. A leg "
                f"takes {quantity(watts[0], 'W')}, {quantity(watts[1], 'W')} with a fault behind it: 1/8 W "
                "does."
                if max(watts) < 0.1
                else (
                    "  Phantom passes poorly: a microphone of 5 mA finds "
                    f"{fixed(max(data['phantom']['left'], 0.0), 1)} V, and a leg takes up to "
                    f"{quantity(max(watts), 'W')}."
                )
            ),
        ]
    if data["form"] == "H":
        lines.append("  Leave its middle free: joined to contact 1 it would short phantom through the legs.")
    if data["form"] in ("U", "L", "O") and data["wanted"] < 20:
        lines.append(
            "  Below 20 dB no pad suits every microphone and preamplifier: this one is made for these two."
        )
    return "\n".join(lines)
