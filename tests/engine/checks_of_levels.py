"""Worked checks of levels: loading, joined outputs, pads, hum, cables."""

from bench import circuit, signal
from checks import Check, derived, from_memory, published
from worked import (
    against_consumer_line,
    backwards,
    divider,
    dropped,
    headphone_watts,
    level,
    loop,
    low_pass,
    opposing_outputs,
    pad,
    rejection,
    seen,
    summer,
    t_pad,
)

LEVELS = [
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
