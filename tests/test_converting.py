"""Where no lead can help: the box that does, never one turned round, and the same words in the browser."""

import json
from itertools import product

import pytest
from front import run, scripts

from generator.catalogue import default_directory, load
from generator.catalogue.light import DARK
from generator.catalogue.published import as_data
from generator.converting import converting
from generator.engine import judge
from generator.engine.kinds import same_kind
from generator.site.data import converters, feeding

BROWSER = scripts("ways/converting.js")


@pytest.fixture(scope="module")
def catalogue():
    return load(default_directory())


@pytest.fixture(scope="module")
def pairs(catalogue):
    """Every outlet and every other port."""
    return [
        (start, target)
        for start, outlet in catalogue.ports.items()
        for target in catalogue.ports
        if outlet.sources and start != target
    ]


def leads_may(one, other):
    """Is there a kind of signal that a wire, or a fibre, can take from one to the other?"""
    return any(
        same_kind(source, listener) and (DARK in source.output) == (DARK in listener.between)
        for source in one.sources
        for listener in other.listeners
    )


@pytest.mark.parametrize(
    "start, target, box",
    [
        ("optical-out-square", "digital-in-rca", "optical-to-wire"),
        ("digital-out-rca", "optical-in-square", "wire-to-optical"),
        ("camera-video-out-hdmi", "monitor-video-in-bnc-serial", "hdmi-to-serial"),
        ("camera-video-out-bnc-serial", "monitor-video-in-hdmi", "serial-to-hdmi"),
        ("madi-fibre-sc", "madi-in-bnc", "madi-fibre-to-coaxial"),
        ("madi-out-bnc", "network-fibre-lc", "madi-to-network"),
        ("mixer-line-out-xlr", "digital-in-xlr", "line-to-digital"),
        ("digital-out-xlr", "mixer-line-in-xlr", "digital-to-line"),
        ("mic-dynamic-xlr", "computer-usb-a", "into-usb"),
        ("party-line-supply-xlr", "intercom-matrix-port-rj45", "party-line-to-four-wire"),
        ("telephone-line-rj11", "intercom-matrix-port-rj45", "out-of-telephone"),
        ("intercom-matrix-port-rj45", "telephone-line-rj11", "into-telephone"),
        ("word-clock-out-bnc", "genlock-in-bnc", "clock-to-sync"),
    ],
)
def test_the_box_a_colleague_names(catalogue, start, target, box):
    """common practice"""
    assert converting(catalogue, start, target).box.id == box


@pytest.mark.parametrize(
    "start, target",
    [
        ("mic-dynamic-xlr", "mixer-mic-in-xlr"),
        ("digital-out-xlr", "digital-in-rca"),  # a lead with a transformer, or none
        ("mic-usb-c-digital", "computer-usb-a"),
        ("timecode-box-out-35", "recorder-line-in-35"),  # timecode goes onto a sound track
    ],
)
def test_nothing_is_told_where_a_lead_may_do_it(catalogue, start, target):
    assert converting(catalogue, start, target) is None


def test_an_amplifier_for_loudspeakers_is_offered_no_box(catalogue):
    """Its output would harm every input that takes line level."""
    told = [converting(catalogue, "loudspeaker-amp-out-635", target) for target in catalogue.ports]
    assert [one.box.id for one in told if one and one.box] == []


def test_no_box_is_turned_round(catalogue, pairs):
    """What leaves the outlet is heard by the input named, and what leaves the box by the inlet; a box for
    what only sends names it."""
    told = 0
    for start, target in pairs:
        found = converting(catalogue, start, target)
        if not found or not found.box:
            continue
        outlet, inlet, enters, leaves = map(
            catalogue.ports.__getitem__, (start, target, found.enters, found.leaves)
        )
        assert leads_may(outlet, enters), (start, target)
        assert leads_may(leaves, inlet) or (target in found.box.only_to and leads_may(inlet, leaves))
        told += 1
    assert told > 1000


def test_every_box_is_told_somewhere(catalogue, pairs):
    found = {told.box.id for told in (converting(catalogue, *pair) for pair in pairs) if told and told.box}
    assert found == set(catalogue.converters)


