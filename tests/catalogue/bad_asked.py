"""Circuits whose deciding numbers no manual is asked for."""

from .bad_case import case

ASKED = [  # edits after which a manual is asked for every number that decides
    (
        "questions.yaml",
        "",
        "loudest: {asks: Maximum input level, unit: V}\nnumbers: {asks: The others, unit: V}\n",
    ),
    ("circuits/input.yaml", "  maximum: 0 dBu\n", "  maximum: 0 dBu\n  quietest: unknown\n  blocked: 63 V\n"),
    ("circuits/input.yaml", "sensitivity: unknown", "sensitivity: quietest"),
    ("circuits/input.yaml", "volts: 63 V, momentary", "volts: blocked, momentary"),
    (
        "circuits/input.yaml",
        "evidence: from memory\n",
        (
            "asks: {loudest: {sets: maximum}, numbers: {sets: [blocked, quietest, volts]}}\n"
            "evidence: from memory\n"
        ),
    ),
    (
        "circuits/output.yaml",
        "parts:\n",
        "parameters: {level: +4 dBu, lightest: 600 ohm, least: 9..10 V}\nparts:\n",
    ),
    ("circuits/output.yaml", "nominal: +4 dBu, least_load: 600 ohm", "nominal: level, least_load: lightest"),
    ("circuits/output.yaml", "volts: 9..10 V}", "volts: least}"),
    (
        "circuits/output.yaml",
        "evidence: from memory\n",
        "unasked: {level: Made up., lightest: Made up., least: Made up.}\nevidence: from memory\n",
    ),
]

# The messages are what is tested here: they stand unbroken, however long.
# fmt: off
UNASKED = [
    case([*ASKED, ("circuits/input.yaml", "{loudest: {", "{lowdest: {")], """\
pinouts/circuits/input.yaml:22:8: error[unknown-question]
    there is no question 'lowdest'. Did you mean 'loudest'?"""),
    case([*ASKED, ("circuits/input.yaml", "loudest: {sets: maximum}, ", "")], """\
pinouts/circuits/input.yaml:6:3: error[unasked-number]
    'maximum' decides verdicts and no question asks for it; name it under `asks`, or under `unasked` with the reason why no manual tells it."""),
    case([*ASKED, ("circuits/input.yaml", "volts: blocked, ", "volts: 63 V, "), ("circuits/input.yaml", "  blocked: 63 V\n", ""),
          ("circuits/input.yaml", "blocked, quietest", "quietest")], """\
pinouts/circuits/input.yaml:20:60: error[unasked-number]
    `volts` of 'couple' under `limits` decides verdicts and is written in its place; make it a parameter and name it under `asks`, or under `unasked` with the reason why no manual tells it."""),
    case([*ASKED, ("circuits/output.yaml", "least_load: lightest", "least_load: 600 ohm"), ("circuits/output.yaml", "lightest: 600 ohm, ", ""),
          ("circuits/output.yaml", "lightest: Made up., ", ""), ("circuits/output.yaml", "volts: least}", "volts: 9..10 V}"), ("circuits/output.yaml", ", least: 9..10 V", ""),
          ("circuits/output.yaml", ", least: Made up.", "")], """\
pinouts/circuits/output.yaml:11:90: error[unasked-number]
    `least_load` of 'main' under `sources` decides verdicts and is written in its place; make it a parameter and name it under `asks`, or under `unasked` with the reason why no manual tells it.
pinouts/circuits/output.yaml:13:60: error[unasked-number]
    `volts` of 'power' under `needs` decides verdicts and is written in its place; make it a parameter and name it under `asks`, or under `unasked` with the reason why no manual tells it."""),
    case([*ASKED, ("circuits/input.yaml", "{emf: volts, between", "{emf: 48 V, between"), ("circuits/input.yaml", "blocked, quietest, volts", "blocked, quietest"),
          ("circuits/input.yaml", "  volts: {value: 48 V +-4 V, evidence: published, cite: handbook}\n", "")], """\
pinouts/circuits/input.yaml:9:15: error[unasked-number]
    `emf` of 'rail' under `parts` decides verdicts and is written in its place; make it a parameter and name it under `asks`, or under `unasked` with the reason why no manual tells it."""),
    case([*ASKED, ("circuits/output.yaml", "sec: {inductor", "draw: {sink: 1 mA, between: [top, chassis], knee: 5 V}\n  source: {resistor: 75 ohm, between: [top, hot]}\n  sec: {inductor")], """\
pinouts/circuits/output.yaml:7:16: error[unasked-number]
    `sink` of 'draw' under `parts` decides verdicts and is written in its place; make it a parameter and name it under `asks`, or under `unasked` with the reason why no manual tells it.
pinouts/circuits/output.yaml:8:22: error[unasked-number]
    `resistor` of 'source' under `parts` decides verdicts and is written in its place; make it a parameter and name it under `asks`, or under `unasked` with the reason why no manual tells it."""),
    case([*ASKED, ("circuits/output.yaml", "lightest: Made up., ", "lightest: Made up., lightets: Made up., ")], """\
pinouts/circuits/output.yaml:14:48: error[needless-unasked]
    'lightets' is no parameter of this circuit; take it out of `unasked`."""),
    case([*ASKED, ("circuits/input.yaml", "evidence: from memory\n", "unasked: {feed: The standard's own., maximum: It differs.}\nevidence: from memory\n")], """\
pinouts/circuits/input.yaml:23:11: error[needless-unasked]
    'feed' is no number that decides; take it out of `unasked`.
pinouts/circuits/input.yaml:23:38: error[needless-unasked]
    'maximum' is asked for; take it out of `unasked`."""),
]
