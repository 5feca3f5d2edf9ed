"""The check's own logic, run by node: the address, what fits, and what stands in for an answer that
cannot be worked out."""

import json
import shutil
import subprocess
from pathlib import Path

import pytest

from generator.site.data import table

SCRIPTS = Path(__file__).parents[2] / "site_src/assets/js"
LOADED = (
    "ui/dom.js",
    "ui/words.js",
    "ui/catalogue.js",
    "ui/table.js",
    "ui/fits.js",
    "check/address.js",
    "ui/editions.js",
    "ui/own.js",
    "ui/slices.js",
    "judging/kinds.js",
    "judging/ask.js",
    "check/numbers.js",
    "check/judged.js",
    "check/settings.js",
)

PORT = {"supplies": [], "also_called": [], "cautions": [], "device": "device"}
DATA = {
    "ports": {
        "mic": {
            **PORT,
            "id": "mic",
            "name": "Mic",
            "connector": "xlr",
            "half": "male",
            "sources": [{}],
            "listeners": [],
        },
        "desk": {
            **PORT,
            "id": "desk",
            "name": "Desk",
            "connector": "xlr",
            "half": "female",
            "sources": [],
            "listeners": [{}],
            "supplies": [{"id": "phantom", "name": "phantom 48 V"}],
        },
        "player": {
            **PORT,
            "id": "player",
            "name": "Player",
            "connector": "rca",
            "half": "jack",
            "sources": [{}],
            "listeners": [],
        },
    },
    "leads": {
        "cable": {
            "id": "cable",
            "name": "Cable",
            "form": "cable",
            "also_called": [],
            "cautions": [],
            "ends": {"a": {"connector": "xlr", "half": "female"}, "b": {"connector": "xlr", "half": "male"}},
        },
        "odd": {
            "id": "odd",
            "name": "Odd",
            "form": "cable",
            "also_called": [],
            "cautions": [],
            "ends": {"a": {"connector": "rca", "half": "plug"}, "b": {"connector": "rca", "half": "plug"}},
        },
    },
    "connectors": {
        "xlr": {"name": "XLR, three contacts", "also_called": ["three-pin plug"]},
        "rca": {"name": "RCA", "also_called": []},
    },
    "retired": {"old-mic": ["mic"], "split": ["mic", "player"]},
}
MATED = {
    "xlr/male": {"xlr/female": [[["1", "1"]]]},
    "xlr/female": {"xlr/male": [[["1", "1"]]]},
    "rca/plug": {"rca/jack": [[["centre", "centre"]]]},
    "rca/jack": {"rca/plug": [[["centre", "centre"]]]},
}
PLAIN = {"offered": "", "offer": ""}
ORDER = "Plug it with amplifier off, wait a moment, then amplifier on: then it is safe."
TABLE = table(
    [
        {"from": "mic", "through": ["cable"], "into": "desk", "verdict": "safe", "findings": [], **PLAIN},
        {"from": "mic", "through": [], "into": "desk", "verdict": "lossy", "findings": ["dull"], **PLAIN},
        {
            "from": "player",
            "through": ["odd"],
            "into": "desk",
            "verdict": "dangerous",
            "findings": ["over-current"],
            "offered": "safe",
            "offer": ORDER,
        },
        {"from": "player", "through": [], "into": "desk", "verdict": "lossy", "findings": ["dull"], **PLAIN},
        {
            "from": "player",
            "through": ["odd"],
            "into": "mic",
            "verdict": "dangerous",
            "findings": ["over-current"],
            "offered": "safe",
            "offer": ORDER,
        },
    ]
)


def run(expression: str, before: str = ""):
    """The value of a JavaScript expression with the site's scripts loaded."""
    source = "".join((SCRIPTS / name).read_text() for name in LOADED).replace('"use strict";', "")
    program = (
        "globalThis.window = globalThis; globalThis.Ringfence = {}; console.error = () => {};\n"
        f"{source}\n"
    )
    program += (
        "Object.assign(Ringfence, "
        f"{json.dumps({'data': DATA, 'mated': MATED, 'table': TABLE, 'rulebook': []})});\n"
    )
    program += (
        "const {ui, check} = Ringfence;\n"
        f"{before}\n"
        f"(async () => console.log(JSON.stringify(await ({expression}))))();"
    )
    if shutil.which("node") is None:
        pytest.skip("node not installed")
    done = subprocess.run(["node", "-e", program], capture_output=True, text=True, timeout=300)
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


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


QUESTION = "{from: 'mic', through: ['cable'], into: 'desk'}"


def test_without_an_engine_there_is_no_verdict():
    assert run(f"check.judge({QUESTION})") == {"failed": "The calculation did not load."}


def test_an_engine_that_breaks_down_gives_no_verdict():
    assert run(f"check.judge({QUESTION})", "Ringfence.judge = () => { throw new Error('singular'); };") == {
        "failed": "The calculation broke down."
    }


STRAIGHT = "{from: 'mic', through: [], into: 'desk'}"  # the table says lossy


