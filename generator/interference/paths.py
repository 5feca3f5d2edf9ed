"""Every way in, as volts at the input: the same few formulas at each harmonic. Numbers in, lines of (hertz,
volts) out.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from math import hypot

from .formulas import balance, chassis, electric, screen
from .formulas.basics import parallel, together
from .nearby import Induced
from .numbers import Numbers

PATHS = ("chassis", "induced", "loop", "coil", "electric", "drain", "contact-one")
Spectra = Mapping[str, Sequence[float]]
Lines = dict[float, float]


def paths(n: Numbers, spectra: Spectra, hertz: float) -> dict[str, Lines]:
    """Path -> frequency -> volts at the input. A path that is not there has no lines."""
    found = {name: {} for name in PATHS}
    between = n.chassis
    for f, volts in _harmonics(spectra, between.shape, between.hertz, between.volts, 0):
        found["chassis"][f] = volts * through(n, f)
        amps = volts * screen_amps(n, f)
        if n.nearness:
            found["drain"][f] = screen.drain_wire(amps, n.nearness, 1.0, f) * n.divider
        if n.contact_one:
            found["contact-one"][f] = screen.contact_one(amps, n.contact_one)
    _induced(found["induced"], n.induced, spectra, hertz, lambda f: n.divider)
    _induced(found["loop"], n.loop, spectra, hertz, lambda f: through(n, f))
    _induced(found["coil"], n.coil, spectra, hertz, lambda f: through(n, f))
    for one in n.electric:
        for f, volts in _harmonics(spectra, one.shape, hertz, one.volts, 0):
            amps = electric.current(volts, one.farad, f)
            made = electric.on_circuit(amps, volts, one.farad, n.electric_ohm, n.own_farad, f) * n.uneven
            found["electric"][f] = hypot(found["electric"].get(f, 0.0), made)
    return {name: {f: volts for f, volts in lines.items() if volts > 0} for name, lines in found.items()}


def through(n: Numbers, f: float) -> float:
    """Volts at the input for each volt between the two cases, at frequency f."""
    between = n.chassis
    if n.transformer:
        farad = _series(n.transformer, between.farad)
        return n.source_ohm / hypot(between.ohm + n.source_ohm, chassis.capacitor_ohm(farad, f)) * n.divider
    share = conversion(n, f) if n.balanced else n.divider
    if n.closed:
        return (
            chassis.screen_drop(1.0, between.ohm, between.farad, n.loop_henry, n.screen_ohm, n.bond, f)
            * share
        )
    if n.bond:  # a wire between the cases stands in for the screen that is open
        return chassis.screen_drop(1.0, between.ohm, between.farad, 0.0, n.bond, 0.0, f) * share
    if n.balanced:
        common, capacitive = balance.leg_ohm(n.common, n.common_farad, f), not n.common
        legs = (balance.in_series(ohm, common, capacitive) for ohm in (n.leg, n.leg + n.imbalance))
        across = parallel(*legs)
        return chassis.open_screen(1.0, between.ohm, between.farad, across, f, capacitive) * share
    across = n.source_ohm + n.input_ohm
    return chassis.open_screen(1.0, between.ohm, between.farad, across, f) * n.divider


def conversion(n: Numbers, f: float) -> float:
    """Share of a common-mode voltage that a balanced input hears."""
    common = balance.leg_ohm(n.common, n.common_farad, f)
    by_source = balance.conversion(n.imbalance, n.leg, common, not n.common)
    return balance.total((by_source, n.rejection), n.worst)


def screen_amps(n: Numbers, f: float) -> float:
    """Amps in the screen for each volt between the cases."""
    if not n.closed or n.transformer:
        return 0.0
    between = n.chassis
    if n.bond:
        both = parallel(n.screen_ohm, n.bond)
        whole = chassis.screen_current(1.0, between.ohm, between.farad, 0.0, both, f)
        return whole * n.bond / (n.bond + n.screen_ohm)
    return chassis.screen_current(1.0, between.ohm, between.farad, n.loop_henry, n.screen_ohm, f)


def _series(one: float, other: float) -> float:
    """Two capacitors in a row; 0 for one that is not there."""
    return one * other / (one + other) if other else one


def _induced(
    lines: Lines, emfs: Sequence[Induced], spectra: Spectra, hertz: float, share: Callable[[float], float]
) -> None:
    for shape in dict.fromkeys(emf.shape for emf in emfs):
        volts = together(emf.volts for emf in emfs if emf.shape == shape)
        for f, made in _harmonics(spectra, shape, hertz, volts, 1) if volts else ():
            lines[f] = hypot(lines.get(f, 0.0), made * share(f))


def _harmonics(spectra: Spectra, shape: str, hertz: float, volts: float, order: int):
    """Frequency and volts of the odd harmonics of a shape; `order` 1 for what grows with frequency."""
    for i, h in enumerate(spectra[shape]):
        yield (2 * i + 1) * hertz, volts * h * (2 * i + 1) ** order
