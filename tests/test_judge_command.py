"""`judge` and `route`, as other programs rely on them: the form of an answer, the orders it tells, what it
offers, and what it refuses."""

import json

import pytest
from commands import CHAIN, INPUT, LEAD, MICROPHONE, check_shape, small_catalogue

from generator.catalogue import load
from generator.engine import routes
from generator.engine.missing import missing

small = pytest.fixture(small_catalogue)


@pytest.mark.parametrize(
    "words, verdict",
    [
        (CHAIN, "safe"),
        ((MICROPHONE, "--through", "xlr-f-to-xlr-m-crossed", "mixer-mic-in-xlr"), "lossy"),
        (("mic-condenser-p48-xlr", "--through", LEAD, "mixer-mic-in-xlr"), "no signal"),
        (("loudspeaker-amp-out-635", "--through", "rca-to-635-ts", "amplifier-line-in-rca"), "dangerous"),
        (("camera-battery-out-xlr-4", "mixer-line-in-635"), "does not fit"),
    ],
)
def test_any_verdict_is_an_answer(ask, words, verdict):
    status, printed, complained = ask("judge", *words, "--json")
    answer = json.loads(printed)
    assert (status, complained) == (0, "")
    assert answer["verdict"] == verdict
    assert answer["fits"] is (verdict != "does not fit")
    assert answer["missing"] is None or isinstance(answer["missing"], str)
    check_shape(answer, "missing", "instead", "own")


AMPLIFIER, LOUDSPEAKER = "loudspeaker-amp-out-635", "loudspeaker-635"
ORDER = "Plug it with amplifier off, wait a moment, then amplifier on: then it is safe."


def test_a_danger_while_plugging_says_when_and_in_which_order(ask):
    """common practice: a phone plug shorts the amplifier on its way in, so loudspeaker leads are plugged
    with the amplifier off."""
    _, printed, _ = ask("judge", AMPLIFIER, "--through", "phone-635-ts-to-635-ts-loudspeaker", LOUDSPEAKER)
    head, when, order, *_ = printed.splitlines()
    assert head.startswith("DANGEROUS  ")
    assert (when, order) == (
        "Dangerous while plugging with amplifier on; no signal with amplifier off.",
        ORDER,
    )


def test_what_a_switch_makes_well_is_offered_with_its_order(ask):
    """A lead too thin for the current is no way; the one that would be safe but for the moment of plugging
    is, and no other lead is asked for."""
    _, printed, _ = ask("judge", AMPLIFIER, "--through", "phone-635-ts-to-635-ts-3m", LOUDSPEAKER)
    last = printed.splitlines()[-1]
    assert last == f"  instead, dangerous while plugging only: phone-635-ts-to-635-ts-loudspeaker. {ORDER}"


def test_the_plugs_to_take_are_named(ask):
    """common practice: of an insert lead's three plugs, the insert plug goes into the console and the send
    plug into the processor's input."""
    _, printed, _ = ask(
        "judge",
        "console-insert-635-tip-send",
        "--through",
        "phone-635-trs-to-two-635-ts-insert",
        "mixer-line-in-635-ts",
    )
    assert (
        printed.splitlines()[1]
        == """Use the plugs marked "insert plug to the console" and "send plug to the processor's input"."""
    )


def test_settings_name_their_switches(ask):
    answer = json.loads(ask("judge", *CHAIN, "--json")[1])
    assert answer["settings"] == [
        {"supplies": {"phantom": "on"}, "verdict": "safe"},
        {"supplies": {"phantom": "off"}, "verdict": "safe"},
    ]
    assert answer["from"] == MICROPHONE and answer["through"] == [LEAD] and answer["into"] == INPUT


def test_remedies_are_offered_where_it_is_not_safe(ask):
    answer = json.loads(
        ask("judge", MICROPHONE, "--through", "xlr-f-to-xlr-m-crossed", "mixer-mic-in-xlr", "--json")[1]
    )
    assert answer["remedies"]
    assert answer["remedies"][0]["verdict"] == "safe"
    assert answer["through"] not in [remedy["through"] for remedy in answer["remedies"]]


def test_what_does_not_fit_says_what_would(ask):
    status, printed, _ = ask("judge", "camera-battery-out-xlr-4", "mixer-line-in-635")
    assert status == 0
    assert printed.splitlines()[0] == "DOES NOT FIT  camera-battery-out-xlr-4 -> mixer-line-in-635"
    assert (
        "ends in XLR, four contacts, female; Mixer line input, 6.35 mm balanced does not go in there."
        in printed
    )
    assert "It takes the male of: XLR, four contacts" in printed


