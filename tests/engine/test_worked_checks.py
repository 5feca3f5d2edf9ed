"""Numbers worked out by hand or printed somewhere, found again by the engine: parts in,
currents and levels out.

Each line: what is asked, where the expected number comes from, the number, and the circuit that answers it.
Ids in square brackets stand in pinouts/sources.yaml. Held to half a per cent, or to 0.05 dB.
"""

from collections.abc import Callable
from dataclasses import dataclass
from math import pi

import pytest
from bench import amps, circuit, signal, volts
from worked import (
    P48_INPUT,
    against_consumer_line,
    backwards,
    both_shorted,
    button,
    divider,
    drawn,
    dropped,
    fed,
    headphone_watts,
    left_at_microphone,
    level,
    loop,
    low_pass,
    microphone_on_input,
    most_watts,
    one_shorted,
    opposing_outputs,
    pad,
    port,
    rejection,
    seen,
    summer,
    t_pad,
    t_power,
    uneven,
)


@dataclass(frozen=True)
class Check:
    asked: str
    source: str
    expected: float
    unit: str
    found: Callable


def derived(asked, expected, unit, found, formula):
    return Check(asked, f"derived: {formula}", expected, unit, found)


def published(asked, expected, unit, found, source):
    return Check(asked, f"published: {source}", expected, unit, found)


def from_memory(asked, expected, unit, found, formula):
    return Check(asked, f"from memory: {formula}", expected, unit, found)