@pytest.mark.parametrize("verdict", ["lossy", "no signal", "dangerous"])
def test_a_verdict_as_careful_as_the_table_is_shown(verdict):
    assert (
        run(
            f"(await check.judge({STRAIGHT})).judged.verdict",
            f"Ringfence.judge = () => ({{verdict: '{verdict}'}});",
        )
        == verdict
    )


def test_a_verdict_milder_than_the_table_is_never_shown():
    milder = "Ringfence.judge = () => ({verdict: 'safe'});"
    assert run(f"check.judge({STRAIGHT})", milder) == {
        "failed": "The calculation in this browser came out milder than it should."
    }
    # another catalogue, such as one with a lead of the bench
    assert (
        run(f"(await check.judge({STRAIGHT}, {{data: {{...Ringfence.data}}}})).judged.verdict", milder)
        == "safe"
    )


def test_an_order_the_table_does_not_know_is_never_shown():
    """Nor is an order that promises more: what the table calls plainly dangerous stays so."""
    offering = lambda offered: (
        f"Ringfence.judge = () => ({{verdict: 'dangerous', offered: '{offered}', offer: 'Do.'}});"
    )
    assert "failed" in run(
        "check.judge({from: 'player', through: [], into: 'desk'})",
        "Ringfence.judge = () => ({verdict: 'dangerous', offered: 'safe', offer: 'Do.'});",
    )
    assert (
        run(
            "(await check.judge({from: 'player', through: ['odd'], into: 'desk'})).judged.offered",
            offering("safe"),
        )
        == "safe"
    )
    assert (
        run(
            "(await check.judge({from: 'player', through: ['odd'], into: 'desk'})).judged.verdict",
            "Ringfence.judge = () => ({verdict: 'dangerous', offered: '', offer: ''});",
        )
        == "dangerous"
    )


def test_a_word_that_is_no_verdict_is_not_shown_as_one():
    assert run(f"check.judge({QUESTION})", "Ringfence.judge = () => ({verdict: 'fine'});") == {
        "failed": "The calculation gave no verdict."
    }


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
        written = run(
            "check.write({from: 'mic', through: [], into: 'desk', set: "
            f"check.asSet({json.dumps(setting['supplies'])})}})"
        )
        assert (
            written
            == f"#from=mic&through=&into=desk&set=phantom:{setting['supplies']['phantom']},bias-at-the-outlet:{setting['supplies']['bias at the outlet']}"
        )
        assert position(written.split("set=")[1]) == number


def test_a_switch_is_named_as_on_the_device_that_has_it():
    assert run(f"check.switches({judged(settings=TWO)}, {QUESTION})") == [
        {"key": "phantom", "name": "phantom 48 V", "owner": "Desk", "states": ["on", "off"]},
        {"key": "bias at the outlet", "name": "bias at the outlet", "owner": "", "states": ["on", "off"]},
    ]
    assert run(f"check.switches({judged()}, {QUESTION})") == []


def test_the_table_gives_rows_best_first():
    assert run("ui.rows('mic', 'desk').map((row) => [row.through, row.verdict, row.findings])") == [
        [["cable"], "safe", []],
        [[], "lossy", ["dull"]],
    ]
    assert run("ui.row('mic', [], 'desk').verdict") == "lossy"
    assert run("ui.row('mic', ['cable', 'cable'], 'desk') || null") is None


def test_the_table_tells_what_a_switch_makes_well_and_in_which_order():
    assert run(
        "ui.rows('player', 'desk').map((row) => [row.verdict, row.offered, row.offer, ui.worth(row), "
        "ui.works(row)])"
    ) == [["dangerous", "safe", ORDER, 0.5, True], ["lossy", "", "", 1, True]]
    assert run(
        "[ui.worth({verdict: 'dangerous', offered: 'lossy'}), ui.works({verdict: 'no signal', offered: ''})]"
    ) == [1.5, False]


def test_what_is_dangerous_is_marked_so_whatever_a_switch_makes_of_it():
    assert run(
        "[ui.pair('player', 'desk').best, ui.pair('player', 'desk').danger, ui.pair('player', "
        "'mic').best, ui.pair('mic', 'desk').best]"
    ) == ["lossy", True, "dangerous", "safe"]
    assert sorted(run("[...ui.joined().bests]")) == ["dangerous", "lossy", "safe"]


@pytest.mark.parametrize(
    "value, unit, said",
    [
        (44.6, "V", "44.6 V"),
        (0.00705, "A", "7.05 mA"),
        (-240, "dB", "below −120 dB"),
        (-12.4, "dB", "−12.4 dB"),
        (0.673, "dB", "0.7 dB"),
        (12, "dB", "12 dB"),
        (None, "V", "not known"),
        (0, "V", "0 V"),
        (6810, "ohm", "6.81 kΩ"),
        (0.9996, "V", "1 V"),
    ],
)
def test_numbers(value, unit, said):
    assert run(f"ui.amount({json.dumps(value)}, {json.dumps(unit)})") == said
