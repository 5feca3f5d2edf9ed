"""Connections a senior engineer has an opinion on, judged on the real catalogue: what must never be called
safe, what gets handed over instead."""

from math import log10

import pytest

from generator.engine.judge import judge


def verdict(catalogue, start: str, lead: str | None, target: str):
    return judge(catalogue, start, (lead,) if lead else (), target)


def ids(found, severity: str | None = None) -> set[str]:
    return {finding.id for finding in found.findings if severity in (None, finding.severity)}


@pytest.mark.parametrize(
    ("start", "lead", "target", "finding"),
    [
        # two-way-radio-headset-note: drawing current from the microphone contact transmits; a two-contact
        # plug joins it to ground
        ("two-way-radio-accessory-25", None, "earpiece-25", "over-current"),
        # from memory: a full camera battery is above what many sockets marked 12 V stand, and contacts nobody
        # has named may be anything
        (
            "camera-battery-out-xlr-4",
            "xlr-4-m-to-dc-barrel-55-21-centre-positive",
            "receiver-dc-in-barrel",
            "over-volts",
        ),
        (
            "camera-battery-out-xlr-4",
            "xlr-4-m-to-push-pull-4-charging",
            "receiver-dc-in-push-pull-4",
            "rating-not-known",
        ),
        # common practice: 100 V lines are for loudspeakers with a transformer
        (
            "constant-voltage-line-out-binding-post",
            "banana-4-pair-to-banana-4-pair",
            "loudspeaker-binding-post",
            "over-power",
        ),
        # from memory: above 42.4 V peak bare metal must not be within reach of fingers
        (
            "constant-voltage-line-out-binding-post",
            "banana-4-pair-to-banana-4-pair",
            "loudspeaker-100-volt-binding-post",
            "over-volts",
        ),
        # from memory: network sockets feed up to 57 V; intercom-manual-two-channel: party
        # lines 30 V on contact 2
        ("network-power-out-rj45", "rj45-to-rj45-straight", "audio-box-in-rj45", "over-volts"),
        ("network-power-out-rj45", "rj45-to-rj45-straight", "digital-box-in-rj45", "over-volts"),
        ("party-line-supply-xlr", None, "digital-in-xlr", "over-volts"),
        # t-power-page: never dynamic microphones; a transformer winding is a short to T-power
        ("mic-dynamic-xlr", None, "recorder-mic-in-t-power-xlr", "over-current"),
        (
            "mic-condenser-t-power-xlr",
            "xlr-f-to-xlr-m-transformer-joined",
            "recorder-mic-in-t-power-xlr",
            "over-current",
        ),
        # phantom-menace-returns: phantom into an output nobody has made for it
        (
            "wireless-receiver-out-35-mono",
            "phone-35-trs-locking-to-xlr-m-tip-2",
            "mixer-mic-in-p48-xlr",
            "over-volts",
        ),
    ],
)
def test_do_not_connect(catalogue, start, lead, target, finding):
    found = verdict(catalogue, start, lead, target)
    assert found.verdict == "dangerous"
    assert finding in ids(found, "dangerous")


@pytest.mark.parametrize(
    ("start", "lead", "target"),
    [
        ("mic-condenser-p48-xlr", None, "plug-on-transmitter-in-p48-xlr"),
        ("mic-condenser-p48-xlr", "xlr-f-to-xlr-m-pad-10-db", "camera-mic-in-p48-xlr"),
        ("computer-headphone-out-35", "phone-35-trs-to-xlr-m-attenuator", "mixer-mic-in-p48-xlr"),
        ("player-line-out-35", "phone-35-trs-to-35-trs-attenuator-25-db", "camera-mic-in-35"),
        ("wireless-receiver-out-35-mono", "phone-35-trs-locking-to-35-trs-both", "camera-mic-in-35"),
        (
            "timecode-box-out-35",
            "phone-35-trs-to-35-trs-timecode-attenuator",
            "camera-mic-in-35-timecode-left",
        ),
        ("press-box-mic-out-xlr", "xlr-f-to-xlr-m-3m", "mixer-mic-in-p48-xlr"),
        ("mic-dynamic-xlr", "xlr-f-to-two-xlr-m-transformer", "mixer-mic-in-p48-xlr"),
        ("contact-microphone-635", None, "active-di-in-635"),
        ("midi-out-35-type-a", "phone-35-trs-to-35-trs-midi-crossed", "midi-in-35-type-b"),
        (
            "camera-battery-out-xlr-4",
            "xlr-4-m-to-dc-barrel-55-21-centre-positive",
            "receiver-dc-in-barrel-wide",
        ),
    ],
)
def test_hand_over_this(catalogue, start, lead, target):  # common practice
    assert verdict(catalogue, start, lead, target).verdict == "safe"


