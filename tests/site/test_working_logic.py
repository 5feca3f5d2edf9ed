"""The working shown on the check page is the working of the engine in Python: the same case, nets,
volts, currents and number.

Both engines eliminate in double precision, in a different order. Where two cases are equally bad to the last
bits (a path that carries nothing at all, two channels alike), each may show the other one; such connections
are not asked about here.
"""

import json
import shutil

import pytest
from front import run, scripts

from generator.catalogue.published import as_data
from generator.engine.explain import explain
from generator.engine.rulebook import rules
from generator.engine.tables import tables

pytestmark = pytest.mark.skipif(shutil.which("node") is None, reason="node not installed")

RELATIVE, FLOOR = 1e-6, 1e-9
# from, leads, into, finding; "" asks how the signal arrives
ASKED = (
    ("press-feed-out-xlr", ("two-xlr-f-to-xlr-5-m",), "commentary-panel-headset-xlr-5", "ask-the-maker"),
    (
        "console-insert-635-tip-send",
        ("phone-35-trs-to-635-trs",),
        "computer-mic-in-35-bias-ring",
        "ask-the-maker",
    ),
    ("mic-condenser-t-power-xlr", ("xlr-f-to-635-trs-both",), "active-di-in-635", "balance-lost"),
    (
        "mixer-line-out-impedance-balanced-xlr",
        ("xlr-f-to-635-ts-3-open",),
        "timecode-slate-in-635",
        "balance-lost",
    ),
    (
        "party-line-supply-two-channel-xlr",
        ("xlr-f-to-xlr-m-transformer-joined",),
        "recorder-mic-in-t-power-xlr",
        "bias-through-coil",
    ),
    ("digital-out-xlr", ("xlr-f-to-35-trs-tip-3-to-1",), "recorder-mic-in-35", "bias-through-coil"),
    (
        "headphone-out-635",
        ("phone-635-trs-to-xlr-m-balanced",),
        "recorder-mic-in-t-power-xlr",
        "cancels-in-mono",
    ),
    ("mic-electret-stereo-35", ("phone-35-trs-to-two-35-trs-jacks",), "headset-lrgm", "cancels-in-mono"),
    ("wireless-receiver-out-xlr", ("xlr-f-to-635-ts-3-to-1",), "mixer-mic-in-p48-635", "capacitor-discharge"),
    (
        "computer-headphone-out-35",
        ("mini-xlr-f-to-35-trs-balanced",),
        "transmitter-mic-in-mini-xlr",
        "capacitor-discharge",
    ),
    (
        "camcorder-av-out-35-trrs",
        ("phone-44-five-jack-to-35-trs",),
        "headphones-balanced-44",
        "channels-crossed",
    ),
    (
        "amplifier-recorder-socket-din",
        ("din-5-180-m-to-35-trs-midi-type-b",),
        "recorder-mic-in-35",
        "channels-crossed",
    ),
    ("phone-headset-jack-lrgm", ("two-35-trs-jacks-to-35-trrs",), "headset-lrgm", "crosstalk"),
    ("camcorder-av-out-35-trrs", ("phone-35-trs-to-35-trs",), "recorder-mic-in-35", "crosstalk"),
    ("guitar-pickup-635", ("phone-635-ts-to-xlr-m-3-to-1",), "interface-mic-in-p48-combo", "dull"),
    ("guitar-pickup-635", ("phone-635-ts-to-635-ts-6m",), "console-insert-635-ring-send", "dull"),
    ("press-feed-out-xlr", ("xlr-f-to-bare-wire-pair",), "loudspeaker-binding-post", "either-way-round"),
    (
        "loudspeaker-amp-out-four-pole-large",
        ("loudspeaker-4-to-banana-4-pair",),
        "loudspeaker-100-volt-binding-post",
        "either-way-round",
    ),
    (
        "console-insert-635-tip-send",
        ("phone-35-trs-to-635-trs",),
        "computer-mic-in-35-bias-ring",
        "hum-on-earthed",
    ),
    ("phone-headset-jack-lrgm", ("phone-35-trrs-to-35-trrs",), "laptop-headset-jack-lrgm", "hum-on-earthed"),
    ("mixer-line-out-xlr", ("xlr-f-to-xlr-m-transformer-floating",), "mixer-line-in-xlr", "isolated"),
    (
        "mic-condenser-p48-transformer-xlr",
        ("xlr-f-to-xlr-m-transformer-floating",),
        "recorder-mic-in-t-power-reversed-xlr",
        "isolated",
    ),
    ("headphone-out-35", ("phone-35-ts-to-35-ts",), "phone-headset-jack-lrgm", "loaded-down"),
    (
        "intercom-headset-xlr-5-ears-joined",
        ("xlr-5-m-to-xlr-4-f-headset-one-ear",),
        "headphones-balanced-xlr-4",
        "loaded-down",
    ),
    ("mic-condenser-p48-xlr", ("xlr-f-to-xlr-m-3m",), "camera-mic-in-p48-xlr", "loud-places"),
    ("mic-condenser-p12-xlr", ("two-xlr-f-to-35-trs-3-to-1",), "transmitter-mic-in-35", "loud-places"),
    ("mic-condenser-t-power-xlr", ("xlr-f-to-35-trs-both-3-open",), "recorder-line-in-35", "not-powered"),
    (
        "mic-condenser-t-power-reversed-xlr",
        ("xlr-f-to-xlr-m-phantom-supply",),
        "mixer-mic-in-p12-xlr",
        "not-powered",
    ),
    ("phone-headset-jack-lrmg", ("two-35-trs-jacks-to-35-trrs",), "headset-lrgm", "nothing-comes-back"),
    (
        "commentary-panel-headset-xlr-5",
        ("xlr-5-f-to-xlr-5-m-lighting-two-links",),
        "intercom-beltpack-headset-xlr-5",
        "nothing-comes-back",
    ),
    (
        "intercom-headset-xlr-5-ears-joined",
        ("xlr-5-m-to-xlr-4-f-headset-one-ear",),
        "headphones-balanced-xlr-4",
        "one-side-only",
    ),
    ("press-feed-out-xlr", ("two-xlr-f-to-xlr-5-m",), "commentary-panel-headset-xlr-5", "one-side-only"),
    ("mixer-line-out-xlr", ("xlr-f-to-635-ts-3-to-1",), "console-insert-635-tip-send", "open-path"),
    ("phone-headset-jack-lrmg", ("two-35-trs-jacks-to-35-trrs",), "headset-lrgm", "open-path"),
    ("mixer-line-out-xlr", ("xlr-f-to-xlr-m-t-power-from-phantom",), "digital-mic-in-xlr", "output-strained"),
    ("mixer-line-out-xlr", ("xlr-f-to-xlr-m-phantom-supply",), "digital-in-xlr", "output-strained"),
    ("mic-digital-xlr", ("two-xlr-f-to-xlr-m-resistors",), "camera-mic-in-p48-xlr", "outputs-joined"),
    ("press-feed-out-xlr", ("two-xlr-f-to-xlr-5-m",), "commentary-panel-headset-xlr-5", "outputs-joined"),
    (
        "mic-ribbon-xlr",
        ("xlr-f-to-xlr-m-t-power-from-phantom",),
        "recorder-mic-in-t-power-reversed-xlr",
        "over-current",
    ),
    ("party-line-supply-xlr", ("xlr-f-to-xlr-m-screen-open-at-f",), "digital-mic-in-xlr", "over-current"),
    (
        "party-line-supply-two-channel-xlr",
        ("xlr-f-to-xlr-m-crossed-3m",),
        "recorder-mic-in-t-power-xlr",
        "over-power",
    ),
    ("console-insert-635-tip-send", ("phone-635-ts-to-xlr-m-two-core",), "digital-mic-in-xlr", "over-power"),
    ("loudspeaker-amp-out-xlr", ("two-xlr-f-to-xlr-m",), "recorder-mic-in-t-power-xlr", "over-volts"),
    (
        "mic-condenser-t-power-reversed-xlr",
        ("xlr-f-to-xlr-m-phantom-supply",),
        "mixer-mic-in-p12-xlr",
        "over-volts",
    ),
    ("mic-electret-stereo-35", (), "transmitter-mic-in-35", "part-unpowered"),
    (
        "mic-electret-battery-xlr",
        ("xlr-f-to-xlr-m-t-power-block",),
        "mixer-mic-in-p48-xlr",
        "rating-not-known",
    ),
    (
        "camera-battery-out-xlr-4",
        ("xlr-4-f-to-xlr-4-m-power-reversed",),
        "recorder-dc-in-xlr-4",
        "supply-reversed",
    ),
    (
        "party-line-supply-two-channel-xlr",
        ("xlr-f-to-xlr-m-t-power-block",),
        "interface-mic-in-p48-combo",
        "rating-not-known",
    ),
    ("phone-headset-jack-lrmg", ("phone-35-trrs-jack-to-35-trrs-extension",), "headset-lrgm", "reversed"),
    ("mic-ribbon-active-xlr", ("xlr-f-to-xlr-m-crossed",), "mixer-line-in-xlr", "reversed"),
    (
        "line-out-phantom-protected-xlr",
        ("two-xlr-f-to-35-trs-3-open",),
        "camera-mic-in-35",
        "reversed-capacitor",
    ),
    (
        "line-out-phantom-protected-xlr",
        ("xlr-f-to-635-trs-balanced",),
        "mixer-mic-in-p48-635",
        "reversed-capacitor",
    ),
    ("mic-digital-xlr", ("xlr-f-to-xlr-m-screen-open",), "mixer-line-in-xlr", "screen-open"),
    (
        "mic-condenser-p48-transformer-xlr",
        ("xlr-f-to-xlr-m-screen-open",),
        "recorder-mic-in-t-power-xlr",
        "screen-open",
    ),
    ("console-insert-635-ring-send", ("phone-635-ts-to-xlr-m-3-to-1",), "mixer-mic-in-xlr", "shorted-signal"),
    (
        "headset-lrgm",
        ("phone-35-trs-jack-to-xlr-m-bias-from-phantom",),
        "recorder-mic-in-t-power-reversed-xlr",
        "shorted-signal",
    ),
    (
        "party-line-supply-xlr",
        ("xlr-f-to-35-trs-both-3-open",),
        "phone-headset-jack-lrmg",
        "shorted-while-plugging",
    ),
    (
        "mixer-line-out-cross-coupled-xlr",
        ("xlr-f-to-635-trs-balanced",),
        "interface-line-in-combo-phantom",
        "shorted-while-plugging",
    ),
    ("mic-dynamic-xlr", ("xlr-f-to-35-trs-balanced",), "camera-mic-in-35", "sides-opposed"),
    ("mic-condenser-t-power-xlr", ("xlr-f-to-35-trs-balanced",), "recorder-line-in-35", "sides-opposed"),
    (
        "lighting-data-power-out-xlr-5",
        ("xlr-5-m-to-xlr-4-f-headset-both-ears",),
        "headphones-balanced-xlr-4",
        "supply-against-supply",
    ),
    (
        "mic-ribbon-active-xlr",
        ("xlr-f-to-two-xlr-m",),
        "recorder-mic-in-t-power-reversed-xlr",
        "supply-against-supply",
    ),
    (
        "loudspeaker-amp-out-xlr",
        ("xlr-f-to-xlr-m-digital-110-ohm",),
        "recorder-mic-in-t-power-xlr",
        "supply-into-output",
    ),
    ("lighting-data-out-xlr", ("xlr-f-to-two-xlr-m",), "camera-mic-in-p48-xlr", "supply-into-output"),
    (
        "phone-headset-jack-lrgm",
        ("phone-35-trrs-jack-to-35-trs-phones",),
        "headset-lrmg",
        "talkback-unpowered",
    ),
    (
        "phone-headset-jack-lrmg",
        ("phone-35-trrs-jack-to-35-trs-mic-tip",),
        "headset-lrgm",
        "talkback-unpowered",
    ),
    ("console-insert-635-tip-send", ("phone-635-ts-to-635-ts-loudspeaker",), "loudspeaker-635", "thin"),
    ("mic-stereo-p48-xlr-5", ("xlr-5-f-to-xlr-5-m-headset",), "intercom-headset-xlr-5", "thin"),
    ("press-feed-out-xlr", ("xlr-f-to-xlr-m-crossed-3m",), "mixer-mic-in-xlr", "too-hot"),
    ("press-feed-out-xlr", ("xlr-f-to-xlr-m-transformer-joined",), "recorder-mic-in-t-power-xlr", "too-hot"),
    (
        "mic-condenser-t-power-reversed-xlr",
        ("xlr-f-to-xlr-m-pad-40-db",),
        "recorder-mic-in-t-power-reversed-xlr",
        "too-quiet",
    ),
    ("mic-ribbon-xlr", ("xlr-f-to-35-trs-attenuator",), "camera-mic-in-35", "too-quiet"),
    ("press-box-mic-out-xlr", ("xlr-f-to-bnc-3-to-1",), "timecode-in-bnc", "unbalanced"),
    ("mic-dynamic-xlr", ("xlr-f-to-35-trrs-mic-lrgm",), "phone-headset-jack-lrmg", "unbalanced"),
    (
        "headset-lrmg",
        ("phone-35-trs-jack-to-xlr-m-bias-from-phantom",),
        "mixer-mic-in-p48-xlr",
        "uneven-phantom",
    ),
    (
        "mic-condenser-p48-transformer-xlr",
        ("xlr-f-to-635-ts-3-open",),
        "mixer-mic-in-p48-635",
        "uneven-phantom",
    ),
    (
        "party-line-supply-xlr",
        ("xlr-f-to-xlr-m-screen-open-at-m",),
        "camera-mic-in-p48-xlr",
        "wait-for-capacitors",
    ),
    (
        "party-line-supply-two-channel-xlr",
        ("xlr-f-to-xlr-m-digital-110-ohm",),
        "interface-mic-in-p48-combo",
        "wait-for-capacitors",
    ),
    (
        "mic-lavalier-two-wire-35",
        ("phone-35-trs-to-two-35-trs-jacks",),
        "camera-mic-in-35-timecode-left",
        "starved",
    ),
    ("mic-electret-mono-35", ("phone-35-trs-jack-to-35-trrs-mic",), "phone-headset-jack-lrgm", "starved"),
    ("mic-dynamic-xlr", ("xlr-f-to-xlr-m-3m",), "mixer-mic-in-p48-xlr", ""),
)
# What follows from what devices and leads are, whatever the circuit says
TOLD_BY_KIND = {
    "kinds-apart",
    "unheard",
    "source-off",
    "unknown-level",
    "slow-lead",
    "bare-lead",
    "amplifier-into",
    "amplifier-through",
    "timecode-as-sound",
}


