"""A tiny catalogue without faults; tests break it in one place."""

from pathlib import Path

FILES = {
    "sources.yaml": """\
handbook:
  title: A handbook
  where: page 1
  kind: handbook
""",
    "retired.yaml": """\
moved: {old-jack: jack}
split: {old-leads: [straight, crossed]}
""",
    "connectors/jack.yaml": """\
name: Jack
shape: concentric
contacts: [tip, ring, sleeve]
plug:
  diameter: 6.35 mm
  segments: {tip: 0..9 mm, ring: 10..15 mm, sleeve: 16..30 mm}
jack:
  springs:
    tip: {at: 4..6 mm, width: 1 mm}
    ring: {at: 12..13 mm, width: 1 mm}
    sleeve: {at: 20..25 mm, width: 1 mm}
evidence: from memory
held: any way
body:
  plug: {cable: [{piece: barrel}, {piece: grip, long: 30 mm, wide: 14 mm, back: 12 mm}]}
  jack: {panel: [{piece: nut, long: 3 mm, wide: 14 mm}]}
""",
    "connectors/round.yaml": """\
name: Round
shape: circular
bore: round
contacts: [1, 2, 3]
face:
  1: {angle: 270 deg, radius: 3.81 mm}
  2: {angle: 90 deg, radius: 3.81 mm}
  3: {angle: 180 deg, radius: 3.81 mm}
key: 90 deg
male: {diameter: 19 mm}
female: {forward: {1: 1 mm, 2: 0 mm, 3: 0 mm}}
evidence: published
cite: handbook
checked: 2026-11-25
held: latch up
keyed: {male: ridge, female: slot}
body:
  male: {cable: [{piece: shell, long: 20 mm, marks: window}]}
  female: {cable: [{piece: shell, long: 15 mm, wide: 16 mm}], panel: [{piece: flange, long: 3 mm, wide: 31 mm, marks: [tab]}]}
  evidence: from memory
usual: {first: round-balanced, evidence: common practice}
""",
    "assignments/jack-balanced.yaml": """\
name: Balanced on a jack
connector: jack
carries: {tip: hot, ring: cold, sleeve: screen}
used_for: Balanced audio.
mistaken_for: {round-balanced: Nothing.}
evidence: common practice
""",
    "assignments/round-balanced.yaml": """\
name: Balanced on a round one
connector: round
carries: {1: screen, 2: hot, 3: cold}
evidence: common practice
""",
    "circuits/input.yaml": """\
name: Input with phantom
roles: [hot, cold, screen]
parameters:
  volts: {value: 48 V +-4 V, evidence: published, cite: handbook}
  feed: 6.81 kohm +-20 %
  maximum: 0 dBu
parts:
  rail: {emf: volts, between: [rail, chassis], supply: phantom}
  feed-hot: {resistor: feed, between: [rail, hot], skew: up, match: 0.4 %}
  feed-cold: {resistor: feed, between: [rail, cold], skew: down, match: 0.4 %}
  couple: {capacitor: 47 uF, between: [hot, in-hot]}
  load: {resistor: 2 kohm, between: [in-hot, cold]}
  bond: {wire: , between: [screen, chassis]}
listeners:
  main: {kind: microphone, between: [in-hot, cold], sensitivity: unknown, maximum: maximum, balanced: yes}
supplies:
  phantom: {name: phantom 48 V, style: pair}
limits:
  couple: {where: coupling capacitor, part: couple, volts: 63 V, momentary: unknown, evidence: common practice}
evidence: from memory
""",
    "circuits/output.yaml": """\
name: Transformer output
roles: [hot, cold]
parts:
  drive: {emf: 0 V, between: [top, chassis]}
  prim: {inductor: 1 H, between: [top, chassis]}
  sec: {inductor: 1 H, between: [hot, cold], coil: winding}
couplings:
  core: {parts: [prim, sec], k: 0.999}
sources:
  main: {kind: line, drive: {drive: 1}, output: [hot, cold], nominal: +4 dBu, least_load: 600 ohm, balanced: yes}
needs:
  power: {where: electronics, between: [hot, cold], volts: 9..10 V}
evidence: from memory
""",
    "cables/pair.yaml": """\
name: Screened pair
core: 80 mohm/m
screen: 20 mohm/m
core_to_core: 60 pF/m
core_to_screen: 100 pF/m
current: 1..2 A
impedance: 110 ohm
evidence: from memory
""",
    "ports/desk-in.yaml": """\
name: Desk input
device: desk
connector: round
half: female
assignment: round-balanced
circuit:
  main: {use: input, feed: 6.8 kohm}
earthed: maybe
evidence: from memory
""",
    "ports/player-out.yaml": """\
name: Player output
device: player
connector: jack
half: jack
assignment: jack-balanced
circuit:
  main: {use: output}
earthed: no
evidence: from memory
""",
    "leads/straight.yaml": """\
name: Jack to round
form: cable
ends:
  a: {connector: jack, half: plug, label: jack plug, usual: player-out}
  b: {connector: round, half: male, label: round plug, usual: desk-in}
joins:
  hot: [a.tip, b.2]
  cold: [a.ring, b.3]
  screen: [a.sleeve, b.1]
cable: pair
length: 3 m
looks_like: crossed
tell_apart: Meter from tip to 2.
evidence: from memory
""",
    "leads/crossed.yaml": """\
name: Jack to round, crossed
same_as: straight
joins: {hot: [a.tip, b.3], cold: [a.ring, b.2]}
looks_like: straight
""",
    "leads/block.yaml": """\
name: Jack to round with a capacitor
form: adapter
ends:
  a: {connector: jack, half: plug, label: jack plug}
  b: {connector: round, half: male, label: round plug}
joins:
  hot: [a.tip, inner]
  cold: [a.ring, b.3]
  screen: [a.sleeve, b.1]
parts:
  block: {capacitor: 10 uF, between: [inner, b.2]}
limits:
  block: {where: capacitor, part: block, volts: unknown, momentary: 50 V}
evidence: from memory
""",
}


def write(directory: Path) -> Path:
    """Writes the tiny catalogue to `directory/pinouts` and returns that."""
    for name, text in FILES.items():
        path = directory / "pinouts" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, "utf-8")
    return directory / "pinouts"