def test_a_socket_to_look_for_first_is_for_this_kind_of_signal(catalogue, pairs):
    for start, target in pairs[::7]:
        found = converting(catalogue, start, target)
        for side, port in found.first if found else ():
            if side == "feed":
                continue
            other = catalogue.ports[port]
            ends = (start, port) if side == "into" else (port, target)
            assert other.device == catalogue.ports[target if side == "into" else start].device
            assert leads_may(*map(catalogue.ports.__getitem__, ends))
            assert converting(catalogue, *ends) is None


@pytest.mark.parametrize(
    "start, enters, through",
    [
        ("mic-condenser-p48-xlr", "mixer-mic-in-p48-xlr", ()),
        ("mic-electret-stereo-35", "recorder-mic-in-35", ()),
        ("mic-lavalier-phone-35", "recorder-mic-in-35", ("phone-35-trrs-jack-to-35-trs-mic-both",)),
        ("mic-condenser-t-power-xlr", "mixer-mic-in-p48-xlr", ("xlr-f-to-xlr-m-t-power-from-phantom",)),
    ],
)
def test_a_microphone_goes_in_by_what_feeds_it(catalogue, start, enters, through):
    """common practice: 48 V phantom, straight from the box, is for the first of them only"""
    found = converting(catalogue, start, "computer-usb-a")
    assert (found.box.id, found.enters, found.through) == ("into-usb", enters, through)


def test_the_lead_that_feeds_it_is_named_with_its_order(catalogue):
    said = converting(catalogue, "mic-condenser-t-power-xlr", "computer-usb-a").sentences
    assert said[1] == (
        "The microphone goes in through the “Phantom to T-power converter, XLR, + on contact 2”, with "
        "phantom 48 V off, and switch that on after."
    )
    # plug-in power that is always on has nothing to switch
    said = converting(catalogue, "mic-lavalier-phone-35", "computer-usb-a").sentences
    assert said[1] == (
        "The microphone goes in through the “3.5 mm TRRS jack to TRS plug, headset microphone on tip "
        "and ring”."
    )


def test_where_no_box_feeds_it_what_does_is_told_first(catalogue):
    """A lavalier of three wires wants its bodypack: nothing makes its power out of phantom."""
    found = converting(catalogue, "mic-lavalier-three-wire-mini-xlr", "computer-usb-a")
    assert (found.first, found.box) == ((("feed", "transmitter-mic-in-mini-xlr"),), None)
    name = catalogue.ports["transmitter-mic-in-mini-xlr"].name
    assert found.sentences == (
        f"First it needs power of its own kind: “{name}” gives it. Plug it in there, and take the sound on "
        "from that device.",
    )


def test_what_feeds_a_microphone_works(catalogue):
    """Every way that feeding.yaml tells, as the engine judges it: it works, if need be in the order told."""
    for way in catalogue.feeding.values():
        for start, target in product(way.outlets, way.into):
            verdict = judge(catalogue, start, way.through, target)
            assert {verdict.verdict, verdict.offered} & {"safe", "lossy"}, (start, target)


def test_no_microphone_is_sent_into_a_box_that_harms_it(catalogue, pairs):
    """What needs power, and is told no lead that feeds it, works straight in the input that is told."""
    told = {
        (start, found.enters)
        for start, target in pairs
        if catalogue.ports[start].needs and (found := converting(catalogue, start, target)) and found.box
        if not found.box.only_from and not found.through
    }
    assert len(told) > 10
    for start, enters in told:
        verdict = judge(catalogue, start, (), enters)
        assert {verdict.verdict, verdict.offered} & {"safe", "lossy"}, (start, enters)


def test_power_is_no_signal(catalogue):
    """Another socket for power may want other volts: it is asked about as it stands, not offered."""
    assert converting(catalogue, "camera-battery-out-xlr-4", "mixer-line-in-xlr") is None


def test_a_telephone_line_goes_into_nothing_but_its_coupler(catalogue):
    """It has the kind of a line, and rings at some 90 V."""
    found = [
        told for target in catalogue.ports if (told := converting(catalogue, "telephone-line-rj11", target))
    ]
    assert len(found) > 20
    assert {(told.first, told.box.id) for told in found} == {((), "out-of-telephone")}