CHECKS = [
    # Phantom power, with the catalogue's own input (48 V behind twice 6.81 kohm)
    derived(
        "P48, one leg on contact 1, that leg",
        7.048e-3,
        "A",
        lambda c: amps(port(c, P48_INPUT, "J1 wire hot screen"), "main.feed-hot"),
        "48 V / 6.81 kohm",
    ),
    published(
        "P48, both legs on contact 1",
        14.10e-3,
        "A",
        lambda c: fed(c, "J1 wire hot screen", "J2 wire cold screen"),
        "about 14 mA [phantom-discharge-thread]",
    ),
    derived(
        "P48 at 52 V, both legs",
        15.27e-3,
        "A",
        lambda c: both_shorted("52 V", "6.81 kohm"),
        "2 x 52 V / 6.81 kohm",
    ),
    derived(
        "P48 at 44 V, one leg", 6.461e-3, "A", lambda c: one_shorted("44 V", "6.81 kohm"), "44 V / 6.81 kohm"
    ),
    derived("P24, one leg", 20.0e-3, "A", lambda c: one_shorted("24 V", "1.2 kohm"), "24 V / 1.2 kohm"),
    derived(
        "P24, both legs", 40.0e-3, "A", lambda c: both_shorted("24 V", "1.2 kohm"), "2 x 24 V / 1.2 kohm"
    ),
    derived("P12, one leg", 17.65e-3, "A", lambda c: one_shorted("12 V", "680 ohm"), "12 V / 680 ohm"),
    derived("P12, both legs", 35.29e-3, "A", lambda c: both_shorted("12 V", "680 ohm"), "2 x 12 V / 680 ohm"),
    derived(
        "P48, most power into any load", 169.2e-3, "W", lambda c: most_watts(), "(48 V)^2 / (4 x 3.405 kohm)"
    ),
    *(
        derived(
            f"P48, volts left at a microphone that draws {mA} mA",
            left,
            "V",
            lambda c, mA=mA: left_at_microphone(c, mA),
            "48 V - I x 3.405 kohm",
        )
        for mA, left in ((1, 44.6), (2, 41.2), (3, 37.8), (5, 31.0), (10, 13.95))
    ),
    derived(
        "P48, the catalogue's condenser microphone (3 mA) on its input",
        37.785,
        "V",
        lambda c: microphone_on_input(c),
        "48 V - 3 mA x 3.405 kohm",
    ),
    derived(
        "P24, volts left at 10 mA",
        18.0,
        "V",
        lambda c: drawn("24 V", "1.2 kohm", "10 mA"),
        "24 V - 10 mA x 600 ohm",
    ),
    derived(
        "P12, volts left at 15 mA",
        6.9,
        "V",
        lambda c: drawn("12 V", "680 ohm", "15 mA"),
        "12 V - 15 mA x 340 ohm",
    ),
    derived(
        "A capacitor charged to 48 V into 10 ohm, first instant",
        4.80,
        "A",
        lambda c: loop("48 V", "10 ohm"),
        "V / R",
    ),
    derived(
        "6.81 kohm with 47 uF, level at 1 / (2 pi 0.320 s)",
        -3.01,
        "dB",
        lambda c: low_pass("6.81 kohm", "47 uF", 1 / (2 * pi * 0.320)),
        "tau = R C",
    ),
    derived(
        "Power in the feed resistor of a shorted leg",
        0.338,
        "W",
        lambda c: 48 * amps(port(c, P48_INPUT, "J1 wire hot screen"), "main.feed-hot"),
        "V^2 / R",
    ),
    derived(
        "P48, both legs joined, 10 kohm from them to contact 1, volts",
        35.8,
        "V",
        lambda c: volts(
            port(c, P48_INPUT, "J1 wire hot cold", "R1 resistor hot screen 10 kohm"), "hot", "chassis"
        ),
        "48 V x 10 / (10 + 3.405)",
    ),
    derived(
        "the same, current",
        3.58e-3,
        "A",
        lambda c: amps(port(c, P48_INPUT, "J1 wire hot cold", "R1 resistor hot screen 10 kohm"), "R1"),
        "48 V / 13.405 kohm",
    ),
    derived(
        "0.4 % between the feeds, 10 mA at a centre tap, difference of the legs",
        0.020e-3,
        "A",
        uneven,
        "I d / (2 + d)",
    ),
    # T-power
    derived(
        "T12, contacts 2 and 3 joined",
        33.3e-3,
        "A",
        lambda c: amps(t_power("1 nohm"), "R2"),
        "12 V / 360 ohm",
    ),
    derived(
        "T12 into a coil of 200 ohm", 21.4e-3, "A", lambda c: amps(t_power("200 ohm"), "R1"), "12 V / 560 ohm"
    ),
    derived(
        "the same, power in the coil",
        91.8e-3,
        "W",
        lambda c: amps(t_power("200 ohm"), "R1") ** 2 * 200,
        "I^2 R",
    ),
    # Plug-in power and headset microphones
    derived(
        "2.3 V behind 6.8 kohm, shorted (measured: 0.33 mA [plug-in-power-measured])",
        0.338e-3,
        "A",
        lambda c: loop("2.3 V", "6.8 kohm"),
        "V / R",
    ),
    derived(
        "the same with 0.5 V left on the capsule (measured: about 0.27 mA [plug-in-power-measured])",
        0.265e-3,
        "A",
        lambda c: loop("2.3 V", "6.8 kohm", "0.5 V"),
        "(2.3 V - 0.5 V) / 6.8 kohm",
    ),
    published(
        "5 V behind 2 kohm, shorted", 2.50e-3, "A", lambda c: loop("5 V", "2 kohm"), "[front-panel-thread]"
    ),
    *(
        published(
            f"Headset button of {ohms} at 2.2 V behind 2.2 kohm",
            expected,
            "V",
            lambda c, ohms=ohms: button(ohms),
            "resistances and bias [phone-headset-spec]",
        )
        for ohms, expected in (("135 ohm", 0.127), ("240 ohm", 0.216), ("470 ohm", 0.387))
    ),
    *(
        Check(
            f"Edge of a button's window at {ohms}",
            "standard: windows [phone-compatibility-7-8-2-1]",
            expected,
            "V",
            lambda c, ohms=ohms: button(ohms),
        )
        for ohms, expected in (
            ("70 ohm", 0.068),
            ("110 ohm", 0.105),
            ("180 ohm", 0.166),
            ("210 ohm", 0.192),
            ("290 ohm", 0.256),
            ("360 ohm", 0.309),
            ("680 ohm", 0.519),
        )
    ),
    published(
        "Microphone of 5 kohm beside a button of 139 ohm",
        135.2,
        "ohm",
        lambda c: seen("R1 resistor in 0 5 kohm", "R2 resistor in 0 139 ohm"),
        "[phone-headset-spec]",
    ),
    derived(
        "MIDI loop: 5 V, light-emitting diode 1.6 V, 0.2 V in the driver, three times 220 ohm",
        4.85e-3,
        "A",
        lambda c: amps(
            circuit(
                "E1 emf top 0 5 V",
                "R1 resistor top a 660 ohm",
                "D1 clamp a b 1.6 V series 1 mohm",
                "E2 emf b 0 0.2 V",
            ),
            "R1",
        ),
        "3.2 V / 660 ohm",
    ),
    # Loading
    derived(
        "200 ohm into 1 kohm", -1.58, "dB", lambda c: divider("200 ohm", "1 kohm"), "20 log (RL / (RS + RL))"
    ),
    derived(
        "150 ohm into 1.5 kohm",
        -0.83,
        "dB",
        lambda c: divider("150 ohm", "1.5 kohm"),
        "20 log (RL / (RS + RL))",
    ),
    derived(
        "150 ohm into 150 ohm",
        -6.02,
        "dB",
        lambda c: divider("150 ohm", "150 ohm"),
        "20 log (RL / (RS + RL))",
    ),
    derived(
        "10 kohm into 1.5 kohm",
        -17.7,
        "dB",
        lambda c: divider("10 kohm", "1.5 kohm"),
        "20 log (RL / (RS + RL))",
    ),
    derived(
        "10 kohm into 1 Mohm", -0.09, "dB", lambda c: divider("10 kohm", "1 Mohm"), "20 log (RL / (RS + RL))"
    ),
    *(
        derived(
            f"5 V behind 120 ohm [headphone-details-page] into {ohms} ohm",
            expected,
            "W",
            lambda c, ohms=ohms: headphone_watts(c, ohms),
            "V^2 R / (R + 120 ohm)^2",
        )
        for ohms, expected in ((32, 34.6e-3), (300, 42.5e-3), (600, 28.9e-3))
    ),
    Check(
        "150 mV into 32 ohm",
        "standard: level and load [phone-compatibility-7-8-2-1]",
        0.703e-3,
        "W",
        lambda c: (
            abs(signal(circuit("E1 emf in 0 0 V", "R1 resistor in 0 32 ohm"), {"E1": 0.15}, "in")) ** 2 / 32
        ),
    ),
    derived("4 V peak to peak into 110 ohm", 36.4e-3, "A", lambda c: loop("4 V", "110 ohm"), "V / R"),
    # Joined outputs and summing
    derived(
        "Summing box 2 x 475 ohm, 20 kohm: one input driven",
        -6.12,
        "dB",
        lambda c: summer({"E1": 1.0}),
        "divider",
    ),
    derived("the same, both driven alike", -0.10, "dB", lambda c: summer({"E1": 1.0, "E2": 1.0}), "divider"),
    published(
        "From one input of that box to the other, 50 ohm source",
        1011.3,
        "ohm",
        lambda c: 1e-3 / abs(signal(backwards(1, "1 mohm"), {"E1": 1.0}, "two")),
        "[why-not-wye-part-2]",
    ),
    derived(
        "Crosstalk into a 47 ohm output (27 dB printed [why-not-wye-part-2])",
        -27.05,
        "dB",
        lambda c: level(backwards(1), {"E1": 1.0}, "two"),
        "20 log (47 / (1011.3 + 47))",
    ),
    derived(
        "the same with all resistors times ten (46 dB printed [why-not-wye-part-2])",
        -46.3,
        "dB",
        lambda c: level(backwards(10), {"E1": 1.0}, "two"),
        "20 log (47 / (9663 + 47))",
    ),
    derived(
        "Two 100 ohm outputs tied, one driven",
        -6.02,
        "dB",
        lambda c: divider("100 ohm", "100 ohm"),
        "100 / 200",
    ),
    derived(
        "Two 100 ohm outputs tied, +24 dBu against each other, peak",
        174e-3,
        "A",
        lambda c: opposing_outputs(),
        "2 Vpk / 200 ohm",
    ),
    # Pads
    derived(
        "U-pad 680 / 150 / 680 ohm between 150 ohm and 1.5 kohm, insertion loss",
        -20.81,
        "dB",
        lambda c: pad(c, "xlr-f-to-xlr-m-pad-20-db", True),
        "divider with and without",
    ),
    derived(
        "the same unloaded (called 20 dB [pad-thread-68618])",
        -20.06,
        "dB",
        lambda c: pad(c, "xlr-f-to-xlr-m-pad-20-db", False),
        "150 / 1510",
    ),
    derived(
        "U-pad 7.5 kohm / 150 ohm, insertion loss",
        -40.16,
        "dB",
        lambda c: pad(c, "xlr-f-to-xlr-m-pad-40-db", True),
        "divider with and without",
    ),
    derived(
        "the same unloaded", -40.09, "dB", lambda c: pad(c, "xlr-f-to-xlr-m-pad-40-db", False), "150 / 15150"
    ),
    published(
        "O-pad: what beside 2 x 3.6 kohm + 200 ohm makes 2 kohm",
        2000.0,
        "ohm",
        lambda c: seen(
            "R1 resistor in 0 2741 ohm",
            "R2 resistor in a 3.6 kohm",
            "R3 resistor a b 200 ohm",
            "R4 resistor b 0 3.6 kohm",
        ),
        "[pad-thread-5531]",
    ),
    from_memory(
        "T-pad 490.9 / 121.2 / 490.9 ohm between 600 ohm, against no pad",
        -20.0,
        "dB",
        lambda c: level(t_pad(), {"E1": 2.0}, "out"),
        "Z (k - 1) / (k + 1), 2 Z k / (k^2 - 1)",
    ),
    from_memory(
        "the same, looked into",
        600.0,
        "ohm",
        lambda c: seen(
            "R1 resistor in mid 490.9 ohm",
            "R2 resistor mid 0 121.2 ohm",
            "R3 resistor mid out 490.9 ohm",
            "R4 resistor out 0 600 ohm",
        ),
        "matched on both sides",
    ),
    # Hum
    derived(
        "Rejection, 10 ohm of difference (50 and 60 ohm), 20 kohm to earth",
        66.07,
        "dB",
        lambda c: rejection("50 ohm", "60 ohm", "20 kohm"),
        "bridge",
    ),
    derived(
        "Rejection, 10 ohm of difference, 10 kohm to earth",
        60.10,
        "dB",
        lambda c: rejection("50 ohm", "60 ohm", "10 kohm"),
        "bridge",
    ),
    derived(
        "Rejection, 10 ohm of difference, 50 Mohm to earth",
        133.98,
        "dB",
        lambda c: rejection("50 ohm", "60 ohm", "50 Mohm"),
        "bridge",
    ),
    derived(
        "Rejection, 50 and 650 ohm (unbalanced source), 10 kohm to earth",
        25.03,
        "dB",
        lambda c: rejection("50 ohm", "650 ohm", "10 kohm"),
        "bridge",
    ),
    derived("316 uA along a screen of 1 ohm", 316e-6, "V", lambda c: dropped("316 uA", "1 ohm"), "I R"),
    from_memory(
        "that against -10 dBV",
        60.0,
        "dB",
        lambda c: against_consumer_line("316 uA", "1 ohm"),
        "example of a handbook",
    ),
    derived(
        "316 uA along 25 ft at 2.6 mohm/ft [handbook-sound-engineers-p1217]",
        20.5e-6,
        "V",
        lambda c: dropped("316 uA", "65 mohm"),
        "I R",
    ),
    derived(
        "that against -10 dBV", 83.7, "dB", lambda c: against_consumer_line("316 uA", "65 mohm"), "20 log"
    ),
    derived("10 mA along 10 m at 20 mohm/m", 2.0e-3, "V", lambda c: dropped("10 mA", "200 mohm"), "Zt l I"),
    # Cables
    *(
        published(
            f"{ohms} with 100 m at 100 pF/m [cable-capacitance-page], level at the printed corner",
            -3.01,
            "dB",
            lambda c, ohms=ohms, hertz=hertz: low_pass(ohms, "10 nF", hertz),
            "1 / (2 pi R C)",
        )
        for ohms, hertz in (("150 ohm", 106.1e3), ("200 ohm", 79.6e3))
    ),
    derived(
        "1 kohm with 200 ft at 17 pF/ft [handbook-sound-engineers-p1217], level at 46.8 kHz",
        -3.01,
        "dB",
        lambda c: low_pass("1 kohm", "3.4 nF", 46.8e3),
        "1 / (2 pi R C)",
    ),
    derived(
        "200 ohm with 398 m at 100 pF/m, 20 kHz",
        -3.01,
        "dB",
        lambda c: low_pass("200 ohm", "39.8 nF", 20e3),
        "1 / (2 pi R f C')",
    ),
    derived(
        "200 ohm with 202 m at 100 pF/m, 20 kHz",
        -1.0,
        "dB",
        lambda c: low_pass("200 ohm", "20.2 nF", 20e3),
        "first order",
    ),
    derived(
        "10 kohm with 6 m at 100 pF/m, 20 kHz",
        -1.95,
        "dB",
        lambda c: low_pass("10 kohm", "600 pF", 20e3),
        "first order",
    ),
    derived(
        "100 m of 24 AWG pair (84.2 ohm/km [awg-chart]), there and back",
        16.84,
        "ohm",
        lambda c: seen("R1 resistor in far 8.42 ohm", "R2 resistor far 0 8.42 ohm"),
        "2 l R'",
    ),
]


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: f"{check.asked} ({check.source})")
def test_worked_check(catalogue, check):
    found = check.found(catalogue)
    assert found == (
        pytest.approx(check.expected, abs=0.05)
        if check.unit == "dB"
        else pytest.approx(check.expected, rel=0.005)
    )


def test_a_button_of_no_resistance_leaves_no_volts():
    """published: function A is 0 ohm [phone-headset-spec]."""
    assert volts(
        circuit("E1 emf rail 0 2.2 V", "R1 resistor rail mic 2.2 kohm", "J1 wire mic 0"), "mic"
    ) == pytest.approx(0.0, abs=1e-12)
