"""Bad files by what they mean: ids that are not there, and what contradicts itself or the trade."""

from .bad_case import case

# The messages are what is tested here: they stand unbroken, however long.
# fmt: off
MEANINGS = [
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
