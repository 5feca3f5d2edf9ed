"""What anyone in the trade takes for granted, held against the catalogue and the engine. Where nothing is
cited it is common practice."""

import numpy as np
import pytest

from generator.engine.assemble import assemble, ways
from generator.engine.circuit import build, value_at
from generator.engine.direct import direct_readings
from generator.engine.judge import judge
from generator.engine.route import chains
from generator.engine.signal import solve_signals
from generator.engine.solve import closed_array, solve_dc
from generator.engine.switches import drive_values, drives, live_volts, settings

P48_INPUT = "mixer-mic-in-p48-xlr"


@pytest.mark.parametrize(
    "assignment, carries",
    [
        ("xlr-3-balanced", {"1": "screen", "2": "hot", "3": "cold"}),  # standard [aes14, iec-60268-12]
        ("phone-635-trs-balanced", {"tip": "hot", "ring": "cold", "sleeve": "screen"}),  # common practice
        ("phone-35-trs-balanced", {"tip": "hot", "ring": "cold", "sleeve": "screen"}),  # common practice
        ("phone-635-ts-unbalanced", {"tip": "signal", "sleeve": "common"}),  # common practice
        ("phone-35-ts-unbalanced", {"tip": "signal", "sleeve": "common"}),  # common practice
        ("phone-35-trs-stereo", {"tip": "left", "ring": "right", "sleeve": "common"}),  # common practice
        # published [phone-headset-spec]
        ("phone-35-trrs-headset-lrgm", {"tip": "left", "ring1": "right", "ring2": "common", "sleeve": "mic"}),
        # published [headset-orders-answer]
        ("phone-35-trrs-headset-lrmg", {"tip": "left", "ring1": "right", "ring2": "mic", "sleeve": "common"}),
        # published in parts [computer-microphone-page]
        ("phone-35-trs-stereo-microphone", {"tip": "left", "ring": "right", "sleeve": "common"}),
        ("rca-unbalanced", {"centre": "signal", "shell": "common"}),  # common practice
        ("mini-xlr-3-balanced", {"1": "screen", "2": "hot", "3": "cold"}),  # published [recorder-manual-p55]
    ],
)
def test_which_contact_carries_what(catalogue, assignment, carries):
    assert dict(catalogue.assignments[assignment].carries) == carries


def alone(port, corner="nominal"):
    """A port's direct voltages with nothing plugged in, all supplies on."""
    circuit = build(port.network.parts, port.network.couplings, (), ["chassis"])
    values = np.array([[value_at(part, corner) for part in circuit.parts]])
    return lambda a, b: float(solve_dc(circuit, values, closed_array([()], 0)).volts(a, b)[0, 0])


@pytest.mark.parametrize("corner", ["nominal", "strong", "weak"])
@pytest.mark.parametrize(
    "port, nominal, spread",
    [(P48_INPUT, 48, 4), ("camera-mic-in-p48-xlr", 48, 4), ("mixer-mic-in-p48-635", 48, 4)],
)
def test_phantom_stands_on_both_legs_alike(catalogue, port, nominal, spread, corner):
    """standard [iec-61938]: 48 V +-4 V, the same on contacts 2 and 3, contact 1 the return."""
    volts = alone(catalogue.ports[port], corner)
    assert volts("hot", "cold") == pytest.approx(0, abs=1e-9)
    assert nominal - spread - 1e-6 <= volts("hot", "screen") <= nominal + spread + 1e-6


def connected(catalogue, start, through, target):
    """The first way of a connection and its direct voltages when fully home, everything on."""
    leads = [catalogue.leads[name] for name in through]
    way = ways(catalogue, catalogue.ports[start], leads, catalogue.ports[target])[0]
    assembly = assemble(catalogue, catalogue.ports[start], leads, catalogue.ports[target], way)
    circuit = assembly.circuit
    solved = solve_dc(
        circuit,
        drive_values(circuit, {}, "nominal")[None],
        closed_array(assembly.home, len(circuit.switches)),
    )
    return lambda a, b: solved.volts(a, b)


@pytest.mark.parametrize("microphone", ["mic-condenser-p48-xlr", "mic-dynamic-xlr", "mic-ribbon-xlr"])
def test_phantom_reaches_a_microphone_on_both_legs_alike(catalogue, microphone):
    """common practice: through a straight lead no direct voltage lies between the legs, so no direct
    current crosses a coil."""
    volts = connected(catalogue, microphone, ["xlr-f-to-xlr-m-3m"], P48_INPUT)
    assert volts("from/hot", "from/cold") == pytest.approx(0, abs=1e-6)
    assert (volts("from/hot", "from/screen") > 30).all()


