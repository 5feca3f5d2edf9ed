"""The teaching pictures: the plug slides by the engine's own table, and what is drawn is told in words."""

from itertools import pairwise

import pytest

from generator.drawing import draw_scene, figures
from generator.drawing.figures.sliding import Step, steps, uneven
from generator.engine.mate import fits, mate

from . import seen

LEGS = ("tip", "ring"), "sleeve"
PAIR = figures.Pair("As it is meant.", "48 V", "48 V", "0 mA")
JOINED = figures.Pair("Contact 3 joined to 1.", "1.4 V", "0 V", "6.8 mA", joined=True)


def phones(catalogue):
    """Every plug with every jack it goes into."""
    family = [one for one in catalogue.connectors.values() if one.shape == "concentric"]
    return [
        (plug, jack)
        for plug in family
        for jack in family
        if {"plug"} <= set(plug.halves) and "jack" in jack.halves and fits((plug, "plug"), (jack, "jack"))
    ]


def test_every_step_is_a_state_the_engine_judges_and_the_last_is_home(catalogue):
    pairs = phones(catalogue)
    assert len(pairs) > 10
    for plug, jack in pairs:
        mating = mate((jack, "jack"), (plug, "plug"))
        way = steps(plug.halves["plug"], jack.halves["jack"])
        for step in way:
            assert not step.state or step.state in mating.travel or step.state in mating.home, (
                plug.id,
                jack.id,
                step,
            )
        assert way[-1].state in mating.home and way[-1].out == 0, (plug.id, jack.id)


def test_steps_follow_one_another_without_gap_and_differ(catalogue):
    for plug, jack in phones(catalogue):
        way = steps(plug.halves["plug"], jack.halves["jack"])
        for one, next_one in pairwise(way):
            assert one.near == next_one.far and one.touches != next_one.touches


def test_a_three_band_plug_lies_with_one_leg_live_and_the_other_on_the_screen(catalogue):
    """Published (phantom-how-much in sources.yaml): a jack plugged under phantom pulses the coil."""
    plug = catalogue.connectors["phone-635-trs"]
    way = steps(plug.halves["plug"], plug.halves["jack"])
    bad = [step for step in way if uneven(step, *LEGS)]
    assert next(sorted(step.state) for step in bad) == [("ring", "tip"), ("sleeve", "ring")]
    assert not uneven(way[0], *LEGS) and not uneven(way[-1], *LEGS)


@pytest.mark.parametrize(
    ("touches", "says"),
    [
        (
            {"tip": ("tip",), "ring": (), "sleeve": ("ring",)},
            "With phantom on, it is on the tip alone: it flows to the ring, through the microphone.",
        ),
        ({"tip": ("tip",), "ring": ("ring",), "sleeve": ("sleeve",)}, ""),
        (
            {"tip": (), "ring": ("tip",), "sleeve": ("tip", "ring")},
            "",
        ),  # the tip is on the screen as well: nothing pushes it
    ],
)
def test_phantom_pushes_through_the_microphone_only_where_one_leg_is_live_and_the_other_grounded(
    touches, says
):
    assert uneven(Step(9, 8, touches), *LEGS) == says


def test_frames_say_in_words_what_every_spring_touches(catalogue):
    plug = catalogue.connectors["phone-635-trs"]
    way = steps(plug.halves["plug"], plug.halves["jack"])
    for number, (scene, step) in enumerate(zip(figures.sliding(plug, plug, *LEGS), way, strict=True), 1):
        source = draw_scene(scene, prefix=f"step-{number}")
        for spring, on in step.touches.items():
            assert f"{spring} spring: {' and '.join(on) or 'touches nothing'}" in seen.described(source)
        assert f"Step {number} of {len(way)}" in seen.titles(source)[0]


def test_the_plug_is_drawn_as_far_out_as_it_is(catalogue):
    """The tip's left edge moves by the step's own millimetres, at one scale for all frames."""
    plug = catalogue.connectors["phone-635-trs"]
    way = steps(plug.halves["plug"], plug.halves["jack"])
    lefts = [
        min(box[0] for box in seen.outlines(draw_scene(scene, prefix="s"), title="band tip"))
        for scene in figures.sliding(plug, plug, *LEGS)
    ]
    scales = [(left - lefts[-1]) / step.out for left, step in zip(lefts, way) if step.out]
    assert max(scales) - min(scales) < 0.1 and min(scales) > 4


def test_springs_lie_where_the_frame_says(catalogue):
    """Each spring's foot is over the band the frame names, by the boxes of the picture alone."""
    plug = catalogue.connectors["phone-35-trs"]
    way = steps(plug.halves["plug"], plug.halves["jack"])
    for scene, step in zip(figures.sliding(plug, plug, *LEGS), way):
        source = draw_scene(scene, prefix="s")
        for title in seen.titles(source):
            if " spring: " not in title:
                continue
            spring = title.split(" spring: ")[0]
            ranges = [box for box in seen.outlines(source, title=title) if box[3] - box[1] == 5]
            middle = sum(ranges[0][::2]) / 2
            for contact in step.touches[spring]:
                bands = seen.outlines(source, title=f"band {contact}")
                assert min(b[0] for b in bands) - 5 <= middle <= max(b[2] for b in bands) + 5, (
                    step,
                    spring,
                    contact,
                )


def test_what_does_not_go_in_is_refused_in_a_sentence(catalogue):
    with pytest.raises(ValueError) as caught:
        figures.sliding(catalogue.connectors["phone-635-trs"], catalogue.connectors["phone-35-trs"], *LEGS)
    assert str(caught.value) == "a plug of 'phone-635-trs' does not go into a jack of 'phone-35-trs'"


def test_numbers_stand_in_the_picture_and_in_its_words():
    for scene, numbers in (
        (figures.phantom(PAIR, JOINED), ("48 V", "0 mA", "1.4 V", "6.8 mA")),
        (figures.cancelling("0.95 V", "0.94 V", "0.01 V", "1 V from each"), ("0.95 V", "0.94 V", "0.01 V")),
        (figures.balance("21 dB", "96 dB", "5 m"), ("21 dB", "96 dB", "5 m")),
        (figures.fields("twist takes 56 dB.", "keep 3 m away."), ("56 dB", "3 m")),
    ):
        source = draw_scene(scene, prefix="p")
        drawn = " ".join(words.words for words in seen.all_words(source)).replace("\u00a0", " ")
        for number in numbers:
            assert number in drawn and number in seen.described(source).replace("\u00a0", " "), number


def test_a_joined_leg_is_marked_and_a_sound_pair_is_not():
    assert seen.classes(draw_scene(figures.phantom(PAIR, PAIR), prefix="p")).get("rf-marked") is None
    assert seen.classes(draw_scene(figures.phantom(PAIR, JOINED), prefix="p"))["rf-marked"] == 1
