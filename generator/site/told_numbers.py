"""Numbers the guides tell, worked out from the formulas when the site is made: none is
typed and left behind."""

from __future__ import annotations

from collections.abc import Callable

from generator import interference
from generator.interference import words
from generator.interference.answer import answer, total_heard
from generator.interference.formulas import balance, chassis, field, length, pickup, radio, screen
from generator.interference.formulas.basics import db
from generator.interference.numbers import TYPICAL
from generator.interference.reach import treble
from generator.interference.remedies import remedies
from generator.interference.run import Beside, Device, Lead, Run

TABLES = interference.tables()
PLAYER = Run(
    Device("line-unbalanced", "earthed"),
    Device("line-input-unbalanced", "earthed"),
    (Lead("coax-thin", 5.0),),
    sockets="other circuit",
)
LAPTOP = Run(
    Device("line-unbalanced", "insulated"),
    Device("line-input-unbalanced", "earthed"),
    (Lead("coax-thin", 5.0),),
)
LINE = Run(Device("line-balanced", "insulated"), Device("line-input", "earthed"), (Lead("mic-pair", 30.0),))
GUITAR = Run(
    Device("guitar", "battery"), Device("instrument-input", "earthed"), (Lead("instrument-lead", 6.0),)
)
LOOSE = pickup.untwisted_area(2e-3, 10)  # m2 of 10 m of bell wire
THIN, BRAID = 5 * 0.134, 5 * 0.0125  # ohm of 5 m of drain wire and of a braid
OPENED = Run(LINE.source, LINE.input, (Lead("mic-pair", 30.0, "open at one end"),))


def microphone(
    cable: str, amps: float, distance: float, beside: str = "single-cores", load: str = "dimmed-lamp"
) -> Run:
    """30 m of microphone cable, 10 m of it beside a mains cable."""
    return Run(
        Device("microphone-dynamic", "battery"),
        Device("mic-input", "earthed"),
        (Lead(cable, 30.0),),
        beside=(Beside(beside, load, amps, distance, 10.0),),
    )


def gain(run: Run, id: str) -> str:
    """dB of one cure for a run."""
    return words.decibels(next(one.gains[TYPICAL] for one in remedies(run, TABLES) if one.id == id))


def below(run: Run) -> str:
    """dB below what is wanted."""
    return words.decibels(answer(run, TABLES).total.below[TYPICAL])


def louder(one: Run, other: Run) -> str:
    """dB to the ear from one run to another."""
    return words.decibels(db(total_heard(other, TABLES)[TYPICAL] / total_heard(one, TABLES)[TYPICAL]))


def volts(run: Run) -> str:
    """What stands at the input."""
    return words.one_figure(answer(run, TABLES).total.volts[TYPICAL], "V")


def _drop(screen_ohm: float) -> float:
    return chassis.screen_drop(0.05, 0.5, 0, 0, screen_ohm, 0, 50)


def apart(one: Run, other: Run) -> str:
    """dB of volts from one run to another."""
    return words.decibels(
        db(answer(other, TABLES).total.volts[TYPICAL] / answer(one, TABLES).total.volts[TYPICAL])
    )


def flat(farad: float) -> float:
    """Treble of a player of 1 kohm at the end of 5 m."""
    return length.treble(952.0, farad, 5.0, 20e3)


def decimal(value: float, places: int) -> str:
    """A number with a true minus sign."""
    return f"{value:.{places}f}".replace("-", "−")


NUMBERS: dict[str, Callable[[], str]] = {
    "player": lambda: below(PLAYER),
    "laptop": lambda: below(LAPTOP),
    "strip": lambda: gain(PLAYER, "same-strip"),
    "bond": lambda: gain(PLAYER, "bond"),
    "cable": lambda: gain(PLAYER, "cable"),
    "transformer": lambda: gain(PLAYER, "transformer"),
    "balanced": lambda: gain(PLAYER, "balanced"),
    "battery": lambda: gain(LAPTOP, "battery"),
    "opened": lambda: apart(LINE, OPENED),
    "undim": lambda: gain(microphone("mic-pair", 32, 0.1), "undim"),
    "feeder-near": lambda: volts(microphone("mic-pair", 32, 0.1)),
    "feeder-far": lambda: volts(microphone("mic-pair", 32, 1.0)),
    "flex": lambda: volts(microphone("mic-pair", 16, 0.2, "flex")),
    "crossing": lambda: gain(microphone("mic-pair", 32, 0.1), "cross"),
    "quad": lambda: gain(microphone("mic-pair", 32, 0.1), "quad"),
    "quad-current": lambda: louder(Run(LINE.source, LINE.input, (Lead("star-quad", 30.0),)), LINE),
    "lay-1": lambda: words.decibels(db(field.twist(1.0, 1.0))),
    "lay-2": lambda: words.decibels(db(field.twist(2.0, 1.0))),
    "untwisted": lambda: words.decibels(db(LOOSE / pickup.twisted_area(2e-3, 30e-3, 10, 0.05))),
    "copper": lambda: f"{screen.crossing_field_loss(2.5e-3, 1e-4, 50):.5f} dB",
    "copper-10k": lambda: f"{screen.crossing_field_loss(2.5e-3, 1e-4, 10e3):.1f} dB",
    "three-to-one": lambda: words.decibels(-db(balance.conversion(1e3, 0, 1e4))),
    "coil": lambda: words.one_figure(pickup.uniform(5e-6, pickup.coil_area(10, 0.30), 50), "V"),
    "dear-cable": lambda: f"{decimal(flat(56e-12) - flat(100e-12), 2)} dB",
    "mic-100": lambda: f"{decimal(length.treble(182.0, 100e-12, 100.0, 20e3), 1)} dB",
    "guitar-6": lambda: f"{decimal(treble(GUITAR, TABLES), 1)} dB",
    "digital-short": lambda: f"{length.long_for(6e6, 0.66):.0f} m",
    "sound-short": lambda: f"{length.long_for(20e3, 0.66):.0f} m",
    "reflection": lambda: f"{100 * length.reflection(75, 110):.0f} %",
    "phone-clear": lambda: words.metres(float(f"{radio.clear_distance(0.2, 1.0, 7):.2g}")),
    "old-phone-clear": lambda: words.metres(float(f"{radio.clear_distance(2.0, 1.0, 7):.2g}")),
    "two-way-clear": lambda: words.metres(float(f"{radio.clear_distance(4.0, 1.0, 7):.2g}")),
    "ferrite": lambda: f"{radio.ferrite_loss(radio.ferrite_turns(170, 3)):.0f}",
    "one-pass": lambda: f"{radio.ferrite_loss(170):.0f}",
    "pigtail": lambda: f"{screen.pigtail_ohm(0.05, 1e8):.0f} Ω",
    "fm-91": lambda: f"{100 * radio.slope_depth(91.44, 75e3, 3, 0.95):.0f} %",
    "fm-3": lambda: f"{100 * radio.slope_depth(3, 75e3, 3, 0.95):.1f} %",
    "halves-88": lambda: f"{radio.quarter_waves(7.62, 88e6, 0.95) / 2:.1f}",
    "halves-108": lambda: f"{radio.quarter_waves(7.62, 108e6, 0.95) / 2:.1f}",
    "drain-share": lambda: words.decibels(db(_drop(THIN) / _drop(BRAID))),
}


def told(name: str) -> str:
    """The number of that name. Raises KeyError for a name that is not there."""
    return NUMBERS[name]()
