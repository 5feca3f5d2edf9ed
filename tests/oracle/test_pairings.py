"""Every pairing of the catalogue, every way of plugging it, against a general-purpose circuit simulator.

One way in thirty-six, drawn by its records, and with them every circuit template and every lead with parts in
it get what a verdict mostly rests on: direct current in every setting and every source at three frequencies,
fully home at nominal values, and a first instant; all ways do with RINGFENCE_WHOLE set. The full product with
corners and states is millions of circuits (`everything.py` runs it in a night): of it each way gets a point
drawn by its records, and a short list with every circuit template in it gets a drawn third, or everything.
What was covered is printed.
"""

from dataclasses import replace

import numpy as np
import pytest
from agreement import disagreements
from cases import Solved, drives
from comparison import ANALYSES, DIRECT, INSTANT, SIGNAL, compare_all, text_of
from connections import connections, drawn, short_list, templates
from drawn import WHOLE
from simulator import needs_ngspice, simulate

from generator.engine.circuit import value_at
from generator.engine.signal import sources_of

pytestmark = [pytest.mark.oracle, needs_ngspice]

SHARE = 3  # one point in so many of all there are, for the short list
SIGNAL_EVERY = 4  # one way in so many gets a signal at a drawn point
CORNERS = {
    "direct current": {"nominal", "nominal zero", "nominal open", "strong", "strong open", "weak", "skewed"},
    "first instants": {"plugging", "switching"},
    "signals": {"nominal", "strong", "weak", "skewed"},
}
STATES = {"home", "joined", "plugging"}


@pytest.fixture(scope="module")
def every_way(catalogue):
    found = connections(catalogue) if WHOLE else drawn(catalogue)
    assert found
    return found


@pytest.fixture(scope="module")
def listed(catalogue, every_pairing):
    """The short list of pairings."""
    return short_list(catalogue, every_pairing)


@pytest.fixture(scope="module")
def usual(catalogue):
    """A microphone that takes phantom from an input that gives it."""
    [connection] = connections(catalogue, [("mic-condenser-p48-xlr", (), "mixer-mic-in-p48-xlr")])
    return connection


def sample(analysis, connection, assembly, possible):
    """What each way of plugging gets: everything at home and nominal values, and a drawn point."""
    chance, every = connection.chance(analysis.name), SIGNAL_EVERY if analysis is SIGNAL else 1
    if analysis is INSTANT:
        return draw(chance, possible)
    usual = [
        point
        for point in possible
        if point.kind == "home" and point.corner.startswith("nominal") and asked(analysis, assembly, point)
    ]
    others = [point for point in possible if point.kind != "home" or not point.corner.startswith("nominal")]
    return (draw(chance, others) if chance.randrange(every) == 0 else []) + usual


def most(analysis, connection, assembly, possible):
    """What the short list gets: everything, or a third, and at least a point of every kind of
    state in every corner."""
    if WHOLE:
        return possible
    chance, first = connection.chance(f"{analysis.name}, a third"), {}
    for point in possible:
        first.setdefault((point.kind, point.corner), point)
    kept = set(first.values())
    return [point for point in possible if chance.randrange(SHARE) == 0 or point in kept]


def asked(analysis, assembly, point):
    """Every setting, and of the signals those of sources."""
    return analysis is DIRECT or drives(assembly)[point.number].name in sources_of(assembly)


def draw(chance, others):
    """Kind of state and corner first, so that the few joined states and skewed corners come up as
    often as the many others."""
    if not others:
        return []
    kind, corner = chance.choice(sorted({(point.kind, point.corner) for point in others}))
    return [chance.choice([point for point in others if (point.kind, point.corner) == (kind, corner)])]


def gains(assembly, case):
    """What every listener hears of an outlet's open-circuit volt, fully home at nominal values, where there
    is no transformer. A capsule's volt is by definition that across 2.2 kohm, so outlets that drive a
    current are left out."""
    circuit = case.circuit
    emfs = {part.id for part in circuit.parts if part.kind == "emf"}
    if (
        case.drive is None
        or "inductor" in circuit.kinds
        or not set(case.drive) <= emfs
        or case.closed not in assembly.home
    ):
        return
    if not np.array_equal(case.values, [value_at(part, "nominal") for part in circuit.parts]):
        return
    for place, port in assembly.ports.items():
        for listener in port.listeners:
            hot, cold = (circuit.nets[f"{place}/{node}"] for node in listener.between)
            yield np.abs(case.unknowns[:, hot] - case.unknowns[:, cold]).max()


