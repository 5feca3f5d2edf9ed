"""Closed formulas of runs against circuits: two hundred random runs solved by the engine and by
ngspice, with coupled inductors.
"""

import sys
from dataclasses import replace
from pathlib import Path
from random import Random

import numpy as np
import pytest
from bench import nominal
from lumped import in_the_core, live_wire, run
from simulator import needs_ngspice, simulate

from generator import interference
from generator.engine.netlist import netlist
from generator.engine.solve import closed_array, solve_ac
from generator.interference.formulas import chassis, electric, screen
from generator.interference.numbers import LOUD, QUIET, numbers
from generator.interference.paths import screen_amps, through

sys.path.insert(0, str(Path(__file__).parents[1] / "interference"))
from random_runs import random_run

SEED, MANY, KINDS = 20261128, 200, 8
HERTZ = (50.0, 150.0, 1000.0, 5000.0)
NEAR = 0.04  # of the volts at the input; a third of a decibel, far inside what the numbers are worth


@pytest.fixture(scope="module")
def lumped():
    """(numbers, length) of random runs the formulas are for: as many of each kind, see `kind`."""
    rng, tables, found = Random(SEED), interference.tables(), {}
    while sum(map(len, found.values())) < MANY:
        one = random_run(rng, tables)
        n = numbers(one, tables, rng.randint(QUIET, LOUD))
        n = replace(n, rejection=0.0, worst=False, transformer=0.0)
        if n.in_range and len(found.setdefault(kind(n), [])) < MANY / KINDS:
            found[kind(n)].append((n, one.length))
    return [one for many in found.values() for one in many]


def kind(n):
    """Balanced or not, screen joined or open, floating or not."""
    return n.balanced, n.closed, n.chassis.floating


def slow(n, f) -> bool:
    """A bond is told without the inductance of the loop."""
    return not n.bond or 2 * np.pi * f * n.loop_henry < 0.1 * (n.screen_ohm + n.bond)


def solved(one, f):
    """Volts the input hears, by the engine."""
    of = one.circuit
    found = solve_ac(of, nominal(of), [f], closed_array([()], 0), [one.drive])[0, 0, 0, 0]
    return abs(found[of.nets[one.hears[0]]] - found[of.nets[one.hears[1]]])


def cases(lumped):
    """(words, circuit, frequency, volts by formula) of everything a formula says."""
    for number, (n, length) in enumerate(lumped):
        even = replace(n, nearness=0.0)
        for f in HERTZ:
            if slow(n, f) and (not n.balanced or n.imbalance):
                yield f"{number} difference {f}", run(even, length), f, through(even, f)
            if slow(n, f) and n.balanced and n.closed and n.nearness and n.common:
                uneven = replace(n, imbalance=0.0)
                drain = screen.drain_wire(screen_amps(n, f), n.nearness, 1.0, f)
                yield f"{number} drain {f}", run(uneven, length), f, drain
            for one in n.electric:
                amps = electric.current(one.volts, one.farad, f)
                made = electric.on_circuit(amps, one.volts, one.farad, n.electric_ohm, n.own_farad, f)
                yield f"{number} live wire {f}", live_wire(n, one), f, made
            if n.induced:
                yield f"{number} induced {f}", in_the_core(n, 1e-3), f, 1e-3 * n.divider


def test_the_runs_are_of_every_kind(lumped):
    """What is compared holds balanced and unbalanced, open and joined, floating and earthed, bonded
    and live-wired ones.
    """
    assert len({kind(n) for n, _ in lumped}) == KINDS and len(lumped) == MANY
    assert sum(bool(n.bond) for n, _ in lumped) >= 10 and sum(bool(n.electric) for n, _ in lumped) >= 20
    names = [words.split(" ", 1)[1].rsplit(" ", 1)[0] for words, *_ in cases(lumped)]
    assert {name: names.count(name) > 60 for name in set(names)} == dict.fromkeys(
        ("difference", "drain", "live wire", "induced"), True
    )


def test_formulas_agree_with_the_engine(lumped):
    wrong = []
    for words, one, f, formula in cases(lumped):
        found = solved(one, f)
        if found != pytest.approx(formula, rel=NEAR, abs=1e-18):
            wrong.append(f"{words}: formula {formula:.4g} V, circuit {found:.4g} V")
    assert not wrong, f"{len(wrong)} of them\n" + "\n".join(wrong[:30])


@pytest.mark.oracle
@needs_ngspice
def test_formulas_agree_with_ngspice(lumped):
    every = list(cases(lumped))
    texts = [netlist(one.circuit, nominal(one.circuit)[0], (), one.drive, [f]) for _, one, f, _ in every]
    wrong = []
    for (words, one, _, formula), [found] in zip(every, simulate(texts)):
        a, b = (one.circuit.nets[node] for node in one.hears)
        volts = abs(found[f"n{a}"] - found[f"n{b}"])
        if volts != pytest.approx(formula, rel=NEAR, abs=1e-15):
            wrong.append(f"{words}: formula {formula:.4g} V, ngspice {volts:.4g} V")
    assert not wrong, f"{len(wrong)} of them\n" + "\n".join(wrong[:30])


def test_a_circuit_out_of_range_is_told_from_one_within():
    """A headphone of 32 ohm on a long thin lead: the way through the headphone carries some of the
    screen's current.
    """
    n = replace(_headphones(), rejection=0.0)
    assert not n.in_range
    assert solved(run(n, 100.0), 50.0) != pytest.approx(through(n, 50.0), rel=NEAR)
    assert chassis.divider(n.source_ohm, n.input_ohm) < 1


def _headphones():
    tables = interference.tables()
    one = random_run(Random(1), tables)
    lead = replace(one.leads[0], cable="headphone-lead", length=100.0, screen="whole", cold="through")
    one = replace(
        one,
        leads=(lead,),
        bond=0.0,
        measured_volts=0.0,
        measured_amps=0.0,
        sockets="other circuit",
        transformer=False,
    )
    one = replace(
        one,
        source=replace(one.source, device="headphone-output", powered="earthed"),
        beside=(),
        things=(),
        spare=None,
    )
    one = replace(one, input=replace(one.input, device="line-input-unbalanced", powered="earthed"))
    return replace(numbers(one, tables, 1), input_ohm=32.0)
