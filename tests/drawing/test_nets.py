"""Nets in a schematic are called what a person with a meter calls them."""

import pytest

from generator.drawing import draw_schematic
from generator.drawing.nets import in_words, spoken
from generator.engine.explain import explain
from generator.engine.working import Net

from . import seen

SAID = [
    ("chassis", ("chassis of Mixer line input", "Mixer line input 1 (screen)"), "ground"),
    ("chassis = cold", ("Microphone 3 (cold)", "XLR female to the source 3"), "ground and cold, contact 3"),
    ("hot", ("Microphone 2 (hot)", "Mixer microphone input 2 (hot)"), "hot, contact 2"),
    # a number would be wrong at one end
    ("hot", ("Microphone 2 (hot)", "Mixer microphone input tip (hot)"), "hot"),
    ("left", ("Player line output tip (left)",), "left, tip"),
    ("right = cold", ("Player ring (right)", "Mixer line input 3 (cold)"), "right, ring and cold, contact 3"),
    ("signal", ("Loudspeaker 1+ and 2+ (signal)",), "signal, contacts 1+ and 2+"),
    ("hot, outlet", ("Microphone 2 (hot)",), "hot, contact 2, outlet"),
    ("rail", ("rail inside Mixer line input",), "rail"),
]


@pytest.mark.parametrize(("name", "nodes", "words"), SAID)
def test_a_net_is_told_in_words(name, nodes, words):
    assert spoken(Net(name, nodes, 0.0, False)) == words


def test_no_picture_speaks_of_a_chassis_net_and_all_names_agree(catalogue):
    working = in_words(
        explain(catalogue, "mixer-line-out-xlr", ("xlr-f-to-xlr-m-3m",), "mixer-mic-in-p48-xlr")
    )
    names = {net.name for net in working.nets}
    assert {"ground", "hot, contact 2"} <= names
    assert {end for part in working.parts for end in (part.a, part.b)} <= names
    assert working.equation.net in names and working.equation.net in working.equation.says


def test_the_words_stand_in_the_drawing(catalogue):
    source = draw_schematic(
        explain(catalogue, "mixer-line-out-xlr", ("xlr-f-to-xlr-m-3m",), "mixer-mic-in-p48-xlr")
    )
    drawn = [words.words.replace("\u00a0", " ") for words in seen.all_words(source)]
    assert {"hot,", "contact 2", "ground"} <= set(drawn) and "chassis" not in drawn
    assert "hot, contact 2 46.6 V" in seen.described(source)


def test_words_two_nets_would_share_are_left(catalogue):
    working = explain(catalogue, "mixer-line-out-xlr", ("xlr-f-to-xlr-m-3m",), "mixer-mic-in-p48-xlr")
    names = [net.name for net in in_words(working).nets]
    assert len(set(names)) == len(names)
