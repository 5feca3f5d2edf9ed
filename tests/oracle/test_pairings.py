"""Every pairing of the catalogue, every way of plugging it, against a general-purpose circuit simulator."""

from dataclasses import replace

import numpy as np
import pytest
from agreement import Case, disagreements
from simulator import bare, needs_ngspice, simulate

from generator.engine import pairings
from generator.engine.assemble import Assembly, assemble, ways
from generator.engine.circuit import value_at
from generator.engine.direct import drive_values, live_volts, settings
from generator.engine.netlist import netlist
from generator.engine.signal import HERTZ
from generator.engine.solve import closed_array, solve_ac, solve_dc

pytestmark = [pytest.mark.oracle, needs_ngspice]


@pytest.fixture(scope="module")
def assemblies(catalogue):
    """Every way of every pairing, by name."""
    found = {}
    for start, through, target in pairings(catalogue):
        outlet, inlet, leads = catalogue.ports[start], catalogue.ports[target], [catalogue.leads[name] for name in through]
        for way in ways(catalogue, outlet, leads, inlet):
            ends = " ".join(f"{near}>{far}" for near, far in way.ends)
            name = " ".join([start, *through, target, ends, *(end for _, end in way.plugged)])
            found[name] = assemble(catalogue, outlet, leads, inlet, way)
    assert found
    return found


def direct(name: str, assembly: Assembly):
    """Direct current: every supply setting in every home state."""
    circuit, switched = assembly.circuit, settings(assembly.ports)
    values = np.array([drive_values(circuit, live_volts(circuit, assembly.ports, setting), "nominal") for setting in switched])
    solved = solve_dc(circuit, values, closed_array(assembly.home, len(circuit.switches))).unknowns
    for i, setting in enumerate(switched):
        for k, state in enumerate(assembly.home):
            yield Case(f"{name} {setting} home {k}", circuit, values[i], state, None, (), solved[i, k][None])


def alternating(name: str, assembly: Assembly):
    """Alternating current: every source of every port, in every home state."""
    circuit = assembly.circuit
    values = np.array([[value_at(part, "nominal") for part in circuit.parts]])
    drives = {f"{place}/{source.id}": {f"{place}/{part}": float(share) for part, share in source.drive.items()}
              for place, port in assembly.ports.items() for source in port.sources}
    solved = solve_ac(circuit, values, HERTZ, closed_array(assembly.home, len(circuit.switches)), list(drives.values()))
    for i, (source, drive) in enumerate(drives.items()):
        for k, state in enumerate(assembly.home):
            yield Case(f"{name} {source} home {k}", circuit, values[0], state, drive, HERTZ, solved[0, :, k, i])


def test_no_chain_without_windings_makes_a_voltage_larger(assemblies):
    """An outlet's open-circuit volt arrives as a volt or less wherever there is no transformer. A capsule's volt is by definition that across 2.2 kohm,
    so outlets that drive a current are left out."""
    compared = 0
    for name, assembly in assemblies.items():
        if any(part.kind == "inductor" for part in assembly.circuit.parts):
            continue
        emfs = {part.id for part in assembly.circuit.parts if part.kind == "emf"}
        for case in alternating(name, assembly):
            if set(case.drive) <= emfs:
                for place, port in assembly.ports.items():
                    for listener in port.listeners:
                        hot, cold = (assembly.circuit.nets[f"{place}/{node}"] for node in listener.between)
                        gain = np.abs(case.unknowns[:, hot] - case.unknowns[:, cold]).max()
                        assert gain <= 1 + 1e-9, f"{case.name}: {place}/{listener.id} hears {gain:.3f} V"
                        compared += 1
    assert compared


def text_of(case: Case) -> str:
    return netlist(case.circuit, case.values, case.closed, case.drive, case.hertz)


@pytest.mark.parametrize("cases_of", [direct, alternating])
def test_every_pairing_agrees_with_ngspice(assemblies, cases_of):
    different = {}
    for name, assembly in assemblies.items():
        cases = list(cases_of(name, assembly))
        assert cases, f"{name} was not compared"
        for case in cases:
            different.setdefault(bare(text_of(case)), case)
    found = simulate(list(different))
    wrong = [words for case, analyses in zip(different.values(), found) for words in disagreements(case, analyses)]
    assert not wrong, f"{len(wrong)} numbers of {len(different)} circuits differ:\n" + "\n".join(wrong[:20])


@pytest.mark.parametrize("cases_of", [direct, alternating])
def test_a_resistor_a_thousandth_off_is_noticed(assemblies, cases_of):
    """The comparison can fail: the simulator gets another value than the engine had."""
    name = next(name for name in assemblies if name.startswith("mic-condenser-p48-xlr mixer-mic-in-p48-xlr"))
    case = next(iter(cases_of(name, assemblies[name])))
    feed = next(i for i, part in enumerate(case.circuit.parts) if part.id == "into/main.feed-hot")
    values = case.values.copy()
    values[feed] *= 1.001
    [found] = simulate([text_of(replace(case, values=values))])
    assert disagreements(case, found)
