"""Pieces of the engine whose faults no single connection shows: each on its own, with
numbers one can see through."""

from dataclasses import replace
from types import SimpleNamespace

import pytest
from a_connection import LINE_INTO_PHANTOM, line_into_phantom, sends

from generator.catalogue.records import Part, Quantity
from generator.engine.assemble import assemble, placed
from generator.engine.assembly import Plugged, Way
from generator.engine.circuit import value_at
from generator.engine.findings import met, not_solved
from generator.engine.judge import _at_spare_end, judge
from generator.engine.matrix import pairings
from generator.engine.memory import recalled
from generator.engine.misfit import misfit
from generator.engine.missing import described
from generator.engine.naming import net_labels, owner
from generator.engine.readings import Named
from generator.engine.rulebook import rules
from generator.engine.shown import _touching
from generator.engine.unsuited import unsuited
from generator.engine.verdict import Verdict
from generator.engine.words import fixed

connection = pytest.fixture(line_into_phantom)


def test_that_mains_earth_ties_the_chassis_is_told(catalogue, connection):
    assembly = assemble(catalogue, *connection)
    told = "both chassis are tied by mains earth as well"
    assert _touching(assembly, SimpleNamespace(closed=assembly.joined[0]))[-1] == told
    assert told not in _touching(assembly, SimpleNamespace(closed=assembly.home[0]))


def test_what_is_remembered_is_one_circuit(catalogue, connection):
    """Another way round, another use of a spare end, another resistor: solved anew. Another name: not."""
    outlet, leads, inlet, _ = connection
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
    changed = next(part for part in own.network.parts if part.kind == "resistor")
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
    assert told_of(lead, pairs) == {"slow-lead": metres, "slow-parts": 0.0}


def told_of(lead, pairs):
    readings = unsuited(SimpleNamespace(places={"lead1": lead}), "from", "into", pairs)
    return {reading.quantity: reading.value for reading in readings if reading.quantity != "bare-lead"}


@pytest.mark.parametrize(
    "lead, made_for, slow",
    [
        ("xlr-f-to-xlr-m-pad-20-db", (), 1.0),
        ("xlr-f-to-xlr-m-transformer-floating", (), 1.0),
        ("xlr-f-to-xlr-m-pad-20-db", ("digital",), 0.0),
        ("xlr-f-to-bnc-aes-transformer", (), 0.0),  # of the impedance the signal is made for
        ("xlr-f-to-xlr-m-3m", (), 0.0),
    ],
)
def test_parts_in_a_lead_are_for_sound_unless_it_says_otherwise(catalogue, lead, made_for, slow):
    pairs = [(sends("digital", None), SimpleNamespace(listener=SimpleNamespace(kind="digital")))]
    told = told_of(replace(catalogue.leads[lead], made_for=made_for), pairs)
    assert told["slow-parts"] == slow
    assert (told["slow-lead"] > 0) == (not slow and "aes" not in lead)


@pytest.mark.parametrize("kind", ["line", "microphone", "timecode"])
def test_a_transformer_for_fast_signals_is_none_for_sound(catalogue, kind):
    sender = sends(kind, None)
    sender.source.balanced = True
    pairs = [(sender, SimpleNamespace(listener=SimpleNamespace(kind=kind, balanced=True)))]
    assert told_of(catalogue.leads["xlr-f-to-bnc-aes-transformer"], pairs) == {"fast-coil": 1.0}
    assert told_of(catalogue.leads["xlr-f-to-xlr-m-transformer-floating"], pairs) == {}


@pytest.mark.parametrize(
    "lead, verdict, told",
    [  # the camera keeps its left track for timecode; its right one records sound as ever
        ("xlr-f-to-35-trs-both-3-to-1", "lossy", "timecode-as-sound"),
        ("xlr-f-to-35-trs-tip-3-to-1", "no signal", "other-kind"),
    ],
)
def test_a_voice_beside_timecode_is_heard_on_the_other_track(catalogue, lead, verdict, told):
    found = judge(catalogue, "mic-dynamic-xlr", (lead,), "camera-mic-in-35-timecode-left")
    assert found.verdict == verdict
    assert told in {finding.id for finding in found.findings}


@pytest.mark.parametrize(
    "lead, shut",
    [
        ("phone-35-trs-to-35-trs-capacitors", 1.0),
        ("phone-35-trs-to-35-trs-transformer", 1.0),
        ("phone-35-trs-to-35-trs", 0.0),  # its cable has capacitance, and that shuts nothing off
    ],
)
def test_a_contact_is_held_by_direct_current(catalogue, lead, shut):
    pairs = [(sends("contact", None), SimpleNamespace(listener=SimpleNamespace(kind="contact")))]
    assert told_of(catalogue.leads[lead], pairs)["contact-shut"] == shut


def test_what_gains_nothing_is_not_switched_on():
    """A dynamic microphone on an unbalanced lead: phantom harms while plugging, and does no good after."""
    verdict = Verdict(
        "a",
        (),
        "b",
        "dangerous",
        (({"phantom": "on"}, "dangerous"), ({"phantom": "off"}, "lossy")),
        {"phantom": "phantom 48 V"},
        "dangerous",
        (),
        moments=(("lossy", "dangerous"), ("lossy", "lossy")),
    )
    told = "Plug it with phantom 48 V off, and leave it so: then it works and loses something."
    assert (verdict.offered, verdict.offer) == ("lossy", told)
    needed = replace(verdict, moments=(("safe", "dangerous"), ("lossy", "lossy")))
    assert needed.offer == (
        "Plug it with phantom 48 V off, wait a moment, then phantom 48 V on: then it is safe."
    )


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


def test_the_half_that_is_reached_is_the_one_that_does_not_go_on(catalogue):
    """An XLR outlet, a lead to a jack plug: that plug does not go into an XLR socket."""
    outlet, inlet = (catalogue.ports[name] for name in ("mixer-line-out-xlr", "mixer-line-in-xlr"))
    lead, jack = catalogue.leads["xlr-f-to-635-trs-balanced"], catalogue.connectors["phone-635-trs"]
    says = misfit(catalogue, outlet, [lead], inlet).says
    assert says.startswith(f"{lead.name} ends in {jack.name}, plug; {inlet.name} does not go in there.")


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