def test_the_whole_of_what_is_told(catalogue):
    assert converting(catalogue, "optical-out-square", "digital-in-rca").sentences == (
        "Look first for another socket on the player: “Digital audio output, RCA” sends what is wanted.",
        "What would: an optical-to-coaxial converter. Light goes in, and the same two channels come out on a "
        "coaxial socket; some also have an XLR.",
        "It needs power of its own, mostly 5 V from a USB charger.",
        "The same box turned round does nothing, so check which of its sockets says IN.",
        "The next device must take its clock from this input, or it clicks.",
        "It passes a surround stream on as it is; set the sender to PCM or stereo.",
        "Each of its sides is a connection of its own: judge both before you plug.",
    )


def test_the_browser_says_the_same(catalogue, pairs, tmp_path):
    (tmp_path / "given.json").write_text(
        json.dumps(
            {"data": (made := as_data(catalogue)), "converters": converters(made), "feeding": feeding(made)}
        )
    )
    own = [
        (told := converting(catalogue, *pair))
        and {key: value for key, value in told.as_data().items() if key not in ("name", "does", "needs")}
        for pair in pairs
    ]
    program = f"{json.dumps(pairs)}.map(([from, into]) => Ringfence.ways.converting(from, into))"
    assert run(program, BROWSER, tmp_path / "given.json") == own


def test_the_command_line_tells_it(ask, catalogue):
    _, printed, _ = ask("ways", "madi-fibre-sc", "madi-in-bnc")
    told = converting(catalogue, "madi-fibre-sc", "madi-in-bnc")
    assert printed.splitlines() == [
        "Nothing in the catalogue gets madi-fibre-sc into madi-in-bnc without harm or silence.",
        *told.sentences[:-1],
        f"{told.sentences[-1]} [common practice]",
    ]
    chain = ("mixer-line-out-xlr", "--through", "xlr-f-to-xlr-m-3m", "digital-in-xlr")
    told = converting(catalogue, chain[0], chain[-1])
    _, printed, _ = ask("judge", *chain)
    assert printed.splitlines()[-len(told.sentences) :] == [
        *(f"  {sentence}" for sentence in told.sentences[:-1]),
        f"  {told.sentences[-1]} [common practice]",
    ]
    assert json.loads(ask("judge", *chain, "--json")[1])["instead"] == told.as_data()


def test_a_program_is_told_the_box_in_the_words_of_the_text(ask, catalogue):
    """`judge` tells it; `ways` is the bare list, which programs rely on, and has none here."""
    ends = ("madi-fibre-sc", "madi-in-bnc")
    assert json.loads(ask("ways", *ends, "--json")[1]) == []
    answer = json.loads(ask("judge", *ends, "--json")[1])
    assert answer["missing"] is None
    does, needs = (
        "MADI on light goes in, and the same channels come out on a BNC.",
        "It needs mains, or a supply of its own.",
    )
    says = answer["instead"].pop("says")
    assert answer["instead"] == {
        "first": [{"on": "from", "port": "madi-out-bnc"}],
        "converter": "madi-fibre-to-coaxial",
        "name": "a MADI fibre-to-coaxial converter",
        "does": does,
        "needs": needs,
        "enters": "madi-fibre-sc",
        "leaves": "madi-out-bnc",
        "through": [],
        "evidence": "common practice",
    }
    assert says[1:3] == [f"What would: a MADI fibre-to-coaxial converter. {does}", needs]
    text = ask("ways", *ends)[1].splitlines()
    assert text[1:] == [*says[:-1], f"{says[-1]} [common practice]"]


def test_only_another_socket_is_no_box(ask, catalogue, pairs):
    """Where the catalogue has no box, what stands for it is null, and the sockets are told."""
    start, target = next(
        pair for pair in pairs if (told := converting(catalogue, *pair)) and told.first and not told.box
    )
    instead = converting(catalogue, start, target).as_data()
    for key in ("converter", "name", "does", "needs", "enters", "leaves", "evidence"):
        assert instead[key] is None
    assert instead["first"] and len(instead["says"]) == len(instead["first"])
    assert json.loads(ask("judge", start, target, "--json")[1])["instead"] == instead


def test_a_way_that_works_is_left_alone(ask):
    chain = ("mixer-line-out-xlr", "--through", "xlr-f-to-xlr-m-3m", "mixer-mic-in-xlr")
    assert json.loads(ask("judge", *chain, "--json")[1])["instead"] is None
