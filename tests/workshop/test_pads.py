"""Attenuators against published tables. Sources: the attenuator calculator (formulas), the resistor table
at 50 ohm, the amplifier book's T at 50 ohm, a worked pi at 600 ohm, a forum's table of shunts, a published
O-pad, the lists of preferred values, and an amplifier's data sheet for the phantom-powered microphone
circuit. What no page prints is worked out by hand."""

from itertools import pairwise
from math import inf, log10

import pytest

from generator.workshop import blockers
from generator.workshop.attenuation import (
    balance_kept,
    bridged_t,
    done,
    least_loss,
    matched_pi,
    matched_t,
    noise,
    parallel,
)
from generator.workshop.pads import designed, leg_watts, made, phantom_left
from generator.workshop.preferred import E24, E96, nearest
from generator.workshop.safety import Misuse


def close(*numbers, to=3):
    return pytest.approx(numbers, rel=0.5 * 10 ** -(to - 1))


def test_one_decibel_at_50_ohm_as_printed():
    """2.9 / 433, 870 / 5.8, 6.1 / 410."""
    assert matched_t(1, 50, 50)[:2] == close(2.88, 433.3)
    assert matched_pi(1, 50, 50)[:2] == close(869.5, 5.77)
    assert bridged_t(1, 50) == close(6.10, 409.8)


def test_t_at_50_ohm_as_printed():
    assert matched_t(10, 50, 50)[:2] == pytest.approx((25.97, 35.14), abs=0.01)
    assert [matched_t(loss, 50, 50)[0] for loss in (2, 3, 4)] == pytest.approx([5.73, 8.55, 11.31], abs=0.005)


def test_pi_at_600_ohm_as_printed():
    assert matched_pi(15, 600, 600) == pytest.approx((859.54, 1633.67, 859.54), abs=0.02)


@pytest.mark.parametrize(
    "loss, series, shunt, half_series, o_shunt, o_half",
    [
        (3, 102.6, 1703, 51.3, 3509, 105.7),
        (6, 199.4, 803.2, 99.7, 1806, 224.1),
        (10, 311.7, 421.6, 155.8, 1155, 426.9),
        (20, 490.9, 121.2, 245.5, 733.3, 1485),
        (30, 563.2, 38.0, 281.6, 639.2, 4739),
        (40, 588.1, 12.0, 294.1, 612.1, 14999),
    ],
)
def test_the_table_at_600_ohm(loss, series, shunt, half_series, o_shunt, o_half):
    one, across, other = matched_t(loss, 600, 600)
    assert one == pytest.approx(other) and (one, across, one / 2) == pytest.approx(
        (series, shunt, half_series), abs=0.06, rel=3e-4
    )
    shunt_o, through, _ = matched_pi(loss, 600, 600)
    assert (shunt_o, through / 2) == pytest.approx((o_shunt, o_half), rel=5e-4)


@pytest.mark.parametrize("ohms, printed", [(101, 40), (127, 38), (204, 34), (327, 30), (415, 28)])
def test_shunts_behind_10_kilohm_as_printed(ohms, printed):
    assert done([("series", 1e4), ("shunt", ohms)], 1e-9, 1e12).loss == pytest.approx(printed, abs=0.04)


@pytest.mark.parametrize(
    "leg, across, unloaded, inserted, source_sees, load_sees",
    [
        (150, 150, 9.54, 11.84, 436, 113),
        (330, 150, 14.65, 16.00, 796, 127),
        (680, 150, 20.06, 20.81, 1496, 136),
        (1000, 150, 23.13, 23.66, 2136, 140),
        (2400, 150, 30.37, 30.61, 4936, 146),
        (7500, 150, 40.09, 40.16, 15136, 149),
    ],
)
def test_u_pads_between_150_and_1500_ohm(leg, across, unloaded, inserted, source_sees, load_sees):
    """20 log of {[Rp || ZL / (Zs + 2 Rs + Rp || ZL)] / [ZL / (Zs + ZL)]}; 680 / 150 is the published '20
    dB'."""
    does = made("U", {"leg": leg, "across": across}, 150, 1500).does
    assert (does.unloaded, does.loss) == pytest.approx((unloaded, inserted), abs=0.006)
    assert (does.source_sees, does.load_sees) == pytest.approx((source_sees, load_sees), abs=0.6)


