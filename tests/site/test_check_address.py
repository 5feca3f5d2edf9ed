"""The address of a check, run by node, and which ends and leads its lists offer."""

import json

import pytest
from small_check import run


@pytest.mark.parametrize(
    "address, read",
    [
        (
            "#from=mic&through=cable&into=desk",
            {"from": "mic", "through": ["cable"], "into": "desk", "set": [], "unknown": []},
        ),
        (
            "#from=mic&through=cable,cable&into=desk",
            {"from": "mic", "through": ["cable", "cable"], "into": "desk", "set": [], "unknown": []},
        ),
        (
            "#from=mic&through=&into=desk",
            {"from": "mic", "through": [], "into": "desk", "set": [], "unknown": []},
        ),
        ("#from=mic&into=desk", {"from": "mic", "through": None, "into": "desk", "set": [], "unknown": []}),
        ("#from=mic", {"from": "mic", "through": None, "into": None, "set": [], "unknown": []}),
        ("", {"from": None, "through": None, "into": None, "set": [], "unknown": []}),
        ("#from=old-mic", {"from": "mic", "through": None, "into": None, "set": [], "unknown": []}),
    ],
)
def test_reading_an_address(address, read):
    assert run(f"check.read({json.dumps(address)})") == read


@pytest.mark.parametrize(
    "text",
    [
        "<img src=x onerror=alert(1)>",
        "__proto__",
        "constructor",
        "hasOwnProperty",
        "split",
        "MIC",
        "mic ",
        "%",
    ],
)
def test_what_names_nothing_is_said_and_never_judged(text):
    read = run(f"check.read('#from=' + encodeURIComponent({json.dumps(text)}) + '&through=&into=desk')")
    assert read["from"] is None
    assert read["unknown"] == [text]


def test_an_unknown_lead_is_not_left_out_of_the_chain():
    """cable,nothing,cable must not be judged as cable,cable: it could be told safe."""
    read = run("check.read('#from=mic&through=cable,nothing,cable&into=desk')")
    assert read["through"] is None
    assert read["unknown"] == ["nothing"]


def test_a_long_hostile_text_is_cut():
    [shown] = run("check.read('#from=' + 'x'.repeat(5000)).unknown")
    assert shown == "x" * 80 + "…"


@pytest.mark.parametrize(
    "address",
    [
        "#from=mic&through=cable,cable&into=desk",
        "#from=mic&through=&into=desk",
        "#from=mic",
        "",
        "#from=mic&through=&into=desk&set=phantom:off,plug-in-power:on",
    ],
)
def test_writing_gives_back_what_was_read(address):
    assert run(f"check.write(check.read({json.dumps(address)}))") == address


def test_a_broken_percent_sign_does_not_break_the_page():
    assert run("check.read('#from=%E0%A4%A&through=%').unknown.length") == 2


def test_pickers_list_what_fits_and_say_why_the_rest_does_not():
    found = run(
        "{through: ui.fitting.through(ui.port('mic'), []), into: ui.fitting.into(ui.port('mic'), ['cable'])}"
    )
    assert [entry["id"] for entry in found["through"]["fit"]] == ["cable"]
    assert [(hidden["entry"]["id"], hidden["why"]) for hidden in found["through"]["not"]] == [
        ("odd", "Its ends are RCA plug to RCA plug; none goes with XLR male.")
    ]
    assert [entry["id"] for entry in found["into"]["fit"]] == ["desk"]
    assert {hidden["entry"]["id"]: hidden["why"] for hidden in found["into"]["not"]} == {
        "mic": "It only drives; nothing in it listens.",
        "player": "It only drives; nothing in it listens.",
    }


def test_after_a_lead_that_does_not_fit_nothing_fits():
    assert run("ui.fitting.into(ui.port('mic'), ['odd']).fit") == []


def test_search_finds_by_connector_words():
    assert run("ui.matches(ui.port('mic'), 'THREE-PIN PLUG mic')") is True
    assert run("ui.matches(ui.port('player'), 'three-pin plug')") is False