@pytest.fixture(scope="module")
def shown(catalogue, tmp_path_factory):
    """What the browser's engine shows, one working for each connection asked about."""
    data = tmp_path_factory.mktemp("working") / "given.json"
    data.write_text(json.dumps({"data": as_data(catalogue), **tables()}))
    asked = json.dumps(ASKED)
    found = run(
        f"{asked}.map(([from, through, into, id]) => Ringfence.explain(Ringfence.data, Ringfence.rulebook, "
        "{from, through, into}, id || null))",
        scripts("engine"),
        data,
    )
    assert len(found) == len(ASKED)
    return found


def differences(own, other, where=""):
    """Every field in which two workings differ, in words."""
    if isinstance(own, dict) and isinstance(other, dict):
        for key in sorted(own.keys() | other.keys()):
            yield from differences(own.get(key, "nothing"), other.get(key, "nothing"), f"{where}.{key}")
    elif isinstance(own, list) and isinstance(other, list) and len(own) == len(other):
        for i, (one, two) in enumerate(zip(own, other)):
            yield from differences(one, two, f"{where}[{i}]")
    elif isinstance(own, float) and isinstance(other, (int, float)) and not isinstance(other, bool):
        if not abs(own - other) <= RELATIVE * max(abs(own), abs(other)) + FLOOR:
            yield f"{where}: Python has {own!r}, the browser {other!r}"
    elif own != other:
        yield f"{where}: Python has {own!r}, the browser {other!r}"


@pytest.mark.parametrize(
    "number", range(len(ASKED)), ids=[f"{finding or 'arrives'}-{i}" for i, (*_, finding) in enumerate(ASKED)]
)
def test_the_browser_shows_the_working_of_python(catalogue, shown, number):
    start, through, target, finding = ASKED[number]
    own = json.loads(json.dumps(explain(catalogue, start, through, target, finding or None).as_data()))
    assert list(differences(own, shown[number])) == []


def test_every_finding_a_circuit_decides_is_asked_about():
    decided = {
        rule.id
        for rule in rules()
        if rule.quantity not in TOLD_BY_KIND
        and rule.severity != "figure"
        and rule.only.get("cause") != "nothing"
    }
    assert decided - {finding for *_, finding in ASKED} == set()


def test_a_difference_is_seen():
    assert list(differences({"volts": 1.0, "name": "hot"}, {"volts": 1.00001, "name": "cold"})) == [
        ".name: Python has 'hot', the browser 'cold'",
        ".volts: Python has 1.0, the browser 1.00001",
    ]
