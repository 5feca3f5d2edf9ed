"""The solver on circuits small enough to know the answer by heart."""

from math import sqrt

import numpy as np
import pytest
from bench import amps, circuit, direct, nominal, signal, volts

from generator.engine.circuit import CircuitError
from generator.engine.constants import CONTACT_OHM
from generator.engine.solve import closed_array, most_at, part_amps, part_signal_amps, solve_ac, solve_dc


def test_one_resistor():
    one = circuit("E1 emf a 0 10 V", "R1 resistor a 0 1 kohm")
    assert volts(one, "a") == pytest.approx(10)
    assert amps(one, "R1") == pytest.approx(10e-3)
    assert amps(one, "E1") == pytest.approx(-10e-3), "the current runs out of the emf's + end"


def test_open_end_carries_the_full_voltage_and_no_current():
    assert volts(
        circuit("E1 emf a 0 48 V", "R1 resistor a b 6.81 kohm", "R2 resistor a 0 1 Mohm"), "b"
    ) == pytest.approx(48)


def test_short_takes_what_the_resistor_lets_through():
    short = circuit("E1 emf a 0 48 V", "R1 resistor a b 6.81 kohm", switches=[("b", "0")])
    assert amps(short, "R1") == pytest.approx(48 / (6810 + CONTACT_OHM))
    assert volts(short, "b") == pytest.approx(48 * CONTACT_OHM / (6810 + CONTACT_OHM))


def test_two_islands_do_not_disturb_each_other():
    both = circuit("E1 emf a 0 10 V", "R1 resistor a 0 1 kohm", "E2 emf c d 5 V", "R2 resistor c d 1 kohm")
    assert (amps(both, "R1"), amps(both, "R2")) == (pytest.approx(10e-3), pytest.approx(5e-3))


def test_a_floating_island_is_solved_against_one_of_its_own_nets():
    floating = circuit("E1 emf c d 5 V", "R1 resistor c d 1 kohm", anchors=())
    assert volts(floating, "c", "d") == pytest.approx(5)
    assert 0 in [pytest.approx(v, abs=1e-12) for v in direct(floating).unknowns[0, 0, : floating.net_count]]


def test_one_contact_from_an_island_to_ground_carries_nothing():
    tied = circuit(
        "E1 emf a 0 10 V",
        "R1 resistor a 0 1 kohm",
        "E2 emf c d 5 V",
        "R2 resistor c d 1 kohm",
        switches=[("a", "d")],
    )
    assert volts(tied, "c") == pytest.approx(15)
    assert volts(tied, "a", "d") == pytest.approx(0, abs=1e-12)


def test_switch_states_are_solved_side_by_side():
    switched = circuit(
        "E1 emf a 0 10 V",
        "R1 resistor a b 1 kohm",
        "R2 resistor c 0 1 kohm",
        switches=[("b", "c"), ("b", "0")],
    )
    found = direct(switched, (False, False), (True, False), (False, True), (True, True)).volts("b", "0")[0]
    assert found == pytest.approx([10, 5, 0, 0], rel=1e-4, abs=1e-3)


def test_leaks_beside_closed_contacts_are_told_to_the_last_digits():
    # Two diodes that do not conduct leak alike, 1e-12 S: half of 48 V, whatever hangs on their middle by
    # contacts of 100 S and copper.
    cable = [f"R{i} resistor b{i} c{i} 0.07 ohm" for i in range(4)]
    contacts = [("b", "b0"), ("b", "b1"), ("b", "b2"), ("b", "b3"), ("c0", "c1"), ("c1", "c2"), ("c2", "c3")]
    held = circuit(
        "E1 emf a 0 48 V",
        "D1 clamp a b 60 V series 20 ohm",
        "D2 clamp b 0 60 V series 20 ohm",
        *cable,
        switches=contacts,
    )
    assert volts(held, "c3") == pytest.approx(24, rel=1e-10)
    assert volts(held, "b", "c3") == pytest.approx(0, abs=1e-12)