@pytest.fixture(scope="module")
def compared(catalogue, every_way):
    """The tally of each analysis, of every way of every pairing."""
    return compare_all(catalogue, every_way, sample, gains)


@pytest.fixture(scope="module")
def compared_whole(catalogue, listed):
    """The same of the short list, of all settings or drives, corners and states."""
    return compare_all(catalogue, connections(catalogue, listed), most)


@pytest.mark.parametrize("name", ANALYSES)
def test_every_pairing_agrees_with_ngspice(every_way, compared, name, record_property):
    tally = compared[name]
    record_property("told", f"ngspice, every pairing, {name}: {tally}")
    assert not tally.wrong, f"{len(tally.wrong)} numbers of {tally.circuits} circuits differ:\n" + "\n".join(
        tally.wrong[:20]
    )
    assert tally.ways == len(every_way)
    assert tally.compared >= (1000 if name == INSTANT.name else len(every_way))
    assert set(tally.corners) >= CORNERS[name] and set(tally.states) == STATES


@pytest.mark.parametrize("name", ANALYSES)
def test_every_circuit_template_agrees_with_ngspice_in_every_corner_and_state(
    listed, compared_whole, name, record_property
):
    """All settings or drives, corners and states, of a short list of pairings: a third of
    them, or all."""
    tally = compared_whole[name]
    record_property("told", f"ngspice, {len(listed)} pairings, {name}: {tally}")
    assert not tally.wrong, f"{len(tally.wrong)} numbers of {tally.circuits} circuits differ:\n" + "\n".join(
        tally.wrong[:20]
    )
    assert tally.compared == tally.possible if WHOLE else tally.compared > 0.9 * tally.possible / SHARE
    assert set(tally.corners) >= CORNERS[name] and set(tally.states) == STATES


def test_no_chain_without_windings_makes_a_voltage_larger(compared):
    """An outlet's open-circuit volt arrives as a volt or less wherever there is no
    transformer; see `gains`."""
    found = compared["signals"]
    gain, case = found.largest
    assert found.looked
    assert gain <= 1 + 1e-9, f"{case}: a listener hears {gain:.3f} V"


def test_the_short_list_has_every_template_that_is_ever_paired(catalogue, every_pairing, listed):
    paired = set().union(*(templates(catalogue, pairing) for pairing in every_pairing))
    assert set().union(*(templates(catalogue, pairing) for pairing in listed)) == paired
    kinds = {
        part.kind
        for start, _, target in listed
        for port in (start, target)
        for part in catalogue.ports[port].network.parts
    }
    assert {"sink", "clamp"} <= kinds


def test_the_drawn_points_are_the_same_each_time_and_change_with_the_records(catalogue, usual):
    connection = usual
    assembly = connection.assembly(catalogue)
    possible = DIRECT.points(Solved(assembly))
    assert sample(DIRECT, connection, assembly, possible) == sample(DIRECT, connection, assembly, possible)
    drawn = {
        sample(DIRECT, replace(connection, digest=f"{number}"), assembly, possible)[0] for number in range(20)
    }
    assert len(drawn) > 1


@pytest.mark.parametrize("name", ANALYSES)
def test_a_resistor_a_thousandth_off_is_noticed(catalogue, usual, name):
    """The comparison can fail: the simulator gets another value than the engine had."""
    solved = Solved(usual.assembly(catalogue))
    case = next(ANALYSES[name].cases(usual.name, solved, ANALYSES[name].points(solved)[:1]))
    feed = next(i for i, part in enumerate(case.circuit.parts) if part.id == "into/main.feed-hot")
    values = case.values.copy()
    values[feed] *= 1.001
    [found] = simulate([text_of(replace(case, values=values))])
    assert disagreements(case, found)
