"""The circuits behind the worked checks: ports of the catalogue with something on their contacts, and small
circuits of the bench."""

from math import log10, sqrt

import numpy as np
from bench import amps, circuit, nominal, part, signal, volts

from generator.catalogue.quantity import parse
from generator.engine.assemble import assemble, ways
from generator.engine.circuit import build, value_at
from generator.engine.solve import closed_array, part_amps, solve_dc

P48_INPUT, P48_MIC = "mixer-mic-in-p48-xlr", "mic-condenser-p48-xlr"


# Real ports of the catalogue on the bench


def port(catalogue, name, *lines):
    """A port's own circuit with more parts on its contacts' roles; its chassis is 0 V."""
    network = catalogue.ports[name].network
    return build([*network.parts, *map(part, lines)], network.couplings, (), ["chassis"])


def fed(catalogue, *lines):
    """The current a P48 input gives in all, A."""
    shorted = port(catalogue, P48_INPUT, *lines)
    return sum(amps(shorted, f"main.feed-{leg}") for leg in ("hot", "cold"))


def left_at_microphone(catalogue, milliamperes):
    """Volts at the contacts of a condenser microphone that draws this much evenly from both legs."""
    return volts(
        port(
            catalogue,
            P48_INPUT,
            "J1 wire hot mic",
            "J2 wire cold mic",
            f"draw sink mic screen {milliamperes} mA knee 5 V",
        ),
        "hot",
        "chassis",
    )


def microphone_on_input(catalogue):
    """Volts from a leg to contact 1 where the catalogue's own condenser microphone sits on its
    own input, phantom on."""
    outlet, inlet = catalogue.ports[P48_MIC], catalogue.ports[P48_INPUT]
    [way] = ways(catalogue, outlet, [], inlet)
    assembly = assemble(catalogue, outlet, [], inlet, way)
    solved = solve_dc(
        assembly.circuit,
        nominal(assembly.circuit),
        closed_array(assembly.home, len(assembly.circuit.switches)),
    )
    return float(solved.volts("into/hot", "into/screen").max())


def uneven(catalogue):
    """Difference between the legs of a P48 input as far apart as its feeds may be, 10 mA
    drawn at a centre tap, A."""
    tapped = port(
        catalogue, P48_INPUT, "J1 wire hot tap", "J2 wire cold tap", "draw sink tap chassis 10 mA knee 1 V"
    )
    values = np.array([[value_at(p, "skewed") for p in tapped.parts]])
    solved = solve_dc(tapped, values, closed_array([()], 0))
    hot, cold = (
        float(part_amps(solved, i)[0, 0]) for i, p in enumerate(tapped.parts) if p.id.startswith("main.feed")
    )
    return abs(hot - cold)


def pad(catalogue, lead, loaded):
    """Level at 1.5 kohm behind 150 ohm and one of the catalogue's pads against the level without it; or the
    pad's own divider, dB."""
    source = (
        ("E1 emf in a.3 0 V", "Rs resistor in a.2 150 ohm", "Rl resistor b.2 b.3 1.5 kohm")
        if loaded
        else ("E1 emf a.2 a.3 0 V",)
    )
    whole = build([*catalogue.leads[lead].network.parts, *map(part, source)], (), (), ["a.3"])
    straight = 20 * log10(1500 / 1650) if loaded else 0.0
    return level(whole, {"E1": 1.0}, "b.2", "b.3") - straight


def headphone_watts(catalogue, ohms):
    """Power in an earpiece on the headphone output at its loudest, W."""
    name = "headphone-out-635"
    listening = port(catalogue, name, f"ear resistor left common {ohms} ohm")
    source = catalogue.ports[name].sources[0]
    across = abs(
        signal(listening, {p: share * source.maximum for p, share in source.drive.items()}, "left", "common")
    )
    return across**2 / ohms


# Circuits of the bench


def level(of, drive, a, b="0", hertz=1000.0):
    """dB against 1 V."""
    return 20 * log10(abs(signal(of, drive, a, b, hertz)))


def divider(source, load):
    return level(
        circuit("E1 emf in 0 0 V", f"R1 resistor in out {source}", f"R2 resistor out 0 {load}"),
        {"E1": 1.0},
        "out",
    )


def loop(supply, resistance, load="0 V"):
    """Current of one supply through one resistance into a counter-voltage, A."""
    return amps(
        circuit(f"E1 emf top 0 {supply}", f"R1 resistor top out {resistance}", f"E2 emf out 0 {load}"), "R1"
    )


