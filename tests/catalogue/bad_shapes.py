"""Bad files as one sees them alone: names, text, keys, quantities, how a thing is known."""

from .bad_case import case

# The messages are what is tested here: they stand unbroken, however long.
# fmt: off
SHAPES = [
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
]
# fmt: on
