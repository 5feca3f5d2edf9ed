"""Worked checks of power: phantom, T-power, plug-in power and headsets."""

from math import pi

from bench import amps, circuit, volts
from checks import Check, derived, published
from worked import (
    P48_INPUT,
    both_shorted,
    button,
    drawn,
    fed,
    left_at_microphone,
    loop,
    low_pass,
    microphone_on_input,
    most_watts,
    one_shorted,
    port,
    seen,
    t_power,
    uneven,
)

POWER = [
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
]
