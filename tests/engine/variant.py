"""The real catalogue with some files more: connections nobody keeps a lead for, but a rule must catch."""

import re
import shutil
from pathlib import Path

from generator.catalogue import default_directory, load
from generator.catalogue.kinds import FOLDERS

ASKED = re.compile(r"^(?:asks|unasked):.*\n(?: .*\n)*", re.MULTILINE)
EXTRA = {
    # left and right change places on the way
    "leads/crossed-stereo.yaml": """\
same_as: phone-35-trs-to-35-trs
name: A stereo lead somebody repaired
joins: {left: [a.tip, b.ring], right: [a.ring, b.tip]}
looks_like: []
""",
    # a coupling capacitor whose way round is known: the second node may be 1.5 V above the first and no more
    "circuits/known-way-round.yaml": """\
name: Unbalanced driver with an electrolytic capacitor
roles: [signal, common]
parts:
  drive: {emf: 0 V, between: [stage, chassis]}
  build-out: {resistor: 100 ohm, between: [stage, out]}
  couple: {capacitor: 47 uF, between: [out, signal]}
  bond: {wire: , between: [common, chassis]}
sources:
  main: {kind: line, drive: {drive: 1}, output: [signal, common], nominal: -10 dBV, maximum: +8 dBV}
limits:
  couple: {where: output capacitor, part: couple, reverse: 1.5 V}
evidence: from memory
""",
    # the same, which stands more for a moment than for seconds
    "circuits/known-for-a-moment.yaml": """\
same_as: known-way-round
name: Unbalanced driver with an electrolytic capacitor that stands a jolt
limits:
  couple: {where: output capacitor, part: couple, reverse: 1.5 V, seconds: 1.5 V, momentary: 20 V}
""",
    # nothing about it is known but how it is built
    "circuits/unrated.yaml": """\
name: Output nobody has rated
roles: [hot, cold, screen]
parameters: {amps: unknown, watts: unknown}
parts:
  drive: {emf: 0 V, between: [stage, chassis]}
  build-out: {resistor: 100 ohm, between: [stage, hot]}
  other: {resistor: 100 ohm, between: [cold, chassis]}
  bond: {wire: , between: [screen, chassis]}
sources:
  main: {kind: line, drive: {drive: 1}, output: [hot, cold], balanced: yes}
limits:
  amps: {where: output stage, part: build-out, amps: amps}
  watts: {where: build-out resistor, part: build-out, watts: watts}
asks: {direct-current: {sets: amps}, resistor-power: {sets: watts}}
evidence: from memory
""",
    # a supply on each contact, behind a resistor nobody has rated
    "circuits/unrated-feed.yaml": """\
name: Input with a supply nobody has rated
roles: [signal, common]
parameters: {amps: unknown, volts: unknown}
parts:
  rail: {emf: 5 V, between: [rail, chassis]}
  feed: {resistor: 100 ohm, between: [rail, signal]}
  couple: {capacitor: 10 uF, between: [signal, in]}
  load: {resistor: 10 kohm, between: [in, chassis]}
  bond: {wire: , between: [common, chassis]}
listeners:
  main: {kind: microphone, between: [in, chassis], sensitivity: -50 dBu, maximum: -15 dBu, balanced: no}
limits:
  feed: {where: supply resistor, part: feed, amps: amps}
  rail: {where: rail capacitor, between: [rail, chassis], volts: volts}
asks: {direct-current: {sets: amps}, highest-volts-at-input: {sets: volts}}
evidence: from memory
""",
    "ports/unrated-feed-in.yaml": """\
name: Input with a supply nobody has rated
device: recorder
earthed: maybe
connector: phone-35-trs
half: jack
assignment: phone-35-trs-stereo-microphone
evidence: from memory
circuit:
  left: {use: unrated-feed, roles: {signal: left}}
  right: {use: unrated-feed, roles: {signal: right}}
""",
    "ports/unrated-out.yaml": """\
same_as: mixer-line-out-xlr
name: Output nobody has rated
circuit:
  main: {use: unrated}
""",
    "ports/known-way-round-out.yaml": """\
same_as: player-line-out-35
name: Player whose capacitors are known
circuit:
  left: {use: known-way-round, roles: {signal: left}}
  right: {use: known-way-round, roles: {signal: right}}
""",
    "ports/known-for-a-moment-out.yaml": """\
same_as: known-way-round-out
name: Player whose capacitors stand a jolt
circuit:
  left: {use: known-for-a-moment, roles: {signal: left}}
  right: {use: known-for-a-moment, roles: {signal: right}}
""",
    # a microphone input that a raised voice overdrives
    "ports/shy-mic-in.yaml": """\
same_as: mixer-mic-in-p48-xlr
name: Input that clips early
circuit:
  main: {use: p48-input, maximum: -30 dBu}
""",
    # longer than anyone lays a microphone or an instrument lead
    "leads/xlr-f-to-xlr-m-very-long.yaml": """\
same_as: xlr-f-to-xlr-m-100m
name: XLR microphone lead over the hills
length: 800 m
confirmed: a length at which treble is lost for certain
looks_like: []
""",
    "leads/phone-635-ts-to-635-ts-very-long.yaml": """\
same_as: phone-635-ts-to-635-ts-6m
name: Instrument lead across the hall
length: 40 m
looks_like: []
""",
    # a part of every kind that nobody has rated, and inputs that feed it with much,
    # little and next to nothing
    "circuits/unrated-parts.yaml": """\
name: Output whose parts nobody has rated
roles: [hot, cold, screen]
parameters: {volts: unknown, amps: unknown, watts: unknown}
parts:
  drive: {emf: 0 V, between: [stage, chassis]}
  build-out: {resistor: 1 kohm, between: [stage, hot], coil: winding}
  couple: {capacitor: 10 uF, between: [hot, inner]}
  inner: {resistor: 10 kohm, between: [inner, chassis]}
  other: {resistor: 1 kohm, between: [cold, chassis]}
  bond: {wire: , between: [screen, chassis]}
sources:
  main: {kind: microphone, drive: {drive: 1}, output: [hot, cold], nominal: -60 dBu,
         maximum: -20 dBu, balanced: yes}
limits:
  couple: {where: coupling capacitor, part: couple, volts: volts}
  pin: {where: pin, between: [hot, chassis], volts: volts}
  winding: {where: winding, part: build-out, amps: amps}
  other: {where: resistor, part: other, amps: amps}
  heat: {where: resistor, part: other, watts: watts}
asks: {highest-volts-at-output: {sets: volts}, direct-current: {sets: amps}, resistor-power: {sets: watts}}
evidence: from memory
""",
    "ports/unrated-parts-out.yaml": """\
same_as: mic-dynamic-xlr
name: Output whose parts nobody has rated
circuit:
  main: {use: unrated-parts}
""",
    "circuits/weak-feed.yaml": """\
name: Input with a weak supply
roles: [hot, cold, screen]
parameters:
  volts: 12 V
  feed: 10 kohm
parts:
  rail: {emf: volts, between: [rail, chassis], supply: feed}
  feed-hot: {resistor: feed, between: [rail, hot]}
  feed-cold: {resistor: feed, between: [rail, cold]}
  load: {resistor: 100 kohm, between: [hot, cold]}
  bond: {wire: , between: [screen, chassis]}
listeners:
  main: {kind: microphone, between: [hot, cold], sensitivity: -60 dBu, maximum: 0 dBu, balanced: yes}
supplies:
  feed: {name: feed, style: pair}
evidence: from memory
""",
    "ports/weak-feed-in.yaml": (
        "same_as: mixer-mic-in-p48-xlr\nname: Input with a weak supply\ncircuit: {main: {use: weak-feed}}\n"
    ),
    "ports/weaker-feed-in.yaml": """\
same_as: mixer-mic-in-p48-xlr
name: Input with a weaker supply
circuit: {main: {use: weak-feed, volts: 5 V, feed: 20 kohm}}
""",
    # a supply with a switch, which another may push its current into
    "circuits/switched-supply.yaml": """\
name: Supply with a switch
roles: [common, supply]
parts:
  rail: {emf: 12 V, between: [rail, common], supply: power}
  source: {resistor: 1 ohm, between: [rail, supply]}
listeners:
  main: {kind: power, between: [supply, common]}
supplies:
  power: {name: supply, style: single}
limits:
  turned: {where: output of the supply, between: [supply, common], volts: 60 V, reversal: yes}
evidence: from memory
""",
    "ports/switched-supply-xlr-4.yaml": """\
same_as: remote-head-dc-in-xlr-4
name: Supply with a switch
circuit: {main: {use: switched-supply}}
""",
    # leads nobody should use for fast signals, short and long
    "leads/bnc-audio-short.yaml": (
        "same_as: bnc-to-bnc-50-ohm\n"
        "name: BNC lead of audio coax, short\n"
        "cable: unbalanced-coax\n"
        "length: 1 m\n"
        "looks_like: []\n"
    ),
    "leads/bnc-audio-long.yaml": (
        "same_as: bnc-audio-short\nname: BNC lead of audio coax, long\nlength: 30 m\n"
    ),
    "leads/rca-audio-long.yaml": (
        "same_as: rca-to-rca\nname: RCA lead, very long\nlength: 30 m\nlooks_like: []\n"
    ),
    # plays like any headset, but sends back something no microphone input understands
    "ports/data-headset.yaml": """\
same_as: headset-lrgm
name: Headset with a data link
circuit:
  mic: {use: digital-coax-out, roles: {signal: mic}}
""",
}


def load_with(directory: Path, extra=EXTRA):
    """The real catalogue and `extra` (path -> text), loaded from a copy in `directory`; without what manuals
    are asked, which what is made up here has no need to say."""
    for kind in FOLDERS:
        shutil.copytree(default_directory() / kind, directory / kind)
    shutil.copy(default_directory() / "sources.yaml", directory)
    for path, text in extra.items():
        (directory / path).write_text(text, "utf-8")
    for path in (directory / "circuits").iterdir():
        path.write_text(ASKED.sub("", path.read_text("utf-8")), "utf-8")
    return load(directory)
