"""What hangs between capacitors: the volts two of them in series share, by hand. Derived: in series each
takes up the same charge, so U1 / U2 = C2 / C1."""

from math import isclose

import numpy as np
import pytest
from bench import circuit, direct

from generator.engine import judge
from generator.engine.hanging import shared
from generator.engine.solve import closed_array

PHANTOM = ("supply emf rail 0 48 V", "feed resistor rail leg 6.81 kohm")


def volts(*lines, switches=(), closed=None):
    """Node -> volts over 0 with the charge shared; None where nothing hangs."""
    of = circuit(*PHANTOM, *lines, switches=switches)
    state = [True] * len(switches) if closed is None else closed
    found = shared(direct(of, state), closed_array([state], len(switches)))
    return found and (lambda node: float(found.volts(node, "0")[0, 0]))


def test_the_larger_of_two_in_series_stands_less():
    """47 uF of a blocker before 22 uF of an input, 48 V over both: 48 * 47 / 69 on the input's."""
    at = volts(
        "block capacitor leg between 47 uF", "input capacitor between in 22 uF", "load resistor in 0 10 kohm"
    )
    assert at("leg") == pytest.approx(48) and at("in") == pytest.approx(0, abs=1e-9)
    assert at("between") == pytest.approx(48 * 47 / 69)


def test_three_in_series():
    at = volts("one capacitor leg x 10 uF", "two capacitor x y 20 uF", "three capacitor y 0 40 uF")
    charge = 48 / (1 / 10 + 1 / 20 + 1 / 40)
    assert at("x") == pytest.approx(48 - charge / 10) and at("y") == pytest.approx(charge / 40)


def test_what_hangs_moves_as_one_piece():
    """Two legs bridged by a resistor: 47 uF of each leg, one at 48 V and one at 0, and 22 uF to 0 behind."""
    at = volts(
        "hot capacitor leg x 47 uF",
        "across resistor x y 150 ohm",
        "cold capacitor y 0 47 uF",
        "input capacitor x 0 22 uF",
    )
    assert at("x") == at("y") == pytest.approx(48 * 47 / (47 + 47 + 22))


def test_a_net_that_anything_ties_is_where_that_has_it():
    assert (
        volts(
            "block capacitor leg between 47 uF",
            "bleed resistor between 0 100 kohm",
            "input capacitor between 0 22 uF",
        )
        is None
    )


def test_a_single_capacitor_takes_up_no_charge():
    assert volts("block capacitor leg between 47 uF", "lead resistor between far 1 ohm") is None


def test_the_capacitance_of_a_cable_is_no_partner():
    assert volts("block capacitor leg between 47 uF", "cable capacitor between 0 300 pF") is None


def test_a_contact_that_ties_it_is_looked_at_in_every_state():
    parts = (
        "block capacitor leg between 47 uF",
        "input capacitor between 0 47 uF",
        "bleed resistor shunt 0 100 kohm",
    )
    assert volts(*parts, switches=[("between", "shunt")], closed=[True]) is None
    assert volts(*parts, switches=[("between", "shunt")], closed=[False])("between") == pytest.approx(24)


def test_pieces_that_reach_each_other_alone_stay_together():
    """Two islands joined by two capacitors, and by nothing to anything else: no charge anywhere."""
    at = volts(
        "a capacitor x y 10 uF",
        "b capacitor x2 y 10 uF",
        "r resistor x x2 1 kohm",
        "block capacitor leg z 1 uF",
        "more capacitor z 0 1 uF",
    )
    assert at("x") == at("y") == 0 and at("z") == pytest.approx(24)


def test_every_drive_moves_by_its_own_volts():
    of = circuit(*PHANTOM, "block capacitor leg between 1 uF", "input capacitor between 0 3 uF")
    plain = direct(of)
    twice = type(plain)(of, np.concatenate([plain.unknowns, 2 * plain.unknowns]), plain.bent, plain.values)
    found = shared(twice, closed_array([[]], 0)).volts("between", "0")[:, 0]
    assert found == pytest.approx([12, 24])


def test_what_hangs_in_the_air_has_taken_up_no_charge(catalogue):
    """A pad with blocking capacitors sits on a live party line, its other end open: the line's own capacitor
    has filled through the pad, the blocking ones could not. The station plugged in then gets, by hand, 29.8 V
    behind 832 and 880 ohm in parallel into its 10 kohm."""
    found = judge(
        catalogue,
        "party-line-supply-xlr",
        ("xlr-f-to-xlr-m-pad-20-db-phantom-block",),
        "party-line-station-xlr",
    )
    assert found.verdict == "dangerous"
    [struck] = [finding for finding in found.findings if finding.id == "over-volts"]
    parallel = 1 / (1 / 832 + 1 / 880)
    assert struck.subject == "into/main.input"
    assert isclose(struck.value, 29.8 * 10e3 / (10e3 + parallel), rel_tol=2e-3)
