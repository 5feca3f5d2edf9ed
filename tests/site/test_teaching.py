"""The numbers on the teaching pictures are worked out, and agree with those worked out by hand."""

from dataclasses import replace

import pytest

from generator.drawing import draw_scene
from generator.site import teaching
from generator.site.guides import GUIDES, Pictures
from tests.drawing import seen


def test_both_legs_of_a_sound_pair_stand_at_48_volts(catalogue):
    """IEC 61938: 48 V through two equal resistors; a coil between equal volts carries nothing."""
    hot, cold, amps = teaching.pair(catalogue, "mic-dynamic-xlr", teaching.ALIKE, "mixer-mic-in-p48-xlr")
    assert (round(hot, 3), round(cold, 3)) == (48, 48) and amps < 1e-9


def test_a_leg_joined_to_the_screen_sends_the_feed_through_the_coil(catalogue):
    """By hand: 48 V through 6.81 kohm and a coil of 200 ohm."""
    hot, cold, amps = teaching.pair(catalogue, "mic-dynamic-xlr", teaching.JOINED, "mixer-mic-in-p48-635")
    assert amps == pytest.approx(48 / (6810 + 200), rel=0.01)
    assert hot == pytest.approx(200 * amps, rel=0.01) and abs(cold) < 0.01


def test_a_current_nobody_reads_is_told(catalogue):
    with pytest.raises(ValueError) as caught:
        teaching.pair(catalogue, "mic-dynamic-xlr", teaching.ALIKE, "mixer-mic-in-p48-xlr", "ribbon")
    assert (
        str(caught.value) == "no settled direct current through a ribbon is read from "
        "'mic-dynamic-xlr' through 'xlr-f-to-xlr-m-3m' into 'mixer-mic-in-p48-xlr'"
    )


def test_what_both_sides_share_is_heard_as_nothing(catalogue):
    words = [
        one.words for one in seen.all_words(draw_scene(teaching.picture(catalogue, "stereo"), prefix="s"))
    ]
    assert words.count("0.95 V") == 2 and "0 V" in words  # 1 V behind 470 ohm into 10 kohm and 47 kohm each


def test_the_balanced_run_hums_less_than_the_unbalanced_one():
    one, two = (
        float(teaching.below(*devices).removesuffix(" dB").replace("−", "-"))
        for devices in (
            ("line-unbalanced", "line-input-unbalanced", "coax-thin"),
            ("line-balanced", "line-input", "mic-pair"),
        )
    )
    assert two > one + 20


@pytest.mark.parametrize(("value", "said"), [(0.9461, "0.95"), (48.0, "48"), (1e-5, "0"), (-1.36, "−1.4")])
def test_numbers_have_two_figures(value, said):
    assert teaching.two(value) == said


@pytest.mark.parametrize("name", teaching.PICTURES)
def test_a_picture_whose_records_are_not_there_is_not_made(name, catalogue):
    bare = replace(catalogue, ports={}, leads={}, connectors={}, assignments={})
    assert (Pictures(bare).idea(name) == "") == bool(teaching.PICTURES[name][1])
    assert Pictures(bare).sliding("phone-635-trs", "phone-635-trs", "phone-635-trs-balanced") == []


@pytest.mark.parametrize("name", teaching.PICTURES)
def test_every_picture_stands_in_a_guide(name, tree):
    assert any(f'id="guide-idea-{name}-title"'.encode() in tree[f"guides/{guide}.md"] for guide in GUIDES)


def test_the_strip_of_the_plug_can_be_reached_by_keyboard_and_is_named(tree):
    page = tree["guides/order.md"].decode()
    assert (
        '<div class="rf-figures rf-strip" tabindex="0" role="group" aria-label="A jack '
        'plug on its way in, step by step">' in page
    )
    assert page.count('id="guide-phone-635-trs-step-') == 2 * 9