def test_two_emfs_side_by_side_have_no_single_solution():
    with pytest.raises(CircuitError) as refused:
        direct(circuit("E1 emf a 0 10 V", "E2 emf a 0 9 V"))
    assert str(refused.value) == "no single solution: a loop of emfs and windings without resistance"


def test_an_emf_across_a_winding_without_resistance_has_no_single_solution():
    with pytest.raises(CircuitError) as refused:
        direct(circuit("E1 emf a 0 10 V", "L1 inductor a 0 1 H"))
    assert str(refused.value) == "no single solution: a loop of emfs and windings without resistance"


@pytest.mark.parametrize(
    "supply, across, current", [("20 V", 17.0, 3e-3), ("13 V", 10.0, 3e-3), ("6.5 V", 5.0, 1.5e-3)]
)
def test_a_sink_draws_its_current_above_the_knee_and_is_a_resistor_below(supply, across, current):
    fed = circuit(f"E1 emf a 0 {supply}", "R1 resistor a b 1 kohm", "S1 sink b 0 3 mA knee 10 V")
    assert (volts(fed, "b"), amps(fed, "S1")) == (pytest.approx(across), pytest.approx(current))


@pytest.mark.parametrize(
    "supply, across, current", [("4 V", 4.0, 0.0), ("15.2 V", 5.1 + 0.01 * 20, 10e-3), ("-8 V", -8.0, 0.0)]
)
def test_a_clamp_conducts_only_above_its_voltage(supply, across, current):
    clamped = circuit(f"E1 emf a 0 {supply}", "R1 resistor a b 990 ohm", "D1 clamp b 0 5.1 V series 20 ohm")
    assert volts(clamped, "b") == pytest.approx(across)
    assert amps(clamped, "D1") == pytest.approx(current, abs=1e-10)


def test_bends_settle_together():
    both = circuit(
        "E1 emf a 0 48 V",
        "R1 resistor a b 1 kohm",
        "S1 sink b 0 3 mA knee 10 V",
        "D1 clamp b 0 20 V series 100 ohm",
    )
    assert amps(both, "R1") == pytest.approx(amps(both, "S1") + amps(both, "D1"))
    assert amps(both, "S1") == pytest.approx(3e-3)


def test_a_capacitor_is_open_and_an_inductor_a_short_for_direct_current():
    both = circuit(
        "E1 emf a 0 10 V",
        "R1 resistor a b 1 kohm",
        "L1 inductor b c 1 H",
        "C1 capacitor c 0 1 uF",
        "R2 resistor c 0 1 kohm",
    )
    assert volts(both, "c") == volts(both, "b") == pytest.approx(5)


def test_a_winding_shorted_on_itself_carries_no_direct_current():
    shorted = circuit(
        "E1 emf a 0 10 V",
        "R1 resistor a 0 1 kohm",
        "L1 inductor b c 1 H",
        "J1 wire b c",
        "R2 resistor b 0 1 kohm",
    )
    assert (amps(shorted, "L1"), amps(shorted, "R1")) == (0, pytest.approx(10e-3))


def test_a_sink_exactly_on_its_knee_settles():
    """The two regions meet there; rounding must not toss it between them for ever."""
    for ohms in range(100, 3000, 37):
        fed = circuit(
            f"E1 emf a 0 {10 + ohms * 3e-3} V", f"R1 resistor a b {ohms} ohm", "S1 sink b 0 3 mA knee 10 V"
        )
        assert volts(fed, "b") == pytest.approx(10, rel=1e-8)


def test_signal_through_a_capacitor_at_its_corner():
    low_pass = circuit("E1 emf a 0 0 V", "R1 resistor a b 1 kohm", "C1 capacitor b 0 159.154943 nF")
    found = signal(low_pass, {"E1": 1.0}, "b", hertz=1000.0)
    assert abs(found) == pytest.approx(1 / sqrt(2)) and found.imag / found.real == pytest.approx(-1)


