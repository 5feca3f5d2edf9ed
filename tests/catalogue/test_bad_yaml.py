"""Every way to write a bad file that the catalogue knows, each with the exact text its author gets to see.

A case is a list of edits (file, old text, new text) to the tiny catalogue; a file that is
not there is written anew.
"""

import re

import pytest

from generator.catalogue.lint import lint
from generator.catalogue.rules import RULES


def case(edits, expected):
    return pytest.param(edits, expected, id=re.search(r"error\[([a-z-]+)", expected)[1])


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
CASES = [
    case([("ports/Desk_Out.yaml", "", "name: Desk output\nsame_as: desk-in\n")], """\
pinouts/ports/Desk_Out.yaml:1:1: error[bad-file-name]
    'Desk_Out.yaml' must start with a letter, be lower-case words and digits joined by hyphens, and end in .yaml."""),
    case([("port/desk-out.yaml", "", "name: Desk output\nsame_as: desk-in\n")], """\
pinouts/port/desk-out.yaml:1:1: error[stray-file]
    no YAML file is looked for here; the folders are connectors, assignments, circuits, cables, ports, leads. Did you mean 'ports'?"""),
    case([("leads/deep.yaml", "", f"x: {'[' * 41}{']' * 41}\n")], """\
pinouts/leads/deep.yaml:1:1: error[too-deep]
    maps and lists stand more than 40 deep in each other here."""),
    case([("leads/large.yaml", "", f"name: {'x' * 500_000}\n")], """\
pinouts/leads/large.yaml:1:1: error[too-large]
    the file is larger than 500 kB, the most that is read."""),
    case([("assignments/jack-balanced.yaml", "used_for: Balanced audio.", 'used_for: "Balanced \\u200baudio."')], """\
pinouts/assignments/jack-balanced.yaml:4:11: error[hidden-character]
    'used_for' holds the character U+200B, which nobody sees; take it out."""),
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
    case([("published.txt", "", "leads/straight\nleads/gone\n")], """\
pinouts/published.txt:2:1: error[published-id-gone]
    'gone' was published among the leads and is gone; put it back, or name its successor in retired.yaml."""),
    case([("published.txt", "", "leads/straight\ngone\n")], """\
pinouts/published.txt:2:1: error[bad-published-line]
    'gone' is not a kind and an id, such as ports/desk-in."""),
    case([("connectors/jack.yaml", "diameter: 6.35 mm", "diameter: 6.35 m")], """\
pinouts/connectors/jack.yaml:5:13: error[implausible]
    '6.35 m' is not likely here: 'diameter' has 0.01 mm to 0.3 m. Parts of plugs and sockets: a spring touches over tenths of a millimetre, a cable reel's plug is a hand long. A slip of the prefix? If it is right, add `confirmed:` with the reason."""),
    case([("leads/nothing.yaml", "", "# only a comment\n")], """\
pinouts/leads/nothing.yaml:1:1: error[empty-file]
    the file is empty."""),
    case([("assignments/jack-balanced.yaml", "carries: {tip: hot, ring: cold, sleeve: screen}", "carries: {tip: hot, ring: cold, sleeve: screen")], """\
pinouts/assignments/jack-balanced.yaml:4:9: error[syntax]
    this is not YAML: did not find expected ',' or '}', while parsing a flow mapping."""),
    case([("assignments/jack-balanced.yaml", "used_for: Balanced audio.", "used_for: Balanced: audio.")], """\
pinouts/assignments/jack-balanced.yaml:4:19: error[syntax]
    this is not YAML: mapping values are not allowed in this context."""),
    case([("sources.yaml", "title: A handbook", "title: [A handbook")], """\
pinouts/sources.yaml:3:8: error[syntax]
    this is not YAML: did not find expected ',' or ']', while parsing a flow sequence."""),
    case([("connectors/jack.yaml", "shape: concentric", "shape: [concentric")], """\
pinouts/connectors/jack.yaml:3:9: error[syntax]
    this is not YAML: did not find expected ',' or ']', while parsing a flow sequence."""),
    case([("connectors/jack.yaml", "tip: {at: 4..6 mm, width: 1 mm}\n    ring: {at: 12..13 mm, width: 1 mm}", "tip: {at: 4..6 mm, width: &w 1 mm}\n    ring: {at: 12..13 mm, width: *w}")], """\
pinouts/connectors/jack.yaml:9:31: error[alias]
    YAML aliases (`*name`) are not used here; repeat the value or use `same_as`."""),
    case([("assignments/jack-balanced.yaml", "used_for: Balanced audio.", "name: Twice")], """\
pinouts/assignments/jack-balanced.yaml:4:1: error[duplicate-key]
    'name' stands twice in this map.
    defined at pinouts/assignments/jack-balanced.yaml:1"""),
    case([("retired.yaml", "split: {old-leads:", "split: {old-jack:")], """\
pinouts/retired.yaml:2:9: error[duplicate-key]
    'old-jack' is retired twice.
    defined at pinouts/retired.yaml:1"""),
    case([("leads/crossed.yaml", "name: Jack to round, crossed\n", "")], """\
pinouts/leads/crossed.yaml:1:1: error[same-name]
    'Jack to round' is the name of 'straight' too; readers choose by name.
    defined at pinouts/leads/straight.yaml:1"""),
    case([("leads/jack.yaml", "", "name: Another\nsame_as: block\n")], """\
pinouts/leads/jack.yaml:1:1: error[id-taken]
    'jack' is taken; connectors, assignments, ports and leads share one set of ids.
    defined at pinouts/connectors/jack.yaml:1"""),
    case([("assignments/jack-balanced.yaml", "used_for:", "use_for:")], """\
pinouts/assignments/jack-balanced.yaml:4:1: error[unknown-key]
    'use_for' is not a key here; this assignment takes name, same_as, connector, carries, used_for, recognise, mistaken_for, also_called, evidence, cite, checked, confirmed, note. Did you mean 'used_for'?"""),
    case([("assignments/jack-balanced.yaml", "connector: jack", "conector: jack")], """\
pinouts/assignments/jack-balanced.yaml:2:1: error[unknown-key]
    'conector' is not a key here; this assignment takes name, same_as, connector, carries, used_for, recognise, mistaken_for, also_called, evidence, cite, checked, confirmed, note. Did you mean 'connector'?"""),
    case([("circuits/input.yaml", "{resistor: 2 kohm, between", "{resistr: 2 kohm, between")], """\
pinouts/circuits/input.yaml:12:10: error[unknown-key]
    'resistr' is not a key here; 'load' takes resistor, capacitor, inductor, emf, sink, clamp, wire, between, supply, skew, match, knee, series, coil. Did you mean 'resistor'?"""),
    case([("ports/desk-in.yaml", "assignment: round-balanced\n", "")], """\
pinouts/ports/desk-in.yaml:1:1: error[missing-key]
    this port lacks the key 'assignment': which contact carries what."""),
    case([("connectors/round.yaml", "  2: {angle: 90 deg, radius: 3.81 mm}", "  2: {angle: 90 deg}")], """\
pinouts/connectors/round.yaml:7:6: error[one-of]
    '2' takes exactly one of radius, y; it has none."""),
    case([("connectors/round.yaml", "  2: {angle: 90 deg, radius: 3.81 mm}", "  2: {x: 3.81 mm, radius: 3.81 mm}")], """\
pinouts/connectors/round.yaml:7:7: error[wrong-face]
    contact '2' has 'x'; on a circular face contacts stand at angle and radius."""),
    case([("connectors/round.yaml", "key: 90 deg", "turned: {1: 4}")], """\
pinouts/connectors/round.yaml:9:13: error[unknown-contact]
    '4' is not a contact of this connector; it has 1, 2, 3.
    defined at pinouts/connectors/round.yaml:4"""),
    case([("connectors/round.yaml", "key: 90 deg", "takes: jak")], """\
pinouts/connectors/round.yaml:9:8: error[unknown-connector]
    there is no connector 'jak'. Did you mean 'jack'?"""),
    case([("connectors/round.yaml", "key: 90 deg", "looks: {latch: screw}")], """\
pinouts/connectors/round.yaml:9:16: error[bad-choice]
    'screw' is not a legal value of 'latch'; write one of none, push-tab, thread, screws, bayonet, push-pull, twist. Did you mean 'screws'?"""),
    case([("leads/straight.yaml", "length: 3 m\n", "")], """\
pinouts/leads/straight.yaml:10:1: error[missing-key]
    this lead lacks the key 'length': a cable's resistance and capacitance are per metre."""),
    case([("connectors/jack.yaml", "  segments: {tip: 0..9 mm, ring: 10..15 mm, sleeve: 16..30 mm}\n", "")], """\
pinouts/connectors/jack.yaml:5:3: error[missing-key]
    'plug' lacks the key 'segments': where each contact lies along the barrel."""),
    case([("connectors/jack.yaml", "contacts: [tip, ring, sleeve]", "contacts: tip")], """\
pinouts/connectors/jack.yaml:3:11: error[wrong-type]
    'contacts' must be a list, not text."""),
    case([("ports/desk-in.yaml", "device: desk", "device: [desk]")], """\
pinouts/ports/desk-in.yaml:2:9: error[wrong-type]
    'device' must be text, not a list."""),
    case([("circuits/input.yaml", "{wire: , between", "{wire: yes, between")], """\
pinouts/circuits/input.yaml:13:16: error[wrong-type]
    'wire' takes no value; leave it empty."""),
    case([("sources.yaml", "handbook:\n  title: A handbook\n  where: page 1\n  kind: handbook\n", "- handbook\n")], """\
pinouts/sources.yaml:1:1: error[wrong-type]
    a file must be a map of `key: value` lines."""),
    case([("ports/desk-in.yaml", "device: desk", "device:")], """\
pinouts/ports/desk-in.yaml:2:8: error[empty-value]
    'device' has no value; text is wanted."""),
    case([("connectors/jack.yaml", "shape: concentric", "shape: concentrick")], """\
pinouts/connectors/jack.yaml:2:8: error[bad-choice]
    'concentrick' is not a legal value of 'shape'; write one of concentric, coaxial, circular, rectangular. Did you mean 'concentric'?"""),
    case([("ports/desk-in.yaml", "earthed: maybe", "earthed: perhaps")], """\
pinouts/ports/desk-in.yaml:8:10: error[bad-choice]
    'perhaps' is not a legal value of 'earthed'; write one of yes, no, maybe."""),
    case([("ports/desk-in.yaml", "earthed: maybe", "earthed: maybe\ncautions: [{when: rain, says: Stay in.}]")], """\
pinouts/ports/desk-in.yaml:9:19: error[bad-choice]
    'rain' is not a legal value of 'when'; write one of phantom, meets-phantom, t-power, plug-in-power, needs-power, full-battery, microphone, line, data, \
amplifier, stereo, balanced, headphones, mains, more-leads, not-safe, another-use. Did you mean 'mains'?"""),
    case([("ports/desk-in.yaml", "earthed: maybe", "earthed: maybe\ncautions: [{when: phantom}]")], """\
pinouts/ports/desk-in.yaml:9:12: error[missing-key]
    'cautions' lacks the key 'says': the warning."""),
    case([("circuits/input.yaml", "in-hot, cold], sensitivity", "In_Hot, cold], sensitivity")], """\
pinouts/circuits/input.yaml:15:38: error[bad-name]
    'In_Hot' is not a name; write lower-case letters, digits and single hyphens, such as feed-hot."""),
    case([("leads/block.yaml", "hot: [a.tip, inner]", "hot: [a.tip.1, inner]")], """\
pinouts/leads/block.yaml:7:9: error[bad-name]
    'a.tip.1' is not a name; write lower-case letters, digits and single hyphens, such as feed-hot."""),
    case([("leads/straight.yaml", "  b: {connector: round, half: male, label: round plug, usual: desk-in}\n", "")], """\
pinouts/leads/straight.yaml:4:3: error[too-few]
    'ends' has 1 of at least 2 entries."""),
    case([("circuits/input.yaml", "between: [hot, in-hot]", "between: [hot]")], """\
pinouts/circuits/input.yaml:11:39: error[too-few]
    'between' has 1 of at least 2 items."""),
    case([("circuits/input.yaml", "between: [hot, in-hot]", "between: [hot, in-hot, cold]")], """\
pinouts/circuits/input.yaml:11:39: error[too-many]
    'between' has 3 of at most 2 items."""),
    case([("circuits/input.yaml", "volts: 63 V, momentary", "volts: 63 V, amps: 1 A, momentary")], """\
pinouts/circuits/input.yaml:19:66: error[one-of]
    'couple' takes exactly one of volts, reverse, amps, watts; it has volts, amps."""),
    case([("circuits/input.yaml", "{resistor: 2 kohm, between", "{between")], """\
pinouts/circuits/input.yaml:12:9: error[one-of]
    'load' takes exactly one of resistor, capacitor, inductor, emf, sink, clamp, wire; it has none."""),
    case([("connectors/jack.yaml", "diameter: 6.35 mm", "diameter: 6.35 millimetres")], """\
pinouts/connectors/jack.yaml:5:13: error[bad-quantity]
    'millimetres' in '6.35 millimetres' is not a unit; units are V, A, W, ohm, F, H, m, deg, %, ohm/m, F/m, dB, dBu, dBV, with prefixes p n u m k M."""),
    case([("connectors/jack.yaml", "diameter: 6.35 mm", "diameter: 6,35 mm")], """\
pinouts/connectors/jack.yaml:5:13: error[bad-quantity]
    '6,35 mm' is not a quantity; write a number and a unit (6.81 kohm), a range (44..52 V), a tolerance (48 V +-4 V, 6.81 kohm +-20 %) or `unknown`."""),
    case([("cables/pair.yaml", "evidence: from memory", "evidence: published\ncite: handbook")], """\
pinouts/cables/pair.yaml:6:10: error[borrowed-grade]
    the current of 1..2 A takes the record's 'published', which is about its resistance; give it evidence of its own.
    defined at pinouts/cables/pair.yaml:8"""),
    case([("cables/pair.yaml", "core: 80 mohm/m", "core: nan")], """\
pinouts/cables/pair.yaml:2:7: error[bad-quantity]
    'nan' is not a quantity; write a number and a unit (6.81 kohm), a range (44..52 V), a tolerance (48 V +-4 V, 6.81 kohm +-20 %) or `unknown`."""),
    case([("cables/pair.yaml", "core: 80 mohm/m", "core: 1e999 ohm/m")], """\
pinouts/cables/pair.yaml:2:7: error[bad-quantity]
    '1e999 ohm/m' is too large to be a quantity."""),
    case([("connectors/jack.yaml", "at: 12..13 mm", "at: 13..12 mm")], """\
pinouts/connectors/jack.yaml:10:16: error[bad-quantity]
    '13..12 mm' runs backwards; write the lower value first."""),
    case([("circuits/input.yaml", "{capacitor: 47 uF,", "{capacitor: 47 V,")], """\
pinouts/circuits/input.yaml:11:23: error[wrong-unit]
    '47 V' is a voltage; a capacitance (F) is wanted here."""),
    case([("ports/desk-in.yaml", "feed: 6.8 kohm", "feed: 6.8 V")], """\
pinouts/ports/desk-in.yaml:7:28: error[wrong-unit]
    '6.8 V' is a voltage; a resistance (ohm) is wanted here.
    defined at pinouts/circuits/input.yaml:9"""),
    case([("circuits/input.yaml", "momentary: unknown", "momentary: 1 A")], """\
pinouts/circuits/input.yaml:19:77: error[wrong-unit]
    '1 A' is a current; a voltage (V) is wanted here."""),
    case([("circuits/output.yaml", "{inductor: 1 H, between: [top", "{inductor: 0 H, between: [top")], """\
pinouts/circuits/output.yaml:5:20: error[non-positive]
    '0 H' is not above zero; an inductance must be."""),
    case([("circuits/output.yaml", "{emf: 0 V, between: [top, chassis]}", "{sink: 0 A, between: [top, chassis], knee: 1 V}")], """\
pinouts/circuits/output.yaml:4:17: error[non-positive]
    '0 A' is not above zero; a current must be."""),
    case([("circuits/output.yaml", "{emf: 0 V, between: [top, chassis]}", "{sink: 1 mA, between: [top, chassis]}")], """\
pinouts/circuits/output.yaml:4:3: error[missing-key]
    part 'drive' lacks the key 'knee': a sink cannot be solved without it."""),
    case([("leads/block.yaml", "{capacitor: 10 uF, between: [inner, b.2]}", "{clamp: 10 V, between: [inner, b.2]}")], """\
pinouts/leads/block.yaml:11:3: error[missing-key]
    part 'block' lacks the key 'series': a clamp cannot be solved without it."""),
    case([("ports/desk-in.yaml", "feed: 6.8 kohm", "feed: -6.8 kohm")], """\
pinouts/ports/desk-in.yaml:7:28: error[non-positive]
    '-6.8 kohm' is not above zero; a resistance must be.
    defined at pinouts/circuits/input.yaml:9"""),
    case([("leads/straight.yaml", "length: 3 m", "length: 0 m")], """\
pinouts/leads/straight.yaml:11:9: error[non-positive]
    '0 m' is not above zero; a length must be."""),
    case([("ports/desk-in.yaml", "feed: 6.8 kohm", "feed: unknown")], """\
pinouts/ports/desk-in.yaml:7:28: error[not-unknown]
    'feed' cannot be unknown: the circuit could not be solved.
    defined at pinouts/circuits/input.yaml:9"""),
    case([("circuits/output.yaml", "drive: {drive: 1}", "drive: {drive: one}")], """\
pinouts/circuits/output.yaml:10:37: error[bad-number]
    'one' is not a number; write 0.5, -1 or 1/2200."""),
    case([("circuits/output.yaml", "k: 0.999", "k: 1")], """\
pinouts/circuits/output.yaml:8:33: error[bad-coupling]
    'k' is 1; it must lie between 0 and 1, both excluded."""),
    case([("assignments/jack-balanced.yaml", "evidence: common practice", "evidence: hearsay")], """\
pinouts/assignments/jack-balanced.yaml:6:11: error[bad-evidence]
    'hearsay' is not a legal value of 'evidence'; write one of standard, published, common practice, derived, from memory, your manual."""),
    case([("assignments/jack-balanced.yaml", "evidence: common practice", "evidence: standard")], """\
pinouts/assignments/jack-balanced.yaml:6:11: error[missing-cite]
    evidence 'standard' needs `cite:` with an id from sources.yaml; without one it is 'from memory'."""),
    case([("circuits/input.yaml", "evidence: published, cite: handbook", "evidence: published")], """\
pinouts/circuits/input.yaml:4:40: error[missing-cite]
    evidence 'published' needs `cite:` with an id from sources.yaml; without one it is 'from memory'."""),
    case([("connectors/round.yaml", "checked: 2026-11-25", "checked: 2026-02-30")], """\
pinouts/connectors/round.yaml:14:10: error[bad-date]
    '2026-02-30' is not a date; write year-month-day, such as 2026-11-25."""),
    case([("assignments/jack-balanced.yaml", "connector: jack", "connector: jak")], """\
pinouts/assignments/jack-balanced.yaml:2:12: error[unknown-connector]
    there is no connector 'jak'. Did you mean 'jack'?"""),
    case([("ports/desk-in.yaml", "assignment: round-balanced", "assignment: round-balance")], """\
pinouts/ports/desk-in.yaml:5:13: error[unknown-assignment]
    there is no assignment 'round-balance'. Did you mean 'round-balanced'?"""),
    case([("ports/desk-in.yaml", "use: input", "use: inputs")], """\
pinouts/ports/desk-in.yaml:7:15: error[unknown-circuit]
    there is no circuit 'inputs'. Did you mean 'input'?"""),
    case([("leads/straight.yaml", "cable: pair", "cable: quad")], """\
pinouts/leads/straight.yaml:10:8: error[unknown-cable]
    there is no cable 'quad'."""),
    case([("leads/straight.yaml", "usual: desk-in", "usual: desk-on")], """\
pinouts/leads/straight.yaml:5:63: error[unknown-port]
    there is no port 'desk-on'. Did you mean 'desk-in'?"""),
    case([("leads/crossed.yaml", "looks_like: straight", "looks_like: strait")], """\
pinouts/leads/crossed.yaml:4:13: error[unknown-lead]
    there is no lead 'strait'. Did you mean 'straight'?"""),
    case([("leads/crossed.yaml", "same_as: straight", "same_as: strait")], """\
pinouts/leads/crossed.yaml:2:10: error[unknown-lead]
    there is no lead 'strait'. Did you mean 'straight'?"""),
    case([("connectors/round.yaml", "cite: handbook", "cite: handbok")], """\
pinouts/connectors/round.yaml:13:7: error[unknown-source]
    there is no source 'handbok'. Did you mean 'handbook'?"""),
    case([("assignments/jack-balanced.yaml", "connector: jack", "connector: old-jack")], """\
pinouts/assignments/jack-balanced.yaml:2:12: error[retired-reference]
    'old-jack' is retired; use 'jack'."""),
    case([("leads/straight.yaml", "name: Jack to round\n", "name: Jack to round\nsame_as: crossed\n")], """\
pinouts/leads/crossed.yaml:2:10: error[same-as-cycle]
    `same_as` runs in a circle: crossed -> straight -> crossed."""),
    case([("ports/player-out.yaml", "main: {use: output}", "main: {use: output}\n  right: {same_as: mian}")], """\
pinouts/ports/player-out.yaml:8:20: error[unknown-instance]
    this port has no instance 'mian'; it has main, right. Did you mean 'main'?"""),
    case([("connectors/round.yaml", "male: {diameter: 19 mm}", "male: {diameter: 19 mm}\nplug: {diameter: 19 mm}")], """\
pinouts/connectors/round.yaml:11:1: error[wrong-half]
    a circular connector has no half 'plug'; its halves are male and female."""),
    case([("connectors/jack.yaml", "  jack: {panel: [{piece: nut, long: 3 mm, wide: 14 mm}]}\n", "")], """\
pinouts/connectors/jack.yaml:14:1: error[no-silhouette]
    'body' shows no side view of the jack."""),
    case([("connectors/third.yaml", "", "name: Third\nsame_as: jack\nbody: fourth\n"), ("connectors/fourth.yaml", "", "name: Fourth\nsame_as: jack\nbody: jack\n")], """\
pinouts/connectors/third.yaml:3:7: error[borrowed-body]
    'fourth' takes its body from another one itself; name 'jack'.
    defined at pinouts/connectors/fourth.yaml:3"""),
    case([("connectors/round.yaml", "key: 90 deg", "looks: {keyway: slot}")], """\
pinouts/connectors/round.yaml:9:9: error[no-key]
    its keyway is a slot, but 'key' does not say where it stands on the male face."""),
    case([("connectors/round.yaml", "keyed: {male: ridge, female: slot}", "keyed: {male: ridge}")], """\
pinouts/connectors/round.yaml:9:1: error[no-key-form]
    it has a key, but 'keyed' does not say what the key is on the female."""),
    case([("connectors/round.yaml", "first: round-balanced", "first: jack-balanced")], """\
pinouts/connectors/round.yaml:21:16: error[not-its-assignment]
    'jack-balanced' is an assignment of another connector."""),
    case([("ports/desk-in.yaml", "half: female", "half: jack")], """\
pinouts/ports/desk-in.yaml:4:7: error[unknown-half]
    'jack' is not a half of 'round'; it has male, female.
    defined at pinouts/connectors/round.yaml:2"""),
    case([("assignments/jack-balanced.yaml", "ring: cold", "rign: cold")], """\
pinouts/assignments/jack-balanced.yaml:3:21: error[unknown-contact]
    'rign' is not a contact of 'jack'; it has tip, ring, sleeve. Did you mean 'ring'?
    defined at pinouts/connectors/jack.yaml:3"""),
    case([("connectors/jack.yaml", "ring: {at: 12..13 mm", "rim: {at: 12..13 mm")], """\
pinouts/connectors/jack.yaml:10:5: error[unknown-contact]
    'rim' is not a contact of this connector; it has tip, ring, sleeve.
    defined at pinouts/connectors/jack.yaml:3"""),
    case([("leads/straight.yaml", "cold: [a.ring, b.3]", "cold: [a.ring, b.4]")], """\
pinouts/leads/straight.yaml:8:18: error[unknown-contact]
    '4' is not a contact of 'round'; it has 1, 2, 3.
    defined at pinouts/connectors/round.yaml:4"""),
    case([("connectors/jack.yaml", "sleeve: {at: 20..25 mm", "sleve: {at: 20..25 mm")], """\
pinouts/connectors/jack.yaml:11:5: error[unknown-contact]
    'sleve' is not a contact of this connector; it has tip, ring, sleeve. Did you mean 'sleeve'?
    defined at pinouts/connectors/jack.yaml:3"""),
    case([("connectors/round.yaml", "  2: {angle: 90 deg, radius: 3.81 mm}\n", "")], """\
pinouts/connectors/round.yaml:5:1: error[missing-contact]
    'face' says nothing of 2; every contact needs its place."""),
    case([("connectors/round.yaml", "contacts: [1, 2, 3]", "contacts: [1, 2, 3, 3]")], """\
pinouts/connectors/round.yaml:4:21: error[repeated]
    contact '3' is named twice."""),
    case([("connectors/jack.yaml", "tip: 0..9 mm", "tip: 0..11 mm")], """\
pinouts/connectors/jack.yaml:6:35: error[segments-overlap]
    segment 'ring' (10..15 mm) overlaps segment 'tip' (0..11 mm).
    defined at pinouts/connectors/jack.yaml:6"""),
    case([("connectors/jack.yaml", "contacts: [tip, ring, sleeve]", "contacts: [ring, tip, sleeve]")], """\
pinouts/connectors/jack.yaml:6:19: error[segments-unordered]
    segment 'tip' (0..9 mm) lies before 'ring' (10..15 mm); contacts are listed from the tip back.
    defined at pinouts/connectors/jack.yaml:3"""),
    case([("connectors/jack.yaml", "at: 12..13 mm", "at: 12..14.6 mm")], """\
pinouts/connectors/jack.yaml:10:16: error[spring-off-segment]
    spring 'ring' reaches 11.5..15.1 mm with its width, but segment 'ring' of the plug is 10..15 mm.
    defined at pinouts/connectors/jack.yaml:6"""),
    case([("circuits/input.yaml", "{resistor: 2 kohm,", "{resistor: lod,")], """\
pinouts/circuits/input.yaml:12:20: error[unknown-parameter]
    'lod' is neither a quantity nor a parameter of this circuit."""),
    case([("circuits/input.yaml", "{emf: volts,", "{emf: voltz,")], """\
pinouts/circuits/input.yaml:8:15: error[unknown-parameter]
    'voltz' is neither a quantity nor a parameter of this circuit. Did you mean 'volts'?"""),
    case([("ports/desk-in.yaml", "feed: 6.8 kohm", "fed: 6.8 kohm")], """\
pinouts/ports/desk-in.yaml:7:22: error[unknown-parameter]
    'fed' is not a parameter of 'input'; it has volts, feed, maximum. Did you mean 'feed'?
    defined at pinouts/circuits/input.yaml:1"""),
    case([("circuits/input.yaml", "  maximum: 0 dBu\n", "  maximum: 0 dBu\n  spare: 1 V\n")], """\
pinouts/circuits/input.yaml:7:3: error[unused-parameter]
    nothing in this circuit uses the parameter 'spare'."""),
    case([("circuits/same.yaml", "", "name: The same input\nsame_as: input\n"), ("circuits/input.yaml", "  maximum: 0 dBu\n", "  maximum: 0 dBu\n  spare: 1 V\n")], """\
pinouts/circuits/input.yaml:7:3: error[unused-parameter]
    nothing in this circuit uses the parameter 'spare'."""),
    case([("circuits/input.yaml", "maximum: maximum", "maximum: 0 dBu")], """\
pinouts/circuits/input.yaml:6:3: error[unused-parameter]
    nothing in this circuit uses the parameter 'maximum'."""),
    case([("circuits/input.yaml", "  maximum: 0 dBu\n", "  maximum: 0 dBu\n  use: 1 V\n")], """\
pinouts/circuits/input.yaml:7:3: error[reserved-name]
    a parameter cannot be called 'use': that is a key of an instance."""),
    case([("circuits/input.yaml", "roles: [hot, cold, screen]", "roles: [hot, cold, screen, mic]")], """\
pinouts/circuits/input.yaml:2:28: error[unused-role]
    no part touches the role 'mic'.
pinouts/ports/desk-in.yaml:7:15: error[unmapped-role]
    role 'mic' of 'input' is no role of 'round-balanced', which has screen, hot, cold; map it with `roles: {mic: ...}`.
    defined at pinouts/assignments/round-balanced.yaml:3"""),
    case([("circuits/input.yaml", "part: couple,", "part: cuople,")], """\
pinouts/circuits/input.yaml:19:45: error[unknown-part]
    there is no part 'cuople' here. Did you mean 'couple'?"""),
    case([("circuits/output.yaml", "parts: [prim, sec]", "parts: [prim, sek]")], """\
pinouts/circuits/output.yaml:8:24: error[unknown-part]
    there is no part 'sek' here. Did you mean 'sec'?"""),
    case([("circuits/output.yaml", "drive: {drive: 1}", "drive: {driver: 1}")], """\
pinouts/circuits/output.yaml:10:30: error[unknown-part]
    there is no part 'driver' here. Did you mean 'drive'?"""),
    case([("circuits/output.yaml", "drive: {drive: 1}", "drive: {prim: 1}")], """\
pinouts/circuits/output.yaml:10:30: error[wrong-part]
    'prim' is an inductor and cannot drive; an emf or a sink can.
    defined at pinouts/circuits/output.yaml:5"""),
    case([("circuits/output.yaml", "parts: [prim, sec]", "parts: [prim, drive]")], """\
pinouts/circuits/output.yaml:8:24: error[wrong-part]
    'drive' is an emf and cannot couple; an inductor can.
    defined at pinouts/circuits/output.yaml:4"""),
    case([("circuits/input.yaml", "between: [rail, hot], skew", "between: [rail, hot], supply: phantom, skew")], """\
pinouts/circuits/input.yaml:9:60: error[wrong-part]
    'feed-hot' is a resistor and cannot feed; an emf can."""),
    case([("circuits/input.yaml", "{kind: microphone, between: [in-hot, cold]", "{kind: microphone, between: [in-hto, cold]")], """\
pinouts/circuits/input.yaml:15:38: error[unknown-node]
    'in-hto' is not a node here; it has hot, cold, screen, chassis, rail, in-hot. Did you mean 'in-hot'?"""),
    case([("leads/block.yaml", "hot: [a.tip, inner]", "hot: [a.tip, iner]")], """\
pinouts/leads/block.yaml:7:16: error[unknown-node]
    no part touches the inner node 'iner'. Did you mean 'inner'?"""),
    case([("circuits/input.yaml", "{resistor: 2 kohm, between: [in-hot, cold]}", "{resistor: 2 kohm, between: [in-hot, clod]}")], """\
pinouts/circuits/input.yaml:12:46: error[dangling-node]
    nothing else touches the node 'clod'. Did you mean 'cold'?"""),
    case([("circuits/input.yaml", "{resistor: 2 kohm, between: [in-hot, cold]}", "{resistor: 2 kohm, between: [in-hot, in-hot]}")], """\
pinouts/circuits/input.yaml:12:37: error[joined-to-itself]
    part 'load' stands between 'in-hot' and itself."""),
    case([("circuits/input.yaml", "supply: phantom", "supply: phantm")], """\
pinouts/circuits/input.yaml:8:56: error[unknown-supply]
    'phantm' is not a supply of this circuit; it has phantom. Did you mean 'phantom'?"""),
    case([("leads/block.yaml", "{capacitor: 10 uF, between: [inner, b.2]}", "{capacitor: 10 uF, between: [inner, b.2], supply: phantom}")], """\
pinouts/leads/block.yaml:11:60: error[unknown-supply]
    'block' has a supply, but a lead has no switches; leave `supply` out if it is always on."""),
    case([("circuits/input.yaml", "style: pair", "style: drive")], """\
pinouts/circuits/input.yaml:8:56: error[wrong-supply]
    supply 'phantom' is of the style drive; an emf wants another."""),
    case([("circuits/output.yaml", "kind: line,", "kind: line, supply: power,"),
          ("circuits/output.yaml", "evidence: from memory\n", "supplies:\n  power: {name: amplifier, style: single}\nevidence: from memory\n")], """\
pinouts/circuits/output.yaml:10:30: error[wrong-supply]
    supply 'power' is not of the style drive; a source wants one."""),
    case([("circuits/output.yaml", "kind: line,", "kind: line, supply: power,")], """\
pinouts/circuits/output.yaml:10:30: error[unknown-supply]
    'power' is not a supply of this circuit; it has none."""),
    case([("circuits/input.yaml", ", supply: phantom", "")], """\
pinouts/circuits/input.yaml:17:3: error[unused-supply]
    no part and no source of this circuit has `supply: phantom`."""),
    case([("circuits/output.yaml", "output: [hot, cold]", "output: [top, chassis]")], """\
pinouts/circuits/output.yaml:10:49: error[stiff-output]
    nothing but wires and emfs lies between the nodes of the output of 'main'; put in the resistance it has."""),
    case([("circuits/input.yaml", "kind: microphone", "kind: power")], """\
pinouts/circuits/input.yaml:15:3: error[unasked-reversal]
    'main' takes power, and no limit with `reversal: yes` says what it stands with plus and minus swapped; `unknown` is a value."""),
    case([("circuits/input.yaml", "skew: up, match: 0.4 %", "skew: up")], """\
pinouts/circuits/input.yaml:9:52: error[lone-skew]
    part 'feed-hot' has `skew` but no `match`; they only mean something together."""),
    case([("ports/desk-in.yaml", "assignment: round-balanced", "assignment: jack-balanced")], """\
pinouts/ports/desk-in.yaml:5:13: error[wrong-connector]
    assignment 'jack-balanced' is for 'jack', but the port has 'round'.
    defined at pinouts/assignments/jack-balanced.yaml:2"""),
    case([("ports/desk-in.yaml", "earthed: maybe\n", "earthed: maybe\nnote: The levels are from memory, the order is published.\n")], """\
pinouts/ports/desk-in.yaml:9:7: error[note-against-assignment]
    the note calls the order 'published', but assignment 'round-balanced' is 'common practice'.
    defined at pinouts/assignments/round-balanced.yaml:4"""),
    case([("ports/desk-in.yaml", "feed: 6.8 kohm", "roles: {warm: hot}")], """\
pinouts/ports/desk-in.yaml:7:30: error[unknown-role]
    'warm' is not a role of 'input'; it has hot, cold, screen.
    defined at pinouts/circuits/input.yaml:2"""),
    case([("ports/desk-in.yaml", "feed: 6.8 kohm", "roles: {hot: warm}")], """\
pinouts/ports/desk-in.yaml:7:35: error[unknown-role]
    'warm' is not a role of 'round-balanced'; it has screen, hot, cold.
    defined at pinouts/assignments/round-balanced.yaml:3"""),
    case([("assignments/round-balanced.yaml", "2: hot", "2: left")], """\
pinouts/ports/desk-in.yaml:7:15: error[unmapped-role]
    role 'hot' of 'input' is no role of 'round-balanced', which has screen, left, cold; map it with `roles: {hot: ...}`.
    defined at pinouts/assignments/round-balanced.yaml:3"""),
    case([("circuits/output.yaml", "  main: {kind: line", "  left: {kind: line"), ("ports/player-out.yaml", "main: {use: output}", "main: {use: output}\n  more: {use: output}")], """\
pinouts/ports/player-out.yaml:8:3: error[same-channel]
    'more' brings a second channel 'left' to this port's sources.
    defined at pinouts/ports/player-out.yaml:7"""),
    case([("circuits/other.yaml", "", "name: Other input\nsame_as: input\nsupplies: {phantom: {name: phantom 12 V, style: pair}}\n"), ("ports/desk-in.yaml", "main: {use: input, feed: 6.8 kohm}", "left: {use: input}\n  right: {use: other}")], """\
pinouts/ports/desk-in.yaml:8:3: error[supply-differs]
    supply 'phantom' of 'right' differs from the one of the same id before it; one switch has one description.
    defined at pinouts/ports/desk-in.yaml:7"""),
    case([("leads/straight.yaml", "hot: [a.tip, b.2]", "hot: [a.tip, c.2]")], """\
pinouts/leads/straight.yaml:7:16: error[unknown-end]
    'c' is not an end of this lead; it has a, b."""),
    case([("leads/straight.yaml", "length: 3 m", "length: 3 m\nscreens: [scren]")], """\
pinouts/leads/straight.yaml:12:11: error[unknown-join]
    'scren' is not a join of this lead; it has hot, cold, screen. Did you mean 'screen'?"""),
    case([("leads/straight.yaml", "cold: [a.ring, b.3]", "cold: [a.ring, b.2]")], """\
pinouts/leads/straight.yaml:8:18: error[joined-twice]
    'b.2' is in 'hot' and in 'cold'.
    defined at pinouts/leads/straight.yaml:7"""),
    case([("leads/straight.yaml", "cold: [a.ring, b.3]", "cold: [a.ring, b.3, a.ring]")], """\
pinouts/leads/straight.yaml:8:23: error[joined-twice]
    'a.ring' is twice in 'cold'.
    defined at pinouts/leads/straight.yaml:8"""),
    case([("leads/block.yaml", "cold: [a.ring, b.3]", "cold: [a.ring]")], """\
pinouts/leads/block.yaml:8:9: error[pointless-join]
    'cold' joins 'a.ring' to nothing; without a cable that is no conductor."""),
    case([("leads/block.yaml", "  b: {connector: round, half: male, label: round plug}", "  b: {connector: round, half: male, label: round plug}\n  c: {connector: round, half: male, label: other plug}")], """\
pinouts/leads/block.yaml:6:3: error[unjoined-end]
    nothing is joined to the end 'c'."""),
    case([("cables/pair.yaml", "screen: 20 mohm/m\n", "")], """\
pinouts/leads/straight.yaml:10:8: error[no-screen]
    this lead has a screen (screen), but cable 'pair' has none.
    defined at pinouts/cables/pair.yaml:1"""),
    case([("leads/straight.yaml", "usual: desk-in", "usual: player-out")], """\
pinouts/leads/straight.yaml:5:63: error[does-not-mate]
    'player-out' (jack jack) does not go into this end (round male).
    defined at pinouts/ports/player-out.yaml:3"""),
    case([("leads/crossed.yaml", "looks_like: straight", "looks_like: block")], """\
pinouts/leads/crossed.yaml:4:13: error[not-mutual]
    'crossed' looks like 'block', but that one does not say so of 'crossed'.
    defined at pinouts/leads/block.yaml:1
pinouts/leads/straight.yaml:12:13: error[not-mutual]
    'straight' looks like 'crossed', but that one does not say so of 'straight'.
    defined at pinouts/leads/crossed.yaml:1"""),
    case([("leads/crossed.yaml", "looks_like: straight", "looks_like: [straight, crossed]")], """\
pinouts/leads/crossed.yaml:4:24: error[looks-like-itself]
    'crossed' need not say that it looks like itself."""),
    case([("leads/other.yaml", "", "name: Jack to jack\nform: cable\nends:\n  a: {connector: jack, half: plug, label: one}\n  b: {connector: jack, half: plug, label: other}\njoins: {hot: [a.tip, b.tip]}\nlooks_like: straight\nevidence: from memory\n"), ("leads/straight.yaml", "looks_like: crossed", "looks_like: [crossed, other]")], """\
pinouts/leads/other.yaml:7:13: error[different-ends]
    'other' and 'straight' have different ends: jack plug and jack plug; jack plug and round male.
    defined at pinouts/leads/straight.yaml:3
pinouts/leads/straight.yaml:12:23: error[different-ends]
    'straight' and 'other' have different ends: jack plug and round male; jack plug and jack plug.
    defined at pinouts/leads/other.yaml:3"""),
    case([("retired.yaml", "old-jack: jack", "round: jack")], """\
pinouts/retired.yaml:1:9: error[retired-alive]
    'round' is retired here but still in use.
    defined at pinouts/connectors/round.yaml:1"""),
    case([("retired.yaml", "old-jack: jack", "old-jack: jac")], """\
pinouts/retired.yaml:1:19: error[retired-target]
    'old-jack' leads to 'jac', which does not exist. Did you mean 'jack'?"""),
    case([("retired.yaml", "old-jack: jack", "old-jack: older, older: jack")], """\
pinouts/retired.yaml:1:19: error[retired-chain]
    'old-jack' leads to 'older', which is itself retired; name its successor."""),
]
# fmt: on


