"""Pieces of the engine whose faults no single connection shows: each on its own, with
numbers one can see through."""

from dataclasses import replace
from types import SimpleNamespace

import numpy as np
import pytest

from generator.catalogue.records import Part, Quantity
from generator.engine.assemble import Plugged, Way, assemble, placed, ways
from generator.engine.chassis import _wanted, isolated
from generator.engine.circuit import build, value_at
from generator.engine.explain import _reading
from generator.engine.findings import findings_of, met, not_solved
from generator.engine.hearing import _listener, _output, _polarity
from generator.engine.judge import _at_spare_end
from generator.engine.matrix import pairings
from generator.engine.memory import recalled
from generator.engine.misfit import misfit
from generator.engine.missing import described
from generator.engine.naming import net_labels, owner
from generator.engine.pairing import Input, Output, comparable
from generator.engine.powering import pairs
from generator.engine.readings import Named, Reading
from generator.engine.rulebook import rules
from generator.engine.shown import _touching
from generator.engine.signal import Signals
from generator.engine.unsuited import unsuited
from generator.engine.verdict import Verdict
from generator.engine.words import fixed

LINE_INTO_PHANTOM = "mixer-line-out-xlr", ("xlr-f-to-xlr-m-3m",), "mixer-mic-in-p48-xlr"


@pytest.fixture
def connection(catalogue):
    """Outlet, leads, inlet, the way they are plugged."""
    start, through, target = LINE_INTO_PHANTOM
    parts = catalogue.ports[start], [catalogue.leads[name] for name in through], catalogue.ports[target]
    return *parts, ways(catalogue, *parts)[0]


def test_that_mains_earth_ties_the_chassis_is_told(catalogue, connection):
    assembly = assemble(catalogue, *connection)
    told = "both chassis are tied by mains earth as well"
    assert _touching(assembly, SimpleNamespace(closed=assembly.joined[0]))[-1] == told
    assert told not in _touching(assembly, SimpleNamespace(closed=assembly.home[0]))


def sends(kind, nominal):
    return Output("from", SimpleNamespace(id="main", kind=kind, nominal=nominal, channel="main"))


HEARS = SimpleNamespace(
    name="into/main", place="into", nodes=("into/hot", "into/cold"), listener=SimpleNamespace(channel="main")
)


@pytest.mark.parametrize("kind, share", [("line", 1.0), ("microphone", 10 ** (-22 / 20))])
def test_hum_is_held_against_the_least_that_is_wanted(kind, share):
    """Of two landings the one that passes a quarter counts; of a microphone a voice, 22 dB
    below its nominal level."""
    gains = np.zeros((1, 3, 2))
    gains[0, 1] = 0.5, 0.25
    assert _wanted(
        SimpleNamespace(gains={("from/main", "into/main"): gains}), sends(kind, 2.0), HEARS
    ) == pytest.approx(0.5 * share)


@pytest.mark.parametrize(
    "gains, straight, turned",
    [((0.5, -0.25, 1.0), (-1.0, 1), (1.0, 2)), ((0.5, 0.25, -1.0), (1.0, 0), (-1.0, 2))],
)
def test_polarity_is_told_where_the_plug_lands_worst(gains, straight, turned):
    """The last state is that of a plug turned round, which is told of apart."""
    o = sends("line", 1.0)
    signals = SimpleNamespace(assembly=SimpleNamespace(turned=(False, False, True), joined=()))
    found = {
        r.quantity: (r.value, r.at.state)
        for r in _polarity(signals, HEARS, [o], {o: np.array(gains, dtype=complex)}, {})
    }
    assert found == {"polarity": straight, "polarity-turned": turned}