def test_a_transformer_steps_down_by_the_root_of_its_inductances():
    """10 : 1 turns, loaded; dots at each winding's first node."""
    wound = circuit(
        "E1 emf a 0 0 V",
        "L1 inductor a 0 100 H",
        "L2 inductor b c 1 H",
        "R1 resistor b c 1 kohm",
        couplings=[("L1", "L2", 0.999999)],
    )
    assert signal(wound, {"E1": 1.0}, "b", "c") == pytest.approx(0.1, rel=1e-4)


def test_supplies_and_sinks_are_silent_for_signal():
    quiet = circuit(
        "E1 emf rail 0 48 V",
        "R1 resistor rail a 1 kohm",
        "R2 resistor a 0 1 kohm",
        "S1 sink a 0 3 mA knee 10 V",
    )
    assert signal(quiet, {}, "a") == 0
    assert signal(quiet, {"S1": 1e-3}, "a") == pytest.approx(-0.5), "a sink that draws more lowers its node"
    assert signal(quiet, {("0", "a"): 1e-3}, "a") == pytest.approx(0.5)


def test_stacks_of_values_and_drives_keep_their_order():
    two = circuit("E1 emf a 0 1 V", "E2 emf c 0 0 V", "R1 resistor a b 1 kohm", "R2 resistor c b 1 kohm")
    values = np.array([[1.0, 0.0, 1e3, 1e3], [1.0, 2.0, 1e3, 3e3]])
    assert solve_dc(two, values, closed_array([()], 0)).volts("b", "0")[:, 0] == pytest.approx([0.5, 1.25])
    found = solve_ac(two, values, [20.0, 1000.0], closed_array([()], 0), [{"E1": 1.0}, {"E2": 1.0}])
    assert found.shape == (2, 2, 1, 2, two.size)
    assert found[:, 0, 0, :, two.nets["b"]] == pytest.approx(np.array([[0.5, 0.5], [0.75, 0.25]]))


def test_where_nothing_drives_there_is_nothing_to_find():
    quiet = circuit("E1 emf a 0 1 V", "R1 resistor a b 1 kohm")
    assert solve_ac(quiet, np.array([[1.0, 1e3]]), [20.0, 1000.0], closed_array([()], 0), []).shape == (
        1,
        2,
        1,
        0,
        quiet.size,
    )


def test_currents_of_parts_agree_with_the_emfs_branch():
    ladder = circuit("E1 emf a 0 0 V", "R1 resistor a b 1 kohm", "C1 capacitor b 0 1 uF")
    found = solve_ac(ladder, nominal(ladder), [50.0], closed_array([()], 0), [{"E1": 1.0}])
    through = [part_signal_amps(ladder, nominal(ladder), [50.0], found, i)[0, 0, 0, 0] for i in range(3)]
    assert through[1] == pytest.approx(-through[0]) and through[2] == pytest.approx(through[1])
    assert part_amps(direct(ladder), 2)[0, 0] == 0


@pytest.mark.parametrize(
    "values, at",
    [
        ([1.0, 3.0, 2.0], (1,)),
        ([3.0 - 3e-12, 3.0], (0,)),
        ([3.0 - 3e-7, 3.0], (0,)),
        ([3.0 - 3e-5, 3.0], (1,)),
        ([-3.0, -3.0 + 3e-12], (0,)),
        ([0.0, -1.0], (0,)),
        ([1.0, np.inf], (1,)),
        ([[1.0, 2.0], [2.0 + 2e-12, 0.0]], (0, 1)),
    ],
)
def test_of_numbers_alike_but_for_rounding_the_first_is_the_largest(values, at):
    assert most_at(np.array(values)) == at


def test_what_solves_no_equation_is_refused():
    """Ohms that are no number leave volts that are none: an answer is held against every
    equation before it is given."""
    one = circuit("E1 emf a 0 10 V", "R1 resistor a b 1 kohm", "R2 resistor b 0 1 kohm")
    with pytest.raises(CircuitError) as refused:
        solve_dc(one, np.array([[10.0, np.nan, 1e3]]), closed_array([()], 0))
    assert str(refused.value) == "no single solution: the currents of a net do not sum to zero"