def test_the_published_o_pad():
    """2 x 3.6 k and 200 ohm with an input of 2 k wanted: Za Zw / (Za - Zw) is 2.74 k."""
    assert parallel(2740, 7400) == pytest.approx(2000, abs=0.5)
    assert 7400 * 2000 / (7400 - 2000) == pytest.approx(2741, abs=0.5)
    assert made(
        "O", {"across the source": 2740, "leg": 3600, "across the load": 200}, 150, 1e12
    ).does.source_sees == pytest.approx(2000, rel=1e-3)


def test_preferred_values():
    """Eight of the 24 differ from the rounded formula; half a step is 7.42 % at most
    in E24, 1.49 % in E96."""
    assert [value for i, value in enumerate(E24) if value != round(10 ** (i / 24), 1)] == [
        2.7,
        3.0,
        3.3,
        3.6,
        3.9,
        4.3,
        4.7,
        8.2,
    ]
    for series, worst in ((E24, 0.0742), (E96, 0.0149)):
        assert max((b / a) ** 0.5 - 1 for a, b in pairwise((*series, 10.0))) == pytest.approx(worst, abs=5e-5)


def test_an_h_pad_in_preferred_values():
    assert (nearest(245.5), nearest(245.5, "E96"), nearest(121.2), nearest(121.2, "E96")) == (
        240,
        243,
        120,
        121,
    )
    pad = designed(20, 600, 600, "H")
    assert pad.resistors == {"source leg": 240, "across": 120, "load leg": 240}
    assert pad.does.loss == pytest.approx(20, abs=0.5) and pad.does.source_sees == pytest.approx(
        600, rel=0.05
    )


@pytest.mark.parametrize("share, kept", [(0.05, 43.3), (0.01, 57.3), (0.001, 77.3)])
def test_balance_kept_by_legs_that_differ(share, kept):
    assert balance_kept(680, share) == pytest.approx(kept, abs=0.06)


def test_a_bad_joint_and_what_it_leaves():
    """40, 100 and 10 ohm in one leg, 10 kohm common mode: 48, 40 and 60 dB."""
    for ohms, kept in ((40, 47.96), (100, 40.0), (10, 60.0)):
        assert balance_kept(ohms / 2, 1) == pytest.approx(kept, abs=0.01)


def test_noise_of_a_pad():
    """4kTRB at 290 K, 20 kHz: 150 ohm -130.96 dBu, 136.4 ohm -131.38; the pad costs 20.47 dB of signal to
    noise."""
    assert (noise(150), noise(136.4)) == pytest.approx((-130.96, -131.38), abs=0.006)
    assert made("U", {"leg": 680, "across": 150}, 150, 1500).does.noise_cost == pytest.approx(20.47, abs=0.01)


@pytest.mark.parametrize("milliamps, volts", [(1, 44.26), (3, 36.77), (5, 29.28), (10, 10.55)])
def test_phantom_through_680_ohm_a_leg(milliamps, volts):
    assert phantom_left(680, milliamps * 1e-3) == pytest.approx(volts, abs=0.01)


def test_what_a_leg_takes():
    """Half of 5 mA in 680 ohm is 4.25 mW; with a leg shorted behind the pad 27.9 mW."""
    assert leg_watts(680, 5e-3) == pytest.approx((4.25e-3, 27.9e-3), rel=3e-3)