def test_what_is_remembered_is_one_circuit(catalogue, connection):
    """Another way round, another use of a spare end, another resistor: solved anew. Another name: not."""
    outlet, leads, inlet, way = connection
    asked = []

    def ask(way, port):
        records = catalogue.connectors, *placed(catalogue, port, leads, inlet, way).values()
        recalled(records, way, lambda: asked.append(way) or ())
        return len(asked)

    first = Way((("one", "other"),))
    own = replace(
        outlet,
        name="Nobody else has this one",
        network=replace(outlet.network, parts=outlet.network.parts[:-1]),
    )
    [changed, *rest] = [part for part in own.network.parts if part.kind == "resistor"]
    other = replace(changed, value=replace(changed.value, nominal=changed.value.nominal * 2))
    heavier = replace(
        own,
        network=replace(
            own.network, parts=tuple(other if part is changed else part for part in own.network.parts)
        ),
    )
    assert ask(first, own) == 1
    assert ask(first, replace(own, name="Another name")) == 1
    assert ask(Way((("other", "one"),)), own) == 2
    assert ask(Way(first.ends, (Plugged(0, "spare", inlet.id, "extra1"),)), own) == 3
    assert ask(Way(first.ends, (Plugged(0, "another", inlet.id, "extra1"),)), own) == 4
    assert ask(first, heavier) == 5


def finding(severity, mend):
    return replace(not_solved("x"), id=mend, severity=severity, mend=mend)


def test_a_lead_is_asked_for_nothing_that_is_a_note(catalogue):
    ports = catalogue.ports[LINE_INTO_PHANTOM[0]], catalogue.ports[LINE_INTO_PHANTOM[2]]
    best = Verdict(
        "a",
        (),
        "b",
        "lossy",
        (),
        {},
        "safe",
        (finding("lossy", "takes the level down"), finding("note", "is wired in gold")),
    )
    told = described(catalogue, *ports, best)
    assert told.endswith(" that takes the level down.")


@pytest.mark.parametrize("corner, volts", [("strong", -52.0), ("weak", -44.0), ("nominal", -48.0)])
def test_a_rail_below_0_v_is_strong_where_it_is_far_from_it(corner, volts):
    assert value_at(Part("rail", "emf", "a", "b", Quantity(-48.0, -52.0, -44.0, "V", "")), corner) == volts


def test_what_is_plugged_straight_in_is_a_pairing_too(catalogue):
    few = replace(
        catalogue,
        ports={name: catalogue.ports[name] for name in ("mixer-line-out-xlr", "mixer-mic-in-p48-xlr")},
        leads={},
    )
    assert list(pairings(few)) == [("mixer-line-out-xlr", (), "mixer-mic-in-p48-xlr")]


def test_two_nets_are_never_called_alike(connection):
    outlet, _, inlet, _ = connection
    labels = net_labels({"from": outlet, "into": inlet}, {0: ["from/hot"], 1: ["into/hot"], 2: ["from/hot"]})
    assert len(set(labels.values())) == 3


def test_of_two_alike_each_is_named_with_its_side(connection):
    outlet = connection[0]
    assert owner({"from": outlet, "into": outlet}, "into") == "Mixer line output at the inlet"
    assert owner({"from": outlet}, "from") == "Mixer line output"


def test_a_danger_at_a_spare_end_is_a_note_of_its_own():
    told = _at_spare_end(finding("dangerous", ""), ["the recorder", "the camera"])
    assert (told.severity, told.subject) == ("note", "spare:connection")
    assert told.says.startswith("With the recorder and the camera in the spare end: this connection")


@pytest.mark.parametrize("length, impedance, metres", [(None, None, 0.3), (2.0, None, 2.0), (2.0, 75.0, 0.0)])
def test_an_adapter_for_fast_signals_counts_as_30_cm(catalogue, length, impedance, metres):
    lead = replace(catalogue.leads["xlr-f-to-xlr-m-3m"], length=length, impedance=impedance)
    pairs = [(sends("digital", None), SimpleNamespace(listener=SimpleNamespace(kind="digital")))]
    assert [
        (r.quantity, r.value)
        for r in unsuited(SimpleNamespace(places={"lead1": lead}), "from", "into", pairs)
    ] == [("slow-lead", metres)]


def test_a_source_that_is_off_sends_nothing():
    supply = SimpleNamespace(id="amplifier", name="amplifier", states=("on", "off"), style="drive")
    ports = {"from": SimpleNamespace(supplies=[supply])}
    source = SimpleNamespace(supply="amplifier", maximum=2.0, nominal=1.0)
    levels = Signals.levels.func(
        SimpleNamespace(assembly=SimpleNamespace(ports=ports), sources={"from/main": ("from", source)})
    )
    assert [level.tolist() for level in levels] == [[2.0], [0.0]]


