"""What an answer says of its switches and its order, run by node, and how an address sets them."""

import json

import pytest
from small_check import ORDER, QUESTION, run


def judged(**values):
    return json.dumps({"verdict": "dangerous", "settings": [], "findings": [], "conditions": "", **values})


def test_what_to_switch_is_told_only_when_it_helps():
    settings = [
        {"supplies": {"phantom": "on"}, "verdict": "dangerous"},
        {"supplies": {"phantom": "off"}, "verdict": "lossy"},
    ]
    assert (
        run(f"check.better({judged(settings=settings)}, {QUESTION})")
        == "Before plugging, set phantom 48 V off: then it is lossy."
    )
    assert run(f"check.better({judged(settings=settings[:1])}, {QUESTION})") == ""


def test_silence_is_not_sold_as_an_improvement():
    settings = [
        {"supplies": {"phantom": "on"}, "verdict": "dangerous"},
        {"supplies": {"phantom": "off"}, "verdict": "no signal"},
    ]
    assert (
        run(f"check.better({judged(settings=settings)}, {QUESTION})")
        == "With phantom 48 V off nothing is harmed, but it will not work."
    )


OFFERING = {
    "settings": [
        {"supplies": {"power": "on"}, "verdict": "dangerous"},
        {"supplies": {"power": "off"}, "verdict": "no signal"},
    ],
    "moments": [{"settled": "safe", "plugging": "dangerous"}, {"settled": "no signal", "plugging": "safe"}],
    "offered": "safe",
    "offer": ORDER,
}


def test_an_answer_with_an_order_does_not_advise_against_it():
    """With the amplifier off it does not work, which is no advice where the order says to
    switch it on afterwards."""
    assert run(f"check.better({judged(**OFFERING)}, {QUESTION})") == ""


def test_a_setting_tells_a_danger_that_lasts_only_while_plugging():
    assert run(f"[0, 1].map((number) => check.ends({judged(**OFFERING)}, number))") == [
        "dangerous while plugging, safe once plugged in",
        "no signal",
    ]
    lasting = {
        **OFFERING,
        "moments": [
            {"settled": "dangerous", "plugging": "safe"},
            {"settled": "no signal", "plugging": "safe"},
        ],
    }
    assert run(f"check.ends({judged(**lasting)}, 0)") == "dangerous"


@pytest.mark.parametrize(
    "plugs, words",
    [
        ([], ""),
        (["return plug"], "Use the plug marked “return plug”."),
        (["insert plug", "send plug"], "Use the plugs marked “insert plug” and “send plug”."),
    ],
)
def test_the_plugs_to_take_are_named(plugs, words):
    assert run(f"check.marked({judged(plugs=plugs)})") == words


TWO = [
    {"supplies": {"phantom": one, "bias at the outlet": two}, "verdict": verdict}
    for one, two, verdict in (
        ("on", "on", "lossy"),
        ("on", "off", "dangerous"),
        ("off", "on", "safe"),
        ("off", "off", "dangerous"),
    )
]


def position(asked, settings=TWO, verdict="dangerous"):
    """The setting an address with these switches means, as its number."""
    return run(
        f"check.position({judged(settings=settings, verdict=verdict)}, {QUESTION}, "
        f"check.read('#from=mic&into=desk&set=' + {json.dumps(asked)}).set)"
    )


def test_the_switches_begin_where_the_verdict_was_decided():
    """Never in a kinder position: who reads no further must not take the best case for the answer."""
    assert position("") == 1
    assert position("", verdict="safe") == 2, (
        "where a kinder setting decides the headline, as with a device that merely has no supply, it is shown"
    )
    assert position("", verdict="no signal") == 1, "where no setting ends like the whole, the worst is shown"


@pytest.mark.parametrize(
    "asked, number",
    [
        ("phantom:off,bias-at-the-outlet:on", 2),
        ("phantom:off", 3),
        ("bias-at-the-outlet:on", 0),
        ("phantom:on,bias-at-the-outlet:off", 1),
        ("phantom:off,phantom:on", 3),
    ],
)
def test_an_address_sets_the_switches(asked, number):
    assert position(asked) == number


@pytest.mark.parametrize(
    "asked",
    [
        "phantom:perhaps",
        "phantom",
        "phantom:",
        ":off",
        "hum:off",
        "__proto__:off",
        "constructor:on",
        "<b>:off",
        ",,,",
        "%00:%",
        "phantom:OFF",
        "x:y," * 40 + "phantom:off",
    ],
)
def test_what_names_no_switch_or_no_position_is_passed_over(asked):
    assert position(asked) == 1


def test_a_setting_is_written_as_it_is_read():
    for number, setting in enumerate(TWO):
        supplies = setting["supplies"]
        told = f"check.asSet({json.dumps(supplies)})"
        written = run(f"check.write({{from: 'mic', through: [], into: 'desk', set: {told}}})")
        phantom, bias = supplies["phantom"], supplies["bias at the outlet"]
        assert written == f"#from=mic&through=&into=desk&set=phantom:{phantom},bias-at-the-outlet:{bias}"
        assert position(written.split("set=")[1]) == number


def test_a_switch_is_named_as_on_the_device_that_has_it():
    assert run(f"check.switches({judged(settings=TWO)}, {QUESTION})") == [
        {"key": "phantom", "name": "phantom 48 V", "owner": "Desk", "states": ["on", "off"]},
        {"key": "bias at the outlet", "name": "bias at the outlet", "owner": "", "states": ["on", "off"]},
    ]
    assert run(f"check.switches({judged()}, {QUESTION})") == []
