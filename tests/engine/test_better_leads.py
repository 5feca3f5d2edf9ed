"""What is told where nothing offered will do: the lead that is missing, and what a loudspeaker gets."""

from dataclasses import replace

import pytest

from generator.engine.judge import judge
from generator.engine.missing import missing
from generator.engine.route import remedies, routes

# Loudspeaker leads, common practice: they are plugged with the amplifier off, for a phone plug shorts the
# output on its way in; nothing else goes there.
AMPLIFIER, LOUDSPEAKER = "loudspeaker-amp-out-635", "loudspeaker-635"
LOUDSPEAKER_LEAD = "phone-635-ts-to-635-ts-loudspeaker"


def test_a_loudspeaker_gets_a_loudspeaker_lead_with_the_order_told(catalogue):
    [first, *others] = routes(catalogue, AMPLIFIER, LOUDSPEAKER, most=1)
    assert (first.through, first.verdict, first.offered) == ((LOUDSPEAKER_LEAD,), "dangerous", "safe")
    assert first.offer == "Plug it with amplifier off, wait a moment, then amplifier on: then it is safe."
    assert others == []


@pytest.mark.parametrize(
    "start, target",
    [
        (AMPLIFIER, LOUDSPEAKER),
        ("loudspeaker-amp-out-four-pole", "loudspeaker-four-pole"),
        ("loudspeaker-amp-out-binding-post", "loudspeaker-binding-post"),
    ],
)
def test_a_loudspeaker_never_gets_a_summing_box(catalogue, start, target):
    """common practice: resistors made for line level burn behind an amplifier. Not even where there is no
    loudspeaker lead at hand."""
    resistors = {
        name
        for name, lead in catalogue.leads.items()
        if {part.id for part in lead.network.parts if part.kind == "resistor"} & set(lead.parts)
    }
    assert {"phone-35-trs-to-xlr-m-sum", "two-xlr-f-to-xlr-m-resistors"} <= resistors
    without = replace(
        catalogue, leads={name: lead for name, lead in catalogue.leads.items() if "loudspeaker" not in name}
    )
    for leads, some in ((catalogue, True), (without, False)):
        found = routes(leads, start, target, most=2)
        assert bool(found) or not some
        assert not any(resistors & set(offer.through) for offer in found)


def test_a_lead_too_thin_for_the_loudspeaker_names_the_one_to_use(catalogue):
    asked = judge(catalogue, AMPLIFIER, ("phone-635-ts-to-635-ts-3m",), LOUDSPEAKER)
    assert (asked.verdict, asked.offer) == ("dangerous", "")
    assert [found.through for found in remedies(catalogue, asked)][:1] == [(LOUDSPEAKER_LEAD,)]


def test_where_nothing_goes_together_the_ends_are_named(catalogue):
    assert missing(replace(catalogue, leads={}), "mic-dynamic-xlr", "camera-mic-in-35") == (
        "Nothing in the catalogue goes between the two. What would: a lead from the female of XLR, three "
        "contacts, to the plug of 3.5 mm phone, three contacts (TRS), wired for both."
    )


def test_an_amplifier_output_needs_another_box(catalogue):
    said = missing(catalogue, "loudspeaker-amp-out-635", "mixer-line-in-635")
    assert "that is a direct box made for loudspeaker level" in said


def test_two_ends_that_both_only_send_cannot_be_helped(catalogue):
    assert missing(catalogue, "mic-dynamic-xlr", "mic-ribbon-xlr") == (
        "No lead can help: neither the dynamic microphone nor the ribbon microphone sends what the other "
        "listens to."
    )