@pytest.mark.parametrize(
    "words, complaint",
    [
        (
            ("judge", "mic-dynmic-xlr", INPUT),
            "'mic-dynmic-xlr' is not in the catalogue. Nearest: mic-dynamic-xlr, mic-dynamic-din-3,",
        ),
        (
            ("judge", MICROPHONE, "--through", "xlr-f-to-xlr-m-3", INPUT),
            "'xlr-f-to-xlr-m-3' is not in the catalogue. Nearest: xlr-f-to-xlr-m-3m,",
        ),
        (
            ("route", MICROPHONE, "mixer-mic-in-p84-xlr"),
            "'mixer-mic-in-p84-xlr' is not in the catalogue. Nearest: mixer-mic-in-p48-xlr,",
        ),
        (("draw", "phone-35-tsr"), "'phone-35-tsr' is not in the catalogue. Nearest: phone-35-ts, "),
        (("judge", LEAD, INPUT), "'xlr-f-to-xlr-m-3m' is not in the catalogue."),
        (("draw", "%%%%"), "'%%%%' is not in the catalogue.\n"),
    ],
)
def test_an_unknown_id_names_the_nearest(ask, words, complaint):
    status, printed, complained = ask(*words)
    assert (status, printed) == (2, "")
    assert complained.startswith(complaint)


def test_two_that_send_nothing(ask):
    """Nothing is heard, and what the supply of one does to the other is told all the same."""
    status, out, said = ask(
        "judge", "--through", "xlr-m-to-xlr-m", "mixer-line-in-xlr", "mixer-mic-in-p48-xlr"
    )
    assert (status, said) == (0, "") and out.splitlines()[0].split("  ")[0] in ("NO SIGNAL", "DANGEROUS")
    assert (
        "Neither side sends what the other listens to: not the mixer line input, and not the mixer "
        "microphone input."
    ) in out
    assert "wait-for-capacitors" in out


@pytest.mark.parametrize(
    "pair", [("mixer-line-in-xlr", "mixer-mic-in-p48-xlr"), ("player-line-out-rca", "word-clock-in-bnc")]
)
def test_no_chain_is_looked_for_where_neither_sends_what_the_other_hears(ask, pair, monkeypatch):
    for module in ("route", "missing"):
        monkeypatch.setattr(
            f"generator.engine.{module}.chains", lambda *asked: pytest.fail("a chain was looked for")
        )
    status, out, said = ask("ways", *pair)
    assert (
        (status, said) == (0, "")
        and "\nNo lead can help: neither the " in out
        and " sends what the other listens to.\n" in out
    )


def test_the_whole_complaint(ask, small):
    assert ask("judge", "plyer-out", "desk-in", "--pinouts", small) == (
        2,
        "",
        "'plyer-out' is not in the catalogue. Nearest: player-out.\n",
    )
    assert ask("judge", "player-out", "desk-in", "--through", "x", "--pinouts", small) == (
        2,
        "",
        "'x' is not in the catalogue.\n",
    )


def test_route(ask, catalogue):
    start, target = MICROPHONE, INPUT
    expected = routes(catalogue, start, target)
    status, printed, _ = ask("route", start, target)
    assert status == 0
    lines = [f"{v.verdict}: {' -> '.join(v.through) or 'no lead'}" for v in expected]
    assert not any(v.offer for v in expected)
    assert printed.splitlines() == (
        lines if expected[0].verdict == "safe" else [*lines, missing(catalogue, start, target)]
    )
    answers = json.loads(ask("route", start, target, "--json")[1])
    assert [answer["through"] for answer in answers] == [list(v.through) for v in expected]
    for answer in answers:
        check_shape(answer)


def test_route_where_nothing_works(ask, small):
    (small / "leads" / "straight.yaml").unlink()
    (small / "leads" / "crossed.yaml").unlink()
    (small / "leads" / "block.yaml").unlink()
    (small / "retired.yaml").unlink()
    assert ask("route", "player-out", "desk-in", "--pinouts", small) == (
        0,
        "Nothing in the catalogue gets player-out into desk-in without harm or silence.\n"
        f"{missing(load(small), 'player-out', 'desk-in')}\n",
        "",
    )
    assert ask("route", "player-out", "desk-in", "--json", "--pinouts", small) == (0, "[]\n", "")
