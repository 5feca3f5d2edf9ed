"""What helps this run, and by how much: each cure changes the run, and the whole is computed again."""

from __future__ import annotations

from dataclasses import dataclass, replace

from .answer import total_heard
from .changes import CHANGES, better_name, mains_device, scaled
from .formulas import radio
from .formulas.basics import db
from .numbers import TYPICAL
from .run import Run
from .tables import Tables

FARTHER = 10.0  # what `farther` stands for
FEW = 0.5  # dB; a gain below it is told as none


@dataclass(frozen=True)
class Remedy:
    """A cure and its gain in dB at the quiet end, typical and loud (None: nothing is left); `radio` dB of
    radio, twice that in sound.
    `words` are ready to be read; `of` is the run with the cure."""

    id: str
    words: str
    gains: tuple[float | None, ...]
    radio: float | None
    of: Run


def remedies(run: Run, tables: Tables) -> tuple[Remedy, ...]:
    """Every cure that applies, best first; one that gains nothing stands behind and says 0. What
    makes it worse is not a cure.
    """
    before = total_heard(run, tables)
    found = []
    for id in tables.remedies:
        change = CHANGES.get(id)
        made = change(run, tables) if change else None
        if made is not None and made != run:
            gains = tuple(_gain(one, other) for one, other in zip(before, total_heard(made, tables)))
            words = tables.remedies[id]["words"].format(
                device=mains_device(run, tables), cable=better_name(run, tables)
            )
            if gains[TYPICAL] is None or gains[TYPICAL] > -FEW:
                found.append(Remedy(id, words, gains, None, made))
    ranked = sorted(found, key=_rank)
    return (*ranked, *_radio(run, tables))


def _rank(one: Remedy) -> float:
    """Best first; alike but for rounding stays in the order of cost, on every machine."""
    typical = one.gains[TYPICAL]
    return -999.0 if typical is None else -round(typical, 6)


def _gain(before: float, after: float) -> float | None:
    if not after:
        return None if before else 0.0
    return db(before / after)


def _radio(run: Run, tables: Tables):
    """Cures for radio: dB from their formulas, since the run's own radio is told in steps only."""
    if not run.transmitters:
        return
    none = (0.0, 0.0, 0.0)
    ohm = tables.chokes["ring"]["ohm"]
    nearer = replace(
        run, transmitters=tuple(replace(one, distance=one.distance * FARTHER) for one in run.transmitters)
    )
    if not run.ferrite:
        yield Remedy(
            "ferrite",
            tables.remedies["ferrite"]["words"],
            none,
            radio.ferrite_loss(ohm),
            replace(run, ferrite=ohm),
        )
    yield Remedy("farther", tables.remedies["farther"]["words"], none, db(FARTHER), nearer)
    yield Remedy("length", tables.remedies["length"]["words"], none, None, run)


def six_decibels(run: Run, tables: Tables, gain: float = 6.0) -> float | None:
    """How many times as far everything near must be for this gain; None where distance does not
    bring it within 32 times.
    """
    before = total_heard(run, tables)[TYPICAL]

    def reached(times: float) -> bool:
        after = total_heard(scaled(run, times), tables)[TYPICAL]
        return after == 0 or db(before / after) >= gain

    if not before or not (run.beside or run.things) or not reached(32.0):
        return None
    low, high = 1.0, 32.0
    for _ in range(40):
        middle = (low + high) / 2
        low, high = (low, middle) if reached(middle) else (middle, high)
    return high
