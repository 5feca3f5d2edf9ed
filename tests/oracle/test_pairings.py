"""Every pairing of the catalogue, every way of plugging it, against a general-purpose circuit simulator.

Every way gets what its verdict mostly rests on: direct current in every setting and every source at three frequencies, fully home at nominal
values. The full product with corners and states is millions of circuits (`everything.py` runs it in a night): of it each way gets a point drawn by
its records, and a short list with every circuit template in it gets everything. What was covered is printed.
"""

from dataclasses import replace

import numpy as np
import pytest
from cases import drives, points, signal_cases
from comparison import ANALYSES, DIRECT, SIGNAL, compare_all, everything, text_of
from connections import connections, short_list, templates
from agreement import disagreements
from simulator import needs_ngspice, simulate

from generator.engine.signal import sources_of

pytestmark = [pytest.mark.oracle, needs_ngspice]

SIGNAL_EVERY = 4  # one way in so many gets a signal at a drawn point
CORNERS, STATES = {"nominal", "strong", "weak", "skewed"}, {"home", "joined", "plugging"}


@pytest.fixture(scope="module")
def every_way(catalogue):
    found = connections(catalogue)
    assert found
    return found


class Sample:
    """What each way of plugging gets: everything at home and nominal values, and a drawn point."""

    def __init__(self, analysis):
        self.analysis, self.every = analysis.name, SIGNAL_EVERY if analysis is SIGNAL else 1

    def __call__(self, connection, assembly, possible):
        chance = connection.chance(self.analysis)
        usual = [point for point in possible if point.kind == "home" and point.corner == "nominal" and self.asked(assembly, point)]
        others = [point for point in possible if point.kind != "home" or point.corner != "nominal"]
        return (self.draw(chance, others) if chance.randrange(self.every) == 0 else []) + usual

    def asked(self, assembly, point):
        """Every setting, and of the signals those of sources."""
        return self.analysis == "direct current" or drives(assembly)[point.number].name in sources_of(assembly)

    @staticmethod
    def draw(chance, others):
        """Kind of state and corner first, so that the few joined states and skewed corners come up as often as the many others."""
        if not others:
            return []
        kind, corner = chance.choice(sorted({(point.kind, point.corner) for point in others}))
        return [chance.choice([point for point in others if (point.kind, point.corner) == (kind, corner)])]


@pytest.mark.parametrize("name", ANALYSES)
def test_every_pairing_agrees_with_ngspice(catalogue, every_way, name, capsys):
    tally = compare_all(catalogue, every_way, ANALYSES[name], Sample(ANALYSES[name]))
    with capsys.disabled():
        print(f"\n    ngspice, every pairing, {name}: {tally}", flush=True)
    assert not tally.wrong, f"{len(tally.wrong)} numbers of {tally.circuits} circuits differ:\n" + "\n".join(tally.wrong[:20])
    assert tally.ways == len(every_way) <= tally.compared
    assert set(tally.corners) == CORNERS and set(tally.states) == STATES


@pytest.mark.parametrize("name", ANALYSES)
def test_everything_about_every_circuit_template_agrees_with_ngspice(catalogue, name, capsys):
    """All settings or drives, corners and states, of a short list of pairings."""
    listed = connections(catalogue, short_list(catalogue))
    tally = compare_all(catalogue, listed, ANALYSES[name], everything)
    with capsys.disabled():
        print(f"\n    ngspice, all of {len(short_list(catalogue))} pairings, {name}: {tally}", flush=True)
    assert not tally.wrong, f"{len(tally.wrong)} numbers of {tally.circuits} circuits differ:\n" + "\n".join(tally.wrong[:20])
    assert tally.compared == tally.possible
    assert set(tally.corners) == CORNERS and set(tally.states) == STATES


def test_the_short_list_has_every_template_that_is_ever_paired(catalogue, every_way):
    paired = set().union(*(templates(catalogue, connection.pairing) for connection in every_way))
    listed = set().union(*(templates(catalogue, pairing) for pairing in short_list(catalogue)))
    assert listed == paired
    kinds = {part.kind for start, _, target in short_list(catalogue) for port in (start, target) for part in catalogue.ports[port].network.parts}
    assert {"sink", "clamp"} <= kinds


def test_the_drawn_points_are_the_same_each_time_and_change_with_the_records(catalogue, every_way):
    connection = next(found for found in every_way if found.pairing[0] == "mic-condenser-p48-xlr")
    assembly = connection.assembly(catalogue)
    possible, choose = points(assembly, DIRECT.count(assembly)), Sample(DIRECT)
    assert choose(connection, assembly, possible) == choose(connection, assembly, possible)
    drawn = {choose(replace(connection, digest=f"{number}"), assembly, possible)[0] for number in range(20)}
    assert len(drawn) > 1


def test_no_chain_without_windings_makes_a_voltage_larger(catalogue, every_way):
    """An outlet's open-circuit volt arrives as a volt or less wherever there is no transformer. A capsule's volt is by definition that across 2.2 kohm,
    so outlets that drive a current are left out."""
    compared = 0
    for connection in every_way:
        assembly = connection.assembly(catalogue)
        if "inductor" in assembly.circuit.kinds:
            continue
        emfs = {part.id for part in assembly.circuit.parts if part.kind == "emf"}
        asked = drives(assembly)
        wanted = [point for point in points(assembly, len(asked)) if point.kind == "home" and point.corner == "nominal"
                  and asked[point.number].name in sources_of(assembly) and set(asked[point.number].signal) <= emfs]
        for case in signal_cases(connection.name, assembly, wanted):
            for place, port in assembly.ports.items():
                for listener in port.listeners:
                    hot, cold = (case.circuit.nets[f"{place}/{node}"] for node in listener.between)
                    gain = np.abs(case.unknowns[:, hot] - case.unknowns[:, cold]).max()
                    assert gain <= 1 + 1e-9, f"{case.name}: {place}/{listener.id} hears {gain:.3f} V"
                    compared += 1
    assert compared


@pytest.mark.parametrize("name", ANALYSES)
def test_a_resistor_a_thousandth_off_is_noticed(catalogue, every_way, name):
    """The comparison can fail: the simulator gets another value than the engine had."""
    connection = next(found for found in every_way if found.name.startswith("mic-condenser-p48-xlr mixer-mic-in-p48-xlr"))
    assembly = connection.assembly(catalogue)
    case = next(ANALYSES[name].cases(connection.name, assembly, points(assembly, 1)[:1]))
    feed = next(i for i, part in enumerate(case.circuit.parts) if part.id == "into/main.feed-hot")
    values = case.values.copy()
    values[feed] *= 1.001
    [found] = simulate([text_of(replace(case, values=values))])
    assert disagreements(case, found)