def low_pass(resistance, capacitance, hertz):
    return level(
        circuit("E1 emf in 0 0 V", f"R1 resistor in out {resistance}", f"C1 capacitor out 0 {capacitance}"),
        {"E1": 1.0},
        "out",
        hertz=hertz,
    )


def phantom(supply, feed, *lines):
    return circuit(
        f"E1 emf rail 0 {supply}", f"R2 resistor rail hot {feed}", f"R3 resistor rail cold {feed}", *lines
    )


def both_shorted(supply, feed):
    shorted = phantom(supply, feed, "J1 wire hot 0", "J2 wire cold 0")
    return amps(shorted, "R2") + amps(shorted, "R3")


def one_shorted(supply, feed):
    return amps(phantom(supply, feed, "J1 wire hot 0"), "R2")


def drawn(supply, feed, current):
    return volts(
        phantom(supply, feed, "J1 wire hot mic", "J2 wire cold mic", f"S1 sink mic 0 {current} knee 1 V"),
        "mic",
    )


def most_watts():
    at = phantom("48 V", "6.81 kohm", "J1 wire hot mic", "J2 wire cold mic", "R1 resistor mic 0 3.405 kohm")
    return volts(at, "mic") * amps(at, "R1")


def t_power(coil):
    return circuit(
        "E1 emf top 0 12 V",
        "R2 resistor top hot 180 ohm",
        "R3 resistor cold 0 180 ohm",
        f"R1 resistor hot cold {coil}",
    )


def summer(drive, ratio=1):
    """Two 475 ohm resistors into 20 kohm; the inputs are ideal."""
    return level(
        circuit(
            "E1 emf one 0 0 V",
            "E2 emf two 0 0 V",
            f"R1 resistor one out {475 * ratio} ohm",
            f"R2 resistor two out {475 * ratio} ohm",
            f"R3 resistor out 0 {20 * ratio} kohm",
        ),
        drive,
        "out",
    )


def backwards(ratio, at_output="47 ohm"):
    """The same box from one output (50 ohm) back into another one."""
    return circuit(
        "E1 emf in 0 0 V",
        "Rs resistor in one 50 ohm",
        f"R1 resistor one sum {475 * ratio} ohm",
        f"R2 resistor sum two {475 * ratio} ohm",
        f"R3 resistor sum 0 {20 * ratio} kohm",
        f"R4 resistor two 0 {at_output}",
    )


def rejection(source, other, common):
    """What is left between the legs of 1 V on both, behind two sources, into an impedance to earth
    each; as a ratio in dB."""
    bridge = circuit(
        "E1 emf in 0 0 V",
        f"R1 resistor in hot {source}",
        f"R2 resistor in cold {other}",
        f"R3 resistor hot 0 {common}",
        f"R4 resistor cold 0 {common}",
    )
    return -level(bridge, {"E1": 1.0}, "hot", "cold")


def button(ohms):
    """Volts on the microphone contact of a headset jack with this much from it to ground."""
    return volts(
        circuit("E1 emf rail 0 2.2 V", "R1 resistor rail mic 2.2 kohm", f"R2 resistor mic 0 {ohms}"), "mic"
    )


def seen(*lines):
    """The resistance between `in` and 0, ohm."""
    return abs(signal(circuit(*lines), {("0", "in"): 1.0}, "in"))


def dropped(current, resistance):
    """Volts a current leaves across a resistance."""
    return abs(
        signal(circuit(f"R1 resistor top 0 {resistance}"), {("0", "top"): parse(current).nominal}, "top")
    )


def against_consumer_line(current, resistance):
    """How far that lies below -10 dBV, dB."""
    return 20 * log10(parse("-10 dBV").nominal / dropped(current, resistance))


def t_pad(*lines):
    return circuit(
        "E1 emf in 0 0 V",
        "Rs resistor in in2 600 ohm",
        "R1 resistor in2 mid 490.9 ohm",
        "R2 resistor mid 0 121.2 ohm",
        "R3 resistor mid out 490.9 ohm",
        "R4 resistor out 0 600 ohm",
        *lines,
    )


def opposing_outputs():
    """Peak current between two 100 ohm outputs at +24 dBu in opposite phase, A."""
    tied = circuit(
        "E1 emf one 0 0 V", "R1 resistor one out 100 ohm", "E2 emf two 0 0 V", "R2 resistor two out 100 ohm"
    )
    loudest = parse("+24 dBu").nominal * sqrt(2)
    drive = {"E1": loudest, "E2": -loudest}
    return abs(signal(tied, drive, "one") - signal(tied, drive, "out")) / 100