def plug_in_power_ports(catalogue):
    used = ("plug-in-power-input", "plug-in-power-input-switched")
    return [port for port in catalogue.ports.values() if set(port.circuits) & set(used)]


def test_plug_in_power_is_about_three_volts_on_the_tip(catalogue):
    """published [plug-in-power-page, plug-in-power-measured]: 2.3 to 5 V; common practice: 1 to 10 V."""
    ports = [port for port in plug_in_power_ports(catalogue) if "tip" in port.contacts]
    assert ports
    for port in ports:
        tip, sleeve = port.contacts["tip"], port.contacts["sleeve"]
        assert alone(port)(tip, sleeve) == pytest.approx(3, abs=1), port.id
        for corner in ("strong", "weak"):
            assert 1 <= alone(port, corner)(tip, sleeve) <= 10, port.id


def capsules(catalogue):
    """(microphone, limit) of every port with a bare electret capsule on its contacts."""
    used = ("electret-two-wire", "electret-three-wire", "headset-microphone")
    found = [
        (port, limit)
        for port in catalogue.ports.values()
        if set(port.circuits) & set(used)
        for limit in port.network.limits
        if limit.id.endswith("capsule")
    ]
    assert found
    return found


def test_small_capsules_are_made_for_three_to_five_volts(catalogue):
    """common practice; published [electret-article]: 1.5 to 10 V is the range in use."""
    for port, limit in capsules(catalogue):
        assert all(need.least <= 3 for need in port.needs), port.id
        assert 5 < limit.settled <= 10, port.id


def volts_at_capsule(assembly, limit, setting):
    """The most a capsule gets at any corner, settled or on the way in, V."""
    circuit = assembly.circuit
    live = live_volts(circuit, assembly.ports, setting)
    values = np.array([drive_values(circuit, live, *drive) for drive in drives(circuit, live)])
    states = closed_array(assembly.states, len(circuit.switches))
    return float(
        np.abs(solve_dc(circuit, values, states).volts(*(f"from/{node}" for node in limit.between))).max()
    )


def phantom_chains(catalogue):
    """Every capsule through nothing or one lead into every input with phantom, wherever the halves fit."""
    for port, limit in capsules(catalogue):
        for target in catalogue.ports.values():
            if any(supply.style == "pair" for supply in target.supplies):
                for length in (0, 1):
                    yield from (
                        (port, limit, chain, target)
                        for chain in chains(catalogue, port.id, target.id, length)
                    )


def test_phantom_never_passes_unnoticed_into_a_small_capsule(catalogue):
    """published [plug-in-power-page]: 48 V on a plug-in-power microphone may damage it. Any chain that lets
    more than the rating through, at any tolerance or on the way in, is dangerous in that setting."""
    reached = spared = 0
    for port, limit, chain, target in phantom_chains(catalogue):
        verdict, leads = (
            judge(catalogue, port.id, chain, target.id),
            [catalogue.leads[name] for name in chain],
        )
        told = [(setting, found) for setting, found in verdict.settings]
        for way in ways(catalogue, port, leads, target):
            assembly = assemble(catalogue, port, leads, target, way)
            for setting in settings(assembly.ports):
                over = volts_at_capsule(assembly, limit, setting) > limit.settled * (1 + 1e-9)
                found = [found for given, found in told if setting.items() <= given.items()]
                assert found and (not over or set(found) == {"dangerous"}), (
                    f"{port.id} {chain} {target.id} {setting}: {found}"
                )
                reached += over
                spared += (
                    not over
                    and any(state == "on" for state in setting.values())
                    and set(found) <= {"safe", "lossy"}
                )
    assert reached, "some adapters do let phantom through, or this test shows nothing"
    assert spared, "a converter that keeps the capsule under its rating is in the catalogue"


def test_the_readings_carry_the_volts_a_capsule_gets(catalogue):
    """What the page prints is what was solved: plain adapter against converter, phantom on."""
    port, target = catalogue.ports["mic-electret-mono-trs-35"], catalogue.ports[P48_INPUT]
    [limit] = [limit for found, limit in capsules(catalogue) if found is port]
    shown = {}
    for name in ("phone-35-trs-jack-to-xlr-m", "phone-35-trs-jack-to-xlr-m-bias-from-phantom"):
        [way] = ways(catalogue, port, [catalogue.leads[name]], target)
        assembly = assemble(catalogue, port, [catalogue.leads[name]], target, way)
        readings = direct_readings(assembly, solve_signals(assembly))
        shown[name] = max(
            r.value
            for r in readings
            if r.quantity == "part-volts" and r.subject == f"from/{limit.id}" and r.setting == 0
        )
    plain, converter = shown.values()
    assert plain > limit.settled >= converter
