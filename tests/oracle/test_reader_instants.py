"""The first instant, by the independent reader: numbers worked out beside each check."""

from __future__ import annotations

from math import exp

import numpy as np
import pytest
from by_hand import device, plugged, rated
from corners import NOMINAL, supply_volts
from instants import BRIEF, STEP, march, strike
from meters import Worst
from settings import modes
from shown import P48, SHORT, shown
from states import HOME
from sums import boil, settle


def struck(wired) -> list:
    """The hits of the first instants alone, nominal."""
    worst, sums, asked = Worst(wired), boil(wired, NOMINAL, np.arange(len(wired.closed))), modes(wired)
    volts = next(supply_volts(wired, NOMINAL))[1]
    charges = []
    for on, gone in zip(asked.on, asked.gone):
        charges.append(sums.over(settle(sums, (volts * on)[None], gone)[0], wired.large))
    strike(wired, asked, NOMINAL, volts, np.array(charges), worst)
    return list(worst.found.values())


def test_a_charged_capacitor_into_10_ohm(catalogue):
    """48 V behind 10 ohm: 4.8 A, less what two contacts, the bond and the capacitor take (31 mohm)."""
    inlet = device(
        catalogue,
        *P48[:2],
        "couple capacitor hot in 47 uF",
        "bond resistor in chassis 1 mohm",
        supplies=["phantom"],
    )
    outlet = device(catalogue, "load resistor a c 10 ohm", limits=[rated("load", "amps", "load", 1.0)])
    hits = struck(plugged(outlet, inlet, "a-hot c-chassis"))
    assert max(hit.value for hit in hits) == pytest.approx(48 / 10.031, rel=1e-3)


def phantom_input(catalogue, limit):
    """The P48 input of the catalogue as it would be without diodes."""
    behind = [f"couple-{leg} capacitor {leg} in-{leg} 47 uF" for leg in ("hot", "cold")]
    behind += [f"to-earth-{leg} resistor in-{leg} chassis 10 kohm" for leg in ("hot", "cold")]
    load = "load resistor in-hot in-cold 3 kohm"
    return device(catalogue, *P48, *behind, load, supplies=["phantom"], limits=[limit])


@pytest.mark.parametrize("seconds, states", [(28.0, set()), (25.0, {"for seconds"}), (25.3, set())])
def test_switching_phantom_on_lifts_the_input_stage(catalogue, seconds, states):
    """48 V x 10 / 16.81 = 28.55 V at first, falling with 47 uF x 16.81 kohm = 0.79 s: above 25 V for 105
    ms, above 25.3 V for 95 ms. For a moment it stands 50 V here, so that the march decides."""
    limit = rated("input", "volts", "in-hot chassis", 10.0, momentary=50.0, seconds=seconds)
    coil = device(catalogue, "coil resistor a b 200 ohm")
    wired = plugged(coil, phantom_input(catalogue, limit), "a-hot b-cold")
    assert {hit.state for hit in struck(wired)} == states


def test_the_size_of_that_lift(catalogue):
    limit = rated("input", "volts", "in-hot chassis", 25.0)
    coil = device(catalogue, "coil resistor a b 200 ohm")
    wired = plugged(coil, phantom_input(catalogue, limit), "a-hot b-cold")
    assert max(hit.value for hit in struck(wired)) == pytest.approx(48 * 10 / 16.81, rel=2e-3)


def test_a_leg_shorted_pulls_the_input_stage_below(catalogue):
    """The capacitor held 48 V unplugged; a lead that grounds the leg holds 48 V against the stage, though
    settled there is nothing."""
    limit = rated("input", "volts", "in-hot chassis", 25.0)
    wired = plugged(device(catalogue, SHORT), phantom_input(catalogue, limit), "a-hot c-chassis")
    [value] = [hit.value for hit in struck(wired) if hit.state == "first instant, home"]
    assert value == pytest.approx(48.0, rel=2e-3)
    assert shown(wired, "input") < 0.01


def test_the_march_follows_the_exponential(catalogue):
    """10 uF behind 10 kohm, from 48 V: 48 x exp(-1) after a tenth of a second, within the percent of its
    steps."""
    outlet = device(catalogue, "load resistor a c 10 kohm", limits=[rated("load", "volts", "a c", 100.0)])
    wired = plugged(outlet, device(catalogue, "couple capacitor hot chassis 10 uF"), "a-hot c-chassis")
    sums = boil(wired, NOMINAL, np.flatnonzero(wired.kinds == HOME), np.array([STEP / 10e-6]))
    least = march(sums, np.zeros((1, 0)), np.zeros(0, dtype=bool), np.full((1, 1, 1), 48.0))
    assert BRIEF == 0.1 and least.max() == pytest.approx(48 * exp(-1), rel=0.012)


@pytest.mark.parametrize("microfarads, states", [(4.7, set()), (47, {"for seconds"})])
def test_what_falls_within_a_tenth_of_a_second_counts_as_a_moment(catalogue, microfarads, states):
    """20 V on a part for 44 V momentarily and 10 V for seconds: through 10 kohm 4.7 uF take 33 ms to let
    half of it through, 47 uF take 326 ms."""
    outlet = device(
        catalogue,
        f"couple capacitor a in {microfarads} uF",
        "load resistor in c 10 kohm",
        limits=[rated("in", "volts", "in c", 1.0, momentary=44.0, seconds=10.0)],
    )
    inlet = device(
        catalogue, "rail emf rail chassis 20 V by feed", "feed resistor rail hot 10 ohm", supplies=["feed"]
    )
    assert {hit.state for hit in struck(plugged(outlet, inlet, "a-hot c-chassis"))} == states
