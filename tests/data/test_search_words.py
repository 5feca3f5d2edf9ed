"""What people call things in the trade and at the counter finds something sensible. Words and what they
mean: common practice."""

import re

import pytest

# word: part of an id of what must be among the finds, by kind
FINDS = {
    "connectors": {
        "mini-jack": "phone-35-trs",
        "headphone jack": "phone-35-trs",
        "quarter inch": "phone-635-ts",
        "eighth inch": "phone-35-ts",
        "aux": "phone-35-trs",
        "tiny xlr": "mini-xlr-4",
        "phono": "rca",
        "tiny telephone": "phone-44-patch-trs",
        "combo jack": "combo-xlr-3",
    },
    "ports": {
        "lav": "mic-lavalier",
        "lapel": "mic-electret-mono",
        "plug power": "camera-mic-in-35",
        "mic plus": "camera-mic-in-35",
        "line in": "recorder-line-in-35",
        "aux in": "recorder-line-in-35",
        "bias": "recorder-mic-in-35",
        "ifb": "listening-receiver",
        "beltpack": "intercom-beltpack",
        "comms": "party-line",
        "cans": "headphones-635",
        "wedge": "powered-loudspeaker",
        "di box": "active-di",
        "press box": "press-box-mic-out",
        "mult box": "press-box-mic-out",
        "plug-on": "plug-on-transmitter",
        "camera hop": "wireless-receiver-out-35",
        "shotgun": "mic-condenser-p48",
        "gooseneck": "mic-condenser",
        "contact mic": "contact-microphone",
        "boom op": "headphone-out-635",
        "tape out": "player-line-out",
        "camera return": "recorder-line-in-35",
        "smart slate": "timecode-slate",
        "sync box": "timecode-box",
        "mix minus": "mixer-line-in-xlr",
        "hearing loop": "amplifier-line-in-rca",
        "laptop": "laptop-headset",
        "dslr": "camera-mic-in-35",
        "camcorder xlr": "camera-line-in-xlr",
        "100 v line": "constant-voltage",
        "hi-z": "interface-instrument",
        "poe": "network-power",
        "handheld recorder": "recorder-mic-in-p48-combo",
        "split": "press-box-mic-out",
        "car aux": "recorder-line-in-35",
        "walkie-talkie": "two-way-radio",
    },
    "leads": {
        "pigtail": "bare-wire",
        "barrel": "xlr-m-to-xlr-m",
        "turnaround": "xlr-f-to-xlr-f",
        "gender changer": "xlr-m-to-xlr-m",
        "y-split": "to-two-xlr-m",
        "jumper": "xlr-f-to-xlr-m-3m",
        "breakout": "d-sub-25-to-two-xlr-m",
        "snake": "d-sub-25",
        "loom": "d-sub-25",
        "ground lift": "xlr-f-to-xlr-m-lift",
        "phase reverse": "crossed",
        "pad": "pad-20-db",
        "iso": "transformer",
        "hum killer": "transformer",
        "di": "xlr-m-di",
        "timecode jam lead": "timecode",
        "dongle": "usb-c",
        "headset splitter": "phone-35-trrs-jack-to-two",
        "splitter": "two-35-trs-jacks",
        "line to mic": "attenuator",
        "dc block": "phantom-block",
        "ground loop isolator": "phone-35-trs-to-35-trs-transformer",
        "laptop di": "two-xlr-m-transformer",
        "guitar lead": "635-ts-to-635-ts",
        "patch cord": "patch",
        "aux lead": "phone-35-trs-to-35-trs",
        "headphone extension": "extension",
        "livestream": "trrs-line",
        "dual lav": "two-35-trs-jacks",
    },
}


def findable(catalogue, kind: str, id: str) -> str:
    """What a record is searched by: its name, what else it is called, and the same of its
    assignment and connectors."""
    record = getattr(catalogue, kind)[id]
    words = [record.name, *record.also_called]
    if kind == "ports":
        words += [
            record.device,
            catalogue.assignments[record.assignment].name,
            *catalogue.assignments[record.assignment].also_called,
        ]
    places = [record] if kind == "ports" else list(record.ends.values()) if kind == "leads" else []
    for place in places:
        words += [
            catalogue.connectors[place.connector].name,
            *catalogue.connectors[place.connector].also_called,
        ]
    return " ".join(words).lower()


@pytest.mark.parametrize(("kind", "word"), [(kind, word) for kind, words in FINDS.items() for word in words])
def test_a_word_of_the_trade_finds_what_it_means(catalogue, kind, word):
    whole = re.compile(rf"(?<!\w){re.escape(word)}")  # from the start of a word, as people type it
    found = [id for id in getattr(catalogue, kind) if whole.search(findable(catalogue, kind, id))]
    assert any(FINDS[kind][word] in id for id in found), found


def test_no_two_records_say_a_word_twice(catalogue):
    """A word listed twice in one record is a slip of the pen."""
    for kind in ("connectors", "assignments", "ports", "leads"):
        for record in getattr(catalogue, kind).values():
            assert len(set(record.also_called)) == len(record.also_called), record.id
