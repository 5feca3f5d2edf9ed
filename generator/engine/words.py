"""Numbers as a meter would show them, and sentences about settings."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import floor, isfinite, log10

from .constants import HALF_DIGIT, NOTHING, SILENT

PREFIXES = ((1e6, "M"), (1e3, "k"), (1.0, ""), (1e-3, "m"), (1e-6, "µ"), (1e-9, "n"))
SYMBOLS = {"ohm": "Ω"}


def quantity(value: float, unit: str) -> str:
    """Three significant digits with an engineering prefix: 44.6 V, 7.05 mA, 2.4 kΩ; decibels with one
    decimal, bare numbers as they are."""
    if not isfinite(value):
        return "no number"
    if unit == "dB":
        return f"{fixed(value, 1)} dB" if value >= SILENT else f"under {fixed(SILENT, 0)} dB"
    symbol = SYMBOLS.get(unit, unit)
    if abs(value) < NOTHING or not symbol:
        return f"{fixed(value, 0)} {symbol}".strip()
    factor, prefix = next(((f, p) for f, p in PREFIXES if abs(value) * 1.0005 >= f), PREFIXES[-1])
    scaled = value / factor
    places = max(0, 2 - floor(log10(abs(scaled) * 1.0005))) if abs(scaled) >= 1e-3 else 2
    text = fixed(scaled, places)
    return f"{text.rstrip('0').rstrip('.') if '.' in text else text} {prefix}{symbol}"


def fixed(value: float, places: int) -> str:
    """Round half away from zero, and what is a half but for a solver's rounding too, so that every
    implementation prints the same digits."""
    scale = 10**places
    whole = floor(abs(value) * scale + 0.5 + HALF_DIGIT)
    sign = "−" if value < 0 and whole else ""
    digits = str(whole).rjust(places + 1, "0")
    return sign + (f"{digits[:-places]}.{digits[-places:]}" if places else digits)


def setting_words(setting: Mapping[str, str], names: Mapping[str, str]) -> str:
    """`phantom 48 V on, plug-in power off`; empty when nothing can be switched. `names` tells what
    each switch is called."""
    return ", ".join(f"{names[key]} {state}" for key, state in setting.items())


def conditions(settings: Sequence[tuple[Mapping[str, str], str]], names: Mapping[str, str]) -> str:
    """One sentence that says which setting ends how; empty when all end alike."""
    verdicts = list(dict.fromkeys(verdict for _, verdict in settings))
    if len(verdicts) < 2:
        return (
            f"{verdicts[0].capitalize()} only."
            if verdicts and " " in verdicts[0] and verdicts[0].startswith("dangerous")
            else ""
        )
    told = {verdict: _condition(verdict, settings, names) for verdict in verdicts}
    unclear = [verdict for verdict in verdicts if told[verdict] is None]
    rest = max(unclear, key=[found for _, found in settings].count, default=None)
    clauses = []
    for verdict in verdicts:
        if verdict != rest:
            cases = [setting_words(setting, names) for setting, found in settings if found == verdict]
            clauses.append(f"{verdict} with {told[verdict] or ' or '.join(cases)}")
    if rest:
        clauses.append(f"{rest} otherwise")
    sentence = "; ".join(clauses)
    return sentence[0].upper() + sentence[1:] + "."


def in_order(
    end: str, start: Mapping[str, str], goal: Mapping[str, str], stays: bool, names: Mapping[str, str]
) -> str:
    """`Plug it with the amplifier off, wait a moment, then the amplifier on: then it is safe.` Where it stays
    as it was plugged: `Plug it with phantom off, and leave it so: then it is safe.`"""
    changed = [key for key in goal if start[key] != goal[key]]
    before = ", ".join(f"{names[key]} {start[key]}" for key in changed)
    after = ", ".join(f"{names[key]} {goal[key]}" for key in changed)
    result = {"safe": "it is safe", "lossy": "it works and loses something"}[end]
    if stays:
        return f"Plug it with {before}, and leave it so: then {result}."
    return f"Plug it with {before}, wait a moment, then {after}: then {result}."


def _condition(
    verdict: str, settings: Sequence[tuple[Mapping[str, str], str]], names: Mapping[str, str]
) -> str | None:
    """The switch positions that all settings of a verdict share and no other has; None if
    there is no such set."""
    cases = [setting for setting, found in settings if found == verdict]
    shared = {
        key: state
        for key, state in cases[0].items()
        if all(case[key] == state for case in cases) and any(s[key] != state for s, _ in settings)
    }
    matching = [setting for setting, _ in settings if shared.items() <= setting.items()]
    return setting_words(shared, names) if shared and len(matching) == len(cases) else None