def test_nothing_is_offered_where_a_setting_is_well_in_itself():
    """With the amplifier on nothing happens, plugging or plugged: there is no order to mind."""
    verdict = Verdict(
        "a",
        (),
        "b",
        "dangerous",
        (({"amp": "on"}, "safe"), ({"amp": "off"}, "dangerous")),
        {"amp": "amplifier"},
        "dangerous",
        (),
        moments=(("safe", "safe"), ("dangerous", "dangerous")),
    )
    assert (verdict.offered, verdict.offer) == ("", "")


@pytest.mark.parametrize(
    "landings, apart",
    [([(False,), (False,)], True), ([(False,), (True,)], False), ([(True,), (True,)], False)],
)
def test_two_chassis_are_apart_only_if_no_landing_joins_them(landings, apart):
    ends = "from/chassis", "into/chassis"
    assert isolated(SimpleNamespace(bare=build((), (), [ends], ends), home=landings)) is apart


def test_the_heaviest_load_counts():
    """Of two landings the one that leaves 500 ohm, where 600 are wanted."""
    o = Output(
        "from",
        SimpleNamespace(id="main", kind="line", channel="main", least_load=600.0, output=("hot", "cold")),
    )
    load = np.array([2000.0, 500.0])
    signals = SimpleNamespace(
        load={o.name: load},
        loads={o.name: (load, 100.0)},
        open_output={o.name: np.ones(3)},
        output={o.name: np.ones((3, 2))},
    )
    [found] = _output(signals, o)
    assert (found.quantity, found.value, found.limit, found.at.state) == ("load-ohm", 500.0, 600.0, 1)


@pytest.mark.parametrize(
    "value, told", [(0.25, "0.3"), (0.2499999999, "0.3"), (-0.25, "−0.3"), (0.2499, "0.2"), (-0.04, "0.0")]
)
def test_a_half_is_rounded_away_from_zero_and_so_is_what_is_one_but_for_rounding(value, told):
    assert fixed(value, 1) == told


def rule(compare="above", margin=0.0):
    return replace(rules()[0], compare=compare, margin=margin)


@pytest.mark.parametrize(
    "compare, value, beyond",
    [
        ("above", 16.0, False),
        ("above", 16.0 * (1 + 1e-12), False),
        ("above", 16.01, True),
        ("below", 16.0, False),
        ("below", 16.0 * (1 - 1e-12), False),
        ("below", 15.99, True),
    ],
)
def test_the_limit_itself_is_not_beyond_it(compare, value, beyond):
    """A part rated for 16 V may have 16 V, and so it may if rounding adds a trillionth."""
    assert met(rule(compare), value, 16.0) is beyond


@pytest.mark.parametrize(
    "compare, value, beyond",
    [("below", 900.0, False), ("below", 849.0, True), ("above", 1100.0, False), ("above", 1151.0, True)],
)
def test_a_limit_may_be_missed_by_its_margin(compare, value, beyond):
    """15 % of 1 kohm."""
    assert met(rule(compare, 0.15), value, 1000.0) is beyond


@pytest.mark.parametrize("way, severity", [("forth", "lossy"), ("back", "note")])
def test_what_the_way_back_loses_is_told_and_spoils_nothing(connection, way, severity):
    """A headset whose microphone sounds dull plays as well as before."""
    dull = Reading(
        "treble", "x", "signal", -12.0, "dB", "signal", words={"sink": "the phone"}, flags={"way": way}
    )
    assert [f.severity for f in findings_of(dull, (), {}) if f.id == "dull"] == [severity]


def test_of_several_ways_the_signal_takes_the_loudest_is_shown():
    paths = [Reading("path-gain", "from", "connection", dB, "dB", "signal") for dB in (-20.0, -3.0, -90.0)]
    assert _reading(paths, None)[1].value == -3.0