@pytest.mark.parametrize(
    "farad, ohms, hertz", [(22e-6, 4400, 3.29), (22e-6, 1650, 8.77), (47e-6, 1650, 4.10), (10e-6, 1650, 19.3)]
)
def test_corners_of_blockers(farad, ohms, hertz):
    """The first from a data sheet's circuit: 22 uF each into 4.4 kohm, 3.3 Hz."""
    assert blockers.corner(ohms, farad) == pytest.approx(hertz, rel=2e-3)


def test_a_blocker_is_designed_to_its_corner():
    data = blockers.designed(10, 1650)
    assert data["farad"] == 22e-6 and data["corner"] == 8.77 and data["volts"] == 63


def test_turns_of_boxes():
    """50 kohm : 100 ohm is 22.4 to 1 in turns, not 500; 10, 12 and 20 to 1 cost 20.0, 21.6 and 26.0 dB."""
    assert (blockers.turns(50e3, 100), blockers.turns(50e3, 200)) == pytest.approx((22.4, 15.8), abs=0.05)
    assert [round(blockers.lost_by_turns(n), 1) for n in (10, 12, 20)] == [20.0, 21.6, 26.0]
    assert [n * n * 1.5 for n in (10, 12, 20)] == [150, 216, 600], "kohm from 1.5 kohm"


@pytest.mark.parametrize("form", ["U", "L", "O", "H"])
@pytest.mark.parametrize("loss", [20, 26, 30, 40])
@pytest.mark.parametrize("source, load", [(150, 1500), (200, 2000), (600, 600), (50, 1000)])
def test_a_designed_pad_does_what_was_asked(form, loss, source, load):
    """Within 0.9 dB with E24, ends about as they were; worked out here by nodes, not by the ladder of the
    design."""
    pad = designed(loss, source, load, form)
    assert all(nearest(ohms) == ohms for ohms in pad.resistors.values())
    assert by_nodes(pad.ladder, source, load) == pytest.approx(pad.does.loss, abs=1e-6)
    assert pad.does.loss == pytest.approx(loss, abs=1.3 if form == "H" else 0.9)
    assert 0.6 < pad.does.load_sees / source < 2.2 or form == "H"


def by_nodes(ladder, source, load):
    """The loss from nodal equations of the resistors themselves."""
    import numpy as np

    size = sum(way == "series" for way, _ in ladder) + 1
    g, right, node = np.zeros((size, size)), np.zeros(size), 0
    g[0, 0] += 1 / source
    right[0] = 1 / source
    for way, ohms in ladder:
        if way == "shunt":
            g[node, node] += 1 / ohms
        else:
            g[node : node + 2, node : node + 2] += np.array([[1, -1], [-1, 1]]) / ohms
            node += 1
    g[node, node] += 1 / load
    return -20 * log10(np.linalg.solve(g, right)[node] * (source + load) / load)


@pytest.mark.parametrize(
    "asked, complaint",
    [
        ((20, 200, 2000, "Z"), "'Z' is not a form of pad; there are U, H, L, O."),
        ((0.2, 200, 2000, "U"), "a loss of 0.2 dB is not built as one pad; ask for 1 to 80 dB."),
        ((10, 200, 2000, "H"), "a matched pad from 200 Ω to 2 kΩ loses at least 11.0 dB, not 10 dB."),
        ((20, 200, 2000, "U", "E24", True), "a U-pad is a divider and cannot be matched; ask for H or O."),
        (
            (10, 150, 1500, "O"),
            "a loss of 10 dB is too little for an O-pad between 150 Ω and 1.5 kΩ. Build a U-pad.",
        ),
    ],
)
def test_what_cannot_be_built_is_refused(asked, complaint):
    with pytest.raises(Misuse) as found:
        designed(*asked)
    assert str(found.value) == complaint


def test_the_least_loss_of_a_match():
    """The published minimum-loss pad from 600 to 150 ohm: 11.44 dB."""
    assert least_loss(600, 150) == pytest.approx(11.44, abs=0.01)
    assert min(matched_t(11.44, 600, 150)) == pytest.approx(0, abs=0.2)