def test_a_feed_of_unknown_level_is_never_safe(catalogue):
    # common practice: ask first. Whatever takes it, nobody knows how loud it is
    for target in ("mixer-line-in-xlr", "powered-loudspeaker-in-xlr", "camera-line-in-xlr"):
        found = verdict(catalogue, "press-feed-out-xlr", "xlr-f-to-xlr-m-3m", target)
        assert found.verdict == "lossy" and "level-not-known" in ids(found), target


def test_a_loose_barrel_is_no_connection(catalogue):
    # from memory: the 2.5 mm bore over a 2.1 mm pin
    assert (
        verdict(catalogue, "mains-adapter-12-volt-barrel-25", None, "receiver-dc-in-barrel").verdict
        == "does not fit"
    )


def test_midi_of_the_other_order_is_silent(catalogue):
    # trs-midi-page: type B swaps tip and ring; the coupler's lamp then lies the wrong way round
    found = verdict(catalogue, "midi-out-35-type-a", "phone-35-trs-to-35-trs", "midi-in-35-type-b")
    assert found.verdict == "no signal"
    assert (
        verdict(catalogue, "midi-out-35-type-a", "phone-35-trs-to-35-trs", "midi-in-35-type-a").verdict
        == "safe"
    )


def test_a_driven_output_into_a_camera_keeps_its_cold_leg_free(catalogue):
    """Common practice: leave contact 3 open, or isolate; never ground it."""

    def through(lead):
        return ids(verdict(catalogue, "mixer-line-out-xlr", lead, "camera-mic-in-35"))

    assert "output-strained" in through("xlr-f-to-35-trs-attenuator")
    for lead in ("xlr-f-to-35-trs-attenuator-3-open", "xlr-f-to-35-trs-attenuator-transformer"):
        assert not through(lead) & {
            "output-strained",
            "loaded-down",
            "too-hot",
            "too-quiet",
            "one-side-only",
            "bias-through-coil",
        }, lead
    # balanced-interface-note: they keep the hum out
    assert "unbalanced" not in through("xlr-f-to-35-trs-attenuator-transformer")
    # a winding has two ends: with the cold one left open nothing comes out
    assert (
        verdict(
            catalogue, "line-out-transformer-xlr", "xlr-f-to-35-trs-attenuator-3-open", "camera-mic-in-35"
        ).verdict
        == "no signal"
    )


def test_a_balanced_lead_into_a_stereo_input_cancels_in_mono(catalogue):
    """Common practice, and the first thing said of such a lead: left is the sound, right
    the same upside down."""
    for start in ("mic-dynamic-xlr", "wireless-receiver-out-xlr"):
        found = verdict(catalogue, start, "xlr-f-to-35-trs-balanced", "camera-mic-in-35")
        assert found.verdict == "lossy" and found.findings[0].id == "sides-opposed"
        assert found.findings[0].says.endswith("upside down to each other: summed to mono it vanishes.")
        for lead in ("xlr-f-to-35-trs-both-3-to-1", "xlr-f-to-35-trs-both-capacitor"):
            assert "sides-opposed" not in ids(verdict(catalogue, start, lead, "camera-mic-in-35"))


def test_line_into_a_phone_looks_like_a_headset_microphone(catalogue):
    # phone-headset-spec: at least 1 kohm from the microphone segment to ground, in direct current;
    # buttons end at 470 ohm
    for lead in ("xlr-f-to-35-trrs-line-lrgm", "phone-35-trs-to-35-trrs-line-lrgm"):
        at_mic = [part for part in catalogue.leads[lead].network.parts if "b.sleeve" in (part.a, part.b)]
        loads = [part for part in at_mic if part.kind == "resistor"]
        assert [{part.a, part.b} for part in loads] == [{"b.sleeve", "b.ring2"}], lead
        assert loads[0].value.low >= 1000, lead
        # nothing else takes direct current
        assert {part.kind for part in at_mic} == {"resistor", "capacitor"}, lead


@pytest.mark.parametrize(("lead", "loss"), [("10", 10), ("20", 20), ("25", 25), ("40", 40)])
def test_a_pad_is_what_its_name_says(catalogue, lead, loss):
    # pad-thread-68618: U-pad, two legs and a shunt; 20 log (shunt / (shunt + both legs))
    parts = {
        part.id: part.value.nominal
        for part in catalogue.leads[f"xlr-f-to-xlr-m-pad-{lead}-db"].network.parts
        if part.kind == "resistor"
    }
    assert -20 * log10(
        parts["across"] / (parts["across"] + parts["leg-hot"] + parts["leg-cold"])
    ) == pytest.approx(loss, abs=0.5)
