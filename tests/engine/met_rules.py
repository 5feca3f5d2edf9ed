"""For every rule a connection that meets it, the number it is met by, and what it then says."""

from functools import cache
from pathlib import Path

import yaml
from variant import load_with

from generator.engine.assemble import ways
from generator.engine.judge import read

ALWAYS = {"value", "limit"}
# Of each rule: the state, the subject, the value and the limit of the worst reading of its connection below.
# As the engine had them on 2026-11-29; a row that changes is to be understood before it is written anew.
NUMBERS = yaml.safe_load((Path(__file__).with_name("rule_numbers.yaml")).read_text("utf-8"))
# What nothing in the catalogue meets is met in a wider one (variant.py): (finding, quantity, what else the
# rule asks): From, Through, Into
WIDER = {
    ("reversed-capacitor", "part-reverse", ""): (
        "known-way-round-out",
        "phone-35-trs-to-35-trs",
        "recorder-mic-in-35",
    ),
    ("reversed-capacitor", "lasting-reverse", ""): (
        "known-for-a-moment-out",
        "phone-35-trs-to-35-trs",
        "recorder-mic-in-35",
    ),
    ("ask-the-maker", "unrated-volts", "kind: capacitor until 6.3"): (
        "unrated-parts-out",
        "xlr-f-to-xlr-m-3m",
        "weak-feed-in",
    ),
    ("rating-not-known", "unrated-volts", "kind: part"): (
        "unrated-parts-out",
        "xlr-f-to-xlr-m-3m",
        "mixer-mic-in-p48-xlr",
    ),
    ("ask-the-maker", "unrated-volts", "kind: part until 4.3"): (
        "unrated-parts-out",
        "xlr-f-to-xlr-m-3m",
        "weak-feed-in",
    ),
    ("rating-not-known", "unrated-amps", "kind: winding"): (
        "unrated-parts-out",
        "xlr-f-to-xlr-m-3m",
        "mixer-mic-in-p48-xlr",
    ),
    ("ask-the-maker", "unrated-amps", "kind: winding until 0.0005"): (
        "unrated-parts-out",
        "xlr-f-to-xlr-m-3m",
        "weaker-feed-in",
    ),
    ("rating-not-known", "unrated-amps", "kind: part"): (
        "unrated-out",
        "xlr-f-to-xlr-m-3m",
        "mixer-mic-in-p48-xlr",
    ),
    ("ask-the-maker", "unrated-amps", "kind: part until 0.002"): (
        "unrated-parts-out",
        "xlr-f-to-xlr-m-3m",
        "weak-feed-in",
    ),
    ("rating-not-known", "unrated-watts", ""): (
        "unrated-parts-out",
        "xlr-f-to-xlr-m-3m",
        "mixer-mic-in-p48-xlr",
    ),
    ("ask-the-maker", "unrated-watts", "until 0.02"): (
        "unrated-out",
        "xlr-f-to-xlr-m-3m",
        "mixer-mic-in-p48-xlr",
    ),
    ("supply-against-supply", "supply-fed-amps", "live: no"): (
        "camera-battery-out-xlr-4",
        "xlr-4-f-to-xlr-4-m-power",
        "switched-supply-xlr-4",
    ),
    ("other-kind-back", "kinds-apart", "way: back"): ("phone-headset-jack-lrgm", "", "data-headset"),
    ("not-for-data", "slow-lead", "sent: video"): (
        "player-video-out-rca",
        "rca-audio-long",
        "monitor-video-in-rca",
    ),
    ("not-for-data", "slow-lead", "sent: clock until 10"): (
        "word-clock-out-bnc",
        "bnc-audio-short",
        "word-clock-in-bnc",
    ),
    ("not-for-data", "slow-lead", "sent: clock"): (
        "word-clock-out-bnc",
        "bnc-audio-long",
        "word-clock-in-bnc",
    ),
    ("not-for-data", "slow-lead", "sent: digital"): ("digital-out-rca", "rca-audio-long", "digital-in-rca"),
    ("channels-crossed", "crosstalk", ""): ("player-line-out-35", "crossed-stereo", "recorder-line-in-35"),
    ("too-hot", "shout-level", ""): ("mic-condenser-p48-xlr", "", "shy-mic-in"),
    ("level-not-known", "unknown-level", ""): ("unrated-out", "xlr-f-to-xlr-m-3m", "mixer-line-in-xlr"),
    ("dull", "treble", ""): ("mic-dynamic-xlr", "xlr-f-to-xlr-m-very-long", "mixer-mic-in-xlr"),
    ("dull", "pickup-treble", ""): (
        "guitar-pickup-635",
        "phone-635-ts-to-635-ts-very-long",
        "interface-instrument-in-635",
    ),
}
# What the finding then says.
SAYS = {
    ("amplifier-output", "amplifier-into", ""): (
        "The loudspeaker amplifier of 70 W drives loudspeakers only; it must never reach the amplifier line "
        "input."
    ),
    "other-kind": (
        "The player line output sends line and the digital audio input expects digital: not the same kind of "
        "signal."
    ),
    "other-kind-back": (
        "The headset with a data link sends back digital and the phone headset jack expects microphone: not "
        "the same kind of signal."
    ),
    "supply-reversed": (
        "Plus and minus are swapped: the recorder would get 15.5 V the wrong way round, and nobody has said "
        "that it stands that."
    ),
    "nothing-listens": (
        "Neither side sends what the other listens to: not the dynamic microphone, and not the ribbon "
        "microphone."
    ),
    "not-powered": (
        "The microphone electronics of the condenser microphone does not get its power: 0 V instead of 29 V "
        "or more."
    ),
    "nothing-comes-back": "What the headset sends back does not reach the phone headset jack.",
    "open-path": "There is no complete path from the balanced headphone output to the balanced headphones.",
    "one-side-only": "The right channel of the headphone output does not reach the mixer line input.",
    "not-heard": (
        "The video channel of the camcorder audio and video output has nowhere to go in the recorder stereo "
        "line input."
    ),
    "not-asked-for": "The left channel of the phone headset jack goes unused: the TRRS lavalier only sends.",
    "bits-reversed": (
        "Plus and minus are swapped between the lighting data output and the lighting data input: upside "
        "down they understand nothing."
    ),
    "coil-before-data": (
        "The transformer in the XLR isolating transformer 1 to 1 is made for sound: a digital signal does "
        "not come through it."
    ),
    "coil-for-data": (
        "The transformer in the digital audio transformer is made for digital signals: of sound or timecode "
        "hardly anything comes through it."
    ),
    ("timecode-as-sound", "timecode-as-sound", "track: beside"): (
        "The sound also lands where the camera microphone input looks for timecode: it is of use on the "
        "other side only."
    ),
    ("not-for-data", "slow-lead", "sent: data"): (
        "The XLR Y lead is not made for the fast edges of a digital signal: the lighting data input may lock "
        "or may not."
    ),
    ("not-for-data", "slow-lead", "sent: digital"): (
        "The RCA lead is 30 m long and not made for digital signals: the digital audio input may click or "
        "drop out."
    ),
    "reversed": "Polarity is reversed from the dynamic microphone to the mixer microphone input.",
    "screen-open": (
        "No screen joins the dynamic microphone and the mixer microphone input: interference gets in, and "
        "phantom, where there is any, has no way back."
    ),
    "level-not-known": (
        "How loud the output nobody has rated is, or what the mixer line input takes, is not known."
    ),
}


def key(rule):
    flags = ", ".join(f"{name}: {want}" for name, want in rule.only.items())
    return rule.id, rule.quantity, (flags + ("" if rule.until is None else f" until {rule.until:g}")).strip()


def load_wider(tmp_path_factory):
    """The real catalogue and the variants."""
    return load_with(tmp_path_factory.mktemp("pinouts"))


def every_reading(wider):
    """All readings of every way of a connection."""

    @cache
    def readings(start, through, target):
        outlet, inlet, leads = (
            wider.ports[start],
            wider.ports[target],
            [wider.leads[name] for name in through.split()],
        )
        return [
            reading
            for way in ways(wider, outlet, leads, inlet)
            for reading in read(wider, outlet, leads, inlet, way)
        ]

    return readings


def meets(rule):
    """From, Through, Into of a connection that meets a rule."""
    if not rule.met_by:
        return WIDER[key(rule)]
    start, *through, target = rule.met_by
    return start, " ".join(through), target


def asks(rule, reading):
    if rule.until is not None and reading.value > rule.until:
        return False
    return rule.quantity == reading.quantity and all(
        reading.flags.get(name) == want for name, want in rule.only.items()
    )
