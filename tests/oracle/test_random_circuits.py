"""Laws of circuits on random ones, and a batch of them against ngspice."""

from random import Random

import numpy as np
import pytest
from agreement import Case, disagreements
from bench import nominal
from hypothesis import given, settings
from hypothesis import strategies as st
from simulator import needs_ngspice, simulate
from wild import ALL, LINEAR, RESISTIVE, wild_circuit

from generator.engine.constants import CONTACT_OHM
from generator.engine.currents import part_amps, part_signal_amps
from generator.engine.netlist import netlist
from generator.engine.solve import solve_ac, solve_dc

HERTZ = (20.0, 1000.0, 20000.0)
SEED, BATCH = 20261125, 200
# of the largest voltage: what picofarads at 20 Hz beside the 100 S of a contact may lose, see agreement.py
ROUNDING = 1e-5

# V of a source; nothing at all, or what squares of double precision still hold
LEVELS = st.one_of(st.just(0.0), st.floats(1e-9, 10), st.floats(-10, -1e-9))
small_budget = settings(max_examples=60, deadline=None, derandomize=True)
randomness = st.randoms(use_true_random=False)


def contacts(of, rng):
    """One random switch state, as an array of states."""
    return np.array([[rng.random() < 0.5 for _ in of.switches]], dtype=bool).reshape(1, len(of.switches))


def between(found, of, pair):
    return found[..., of.nets[pair[0]]] - found[..., of.nets[pair[1]]]


@small_budget
@given(randomness)
def test_reciprocity(rng):
    """Current into one pair of nodes gives another pair the voltage that the same current
    there gives the first."""
    of = wild_circuit(rng, LINEAR)
    one, other = (
        rng.sample(["0", "n1", "n2", "n3", "n4", "n5"], 2),
        rng.sample(["0", "n1", "n2", "n3", "n4", "n5"], 2),
    )
    found = solve_ac(of, nominal(of), HERTZ, contacts(of, rng), [{tuple(one): 1.0}, {tuple(other): 1.0}])[
        0, :, 0
    ]
    there, back = between(found[:, 0], of, other), between(found[:, 1], of, one)
    assert there == pytest.approx(back, rel=1e-6, abs=ROUNDING * np.abs(found[..., : of.net_count]).max())


@small_budget
@given(randomness, LEVELS, LEVELS)
def test_superposition(rng, one, other):
    """What two sources do together is the sum of what each does alone."""
    of = wild_circuit(
        rng,
        LINEAR,
        ("E1 emf n1 in1 0 V", "R1 resistor in1 0 100 ohm", "E2 emf n2 in2 0 V", "R2 resistor in2 n3 1 kohm"),
    )
    found = solve_ac(
        of, nominal(of), HERTZ, contacts(of, rng), [{"E1": 1.0}, {"E2": 1.0}, {"E1": one, "E2": other}]
    )[0, :, 0]
    assert found[:, 2] == pytest.approx(
        one * found[:, 0] + other * found[:, 1], rel=1e-6, abs=ROUNDING * np.abs(found).max()
    )


@small_budget
@given(randomness)
def test_resistors_never_make_a_voltage_larger(rng):
    """Without windings no node of a resistive circuit leaves the range between the
    ends of its only source."""
    of = wild_circuit(rng, RESISTIVE, ("E1 emf in 0 0 V", "R1 resistor in n5 10 ohm"))
    found = solve_ac(of, nominal(of), HERTZ, contacts(of, rng), [{"E1": 1.0}])[0, :, 0, 0, : of.net_count]
    found = found - found[:, [of.nets["0"]]]
    assert found.real.min() >= -1e-9 and found.real.max() <= 1 + 1e-9 and np.abs(found.imag).max() <= 1e-9


@small_budget
@given(randomness)
def test_a_circuit_gives_no_more_power_than_its_source(rng):
    """Capacitors and windings, coupled or not, hand on in the mean what they take: the source's power all
    ends in resistors and contacts."""
    of = wild_circuit(rng, LINEAR, ("E1 emf in 0 0 V", "R1 resistor in n5 10 ohm"))
    closed = contacts(of, rng)
    found = solve_ac(of, nominal(of), HERTZ, closed, [{"E1": 1.0}])
    amps = [part_signal_amps(of, nominal(of), HERTZ, found, i)[0, :, 0, 0] for i in range(len(of.parts))]
    given_off = -amps[next(i for i, p in enumerate(of.parts) if p.id == "E1")].real
    taken = sum(np.abs(a) ** 2 * p.value.nominal for a, p in zip(amps, of.parts) if p.kind == "resistor")
    for (a, b), shut in zip(of.switches, closed[0]):
        if shut:
            taken = taken + np.abs(found[0, :, 0, 0, a] - found[0, :, 0, 0, b]) ** 2 / CONTACT_OHM
    # W; what is taken is a sum of squares, so the source never takes
    assert given_off == pytest.approx(taken, rel=1e-5, abs=1e-12)


@small_budget
@given(randomness, st.floats(0, 5), st.floats(0, 5))
def test_more_series_resistance_never_raises_a_fault_current(rng, one, other):
    """Whatever is on its ends, sinks and clamps included."""
    small, large = sorted((10**one, 10**other))
    of = wild_circuit(
        rng,
        (*RESISTIVE, "sink", "clamp"),
        ("E1 emf in 0 48 V", "R1 resistor in n1 6.81 kohm", "fault resistor n4 n5 1 ohm"),
    )
    index = next((i for i, p in enumerate(of.parts) if p.id == "fault"))
    values = np.repeat(nominal(of), 2, axis=0)
    values[:, index] = small, large
    through = np.abs(part_amps(solve_dc(of, values, contacts(of, rng)), index))[:, 0]
    assert through[1] <= through[0] * (1 + 1e-6) + 1e-12


@pytest.mark.oracle
@needs_ngspice
def test_random_circuits_agree_with_ngspice():
    rng, cases = Random(SEED), []
    for number in range(BATCH):
        of = wild_circuit(rng, ALL, ("E1 emf in 0 12 V", "R1 resistor in n5 100 ohm"))
        closed, values, drive = contacts(of, rng), nominal(of), {"E1": 1.0, ("n1", "n2"): 1e-3}
        state = tuple(closed[0])
        cases.append(
            Case(f"direct {number}", of, values[0], state, None, (), solve_dc(of, values, closed).unknowns[0])
        )
        cases.append(
            Case(
                f"signal {number}",
                of,
                values[0],
                state,
                drive,
                HERTZ,
                solve_ac(of, values, HERTZ, closed, [drive])[0, :, 0, 0],
            )
        )
    found = simulate(
        [netlist(case.circuit, case.values, case.closed, case.drive, case.hertz) for case in cases]
    )
    wrong = [words for case, analyses in zip(cases, found) for words in disagreements(case, analyses)]
    assert not wrong, "\n".join(wrong[:20])