def test_where_the_sides_cancel_on_one_landing_they_cancel():
    """Alike on the first landing, opposed on the second: summed to mono nothing is left there."""
    left, right = (
        Output("from", SimpleNamespace(id=id, kind="line", nominal=1.0, channel=id))
        for id in ("left", "right")
    )
    hears = SimpleNamespace(
        name="into/main",
        place="into",
        nodes=("into/hot", "into/cold"),
        listener=SimpleNamespace(channel="main", kind="line"),
    )
    gains = {
        (o.name, hears.name): np.full((1, 3, 2), heard, dtype=complex)
        for o, heard in ((left, [1, 1]), (right, [1, -1]))
    }
    found = next(_listener(SimpleNamespace(gains=gains), hears, [left, right], []))
    assert (found.quantity, found.value, found.at.state) == ("mono-sum", -120.0, 1)


def test_the_half_that_is_reached_is_the_one_that_does_not_go_on(catalogue):
    """An XLR outlet, a lead to a jack plug: that plug does not go into an XLR socket."""
    outlet, inlet = (catalogue.ports[name] for name in ("mixer-line-out-xlr", "mixer-line-in-xlr"))
    lead, jack = catalogue.leads["xlr-f-to-635-trs-balanced"], catalogue.connectors["phone-635-trs"]
    says = misfit(catalogue, outlet, [lead], inlet).says
    assert says.startswith(f"{lead.name} ends in {jack.name}, plug; {inlet.name} does not go in there.")


@pytest.mark.parametrize(
    "one, other, microamps",
    [
        ("insulated", "earthed", [79.5]),
        ("earthed", "insulated", [79.5]),
        ("battery", "earthed insulated", [9.03, 7.95]),
        ("insulated", "battery earthed", [79.5, 7.95]),
    ],
)
def test_what_flows_between_two_chassis_hangs_on_how_both_are_powered(one, other, microamps):
    """115 V at 50 Hz behind 2.2 nF are 79.5 uA, published: 38 to 98 uA [leakage-measured]; behind
    the 0.25 nF of a hand 9.03 uA, behind 0.22 nF 7.95 uA. Either device may come first, and the
    worst of several pairs does."""
    assert [pair.amps * 1e6 for pair in pairs(tuple(one.split()), tuple(other.split()))] == pytest.approx(
        microamps, rel=2e-3
    )


@pytest.mark.parametrize(
    "channel, name",
    [
        ("main", "the mixer line output"),
        ("left", "the left channel of the mixer line output"),
        ("ch7", "the channel 7 of the mixer line output"),
    ],
)
def test_a_device_of_several_channels_is_named_with_the_one(connection, channel, name):
    assert Named("from", channel)({"from": connection[0]}) == name


def test_the_order_to_mind_leaves_alone_what_need_not_be_switched():
    """Well in the end with both on, which must not be plugged; with the amplifier off one may, phantom on or
    off. So phantom stays on."""
    said = {
        ("on", "on"): ("safe", "dangerous"),
        ("on", "off"): ("no signal", "dangerous"),
        ("off", "off"): ("no signal", "safe"),
        ("off", "on"): ("no signal", "safe"),
    }
    settings = [
        ({"amp": amp, "phantom": phantom}, "dangerous" if "dangerous" in moment else "no signal")
        for (amp, phantom), moment in said.items()
    ]
    names = {"amp": "the amplifier", "phantom": "phantom"}
    verdict = Verdict(
        "a", (), "b", "dangerous", tuple(settings), names, "dangerous", (), moments=tuple(said.values())
    )
    assert (
        verdict.offer
        == "Plug it with the amplifier off, wait a moment, then the amplifier on: then it is safe."
    )
    assert "dangerous while plugging with the amplifier on" in verdict.conditions.lower()


def test_timecode_is_heard_as_sound_where_it_finds_no_timecode_to_go_to():
    """Beside a track of sound and an input for timecode it goes there, and the sound to the track; of a track
    alone it goes onto that."""

    def kinds(sent, heard):
        outputs = [Output("from", SimpleNamespace(id=kind, kind=kind)) for kind in sent]
        inputs = [Input("into", SimpleNamespace(id=kind, kind=kind)) for kind in heard]
        return [(o.source.kind, i.listener.kind) for o, i in comparable(outputs, inputs)]

    assert kinds(["line", "timecode"], ["line", "timecode"]) == [("line", "line"), ("timecode", "timecode")]
    assert kinds(["timecode"], ["line"]) == [("timecode", "line")]