@pytest.mark.parametrize(("edits", "expected"), CASES)
def test_message(pinouts, replace, edits, expected):
    for edit in edits:
        replace(*edit)
    assert "\n".join(map(str, lint(pinouts))) == expected


def test_every_rule_has_a_bad_example():
    shown = {rule for param in CASES for rule in re.findall(r"error\[([a-z-]+)\]", param.values[1])}
    assert shown | {"no-catalogue", "not-a-file"} == set(RULES)  # those two are no matter of what a file says


def test_tiny_catalogue_has_no_fault(pinouts):
    assert lint(pinouts) == []


def test_every_number_that_decides_may_be_asked_for_or_say_why_not(pinouts, replace):
    """How long a rating holds more, a drive of 0 V and a resistor that is no way out may
    stand in their place."""
    for edit in ASKED:
        replace(*edit)
    replace("circuits/input.yaml", "momentary: unknown", "momentary: 100 V, seconds: 70 V")
    assert lint(pinouts) == []


def test_missing_directory_is_not_an_empty_catalogue(pinouts):
    assert (
        "\n".join(map(str, lint(pinouts.parent / "pinout")))
        == """\
pinout:1:1: error[no-catalogue]
    there is no catalogue here: not one YAML file."""
    )


def test_all_faults_of_all_files_sorted(pinouts, replace):
    replace("ports/desk-in.yaml", "earthed: maybe", "earthed: perhaps")
    replace("ports/desk-in.yaml", "half: female", "half: jack")
    replace("assignments/jack-balanced.yaml", "ring: cold", "rign: cold")
    replace("connectors/jack.yaml", "at: 12..13 mm", "at: 13..12 mm")
    found = [(p.path, p.line, p.rule) for p in lint(pinouts)]
    assert found == [
        ("pinouts/assignments/jack-balanced.yaml", 3, "unknown-contact"),
        ("pinouts/connectors/jack.yaml", 10, "bad-quantity"),
        ("pinouts/ports/desk-in.yaml", 4, "unknown-half"),
        ("pinouts/ports/desk-in.yaml", 8, "bad-choice"),
    ]


def test_a_path_outside_is_shown_as_given(pinouts, tmp_path, monkeypatch):
    """Clickable wherever the reader stands."""
    (tmp_path / "elsewhere").mkdir()
    monkeypatch.chdir(tmp_path / "elsewhere")
    (pinouts / "leads" / "nothing.yaml").write_text("")
    assert [p.path for p in lint(pinouts)] == [f"{pinouts.as_posix()}/leads/nothing.yaml"]
