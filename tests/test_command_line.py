"""The command line is what other programs rely on: every command, what it prints, and its exit status: 0 for
any verdict, 1 for a broken catalogue, 2 for an unknown id or bad use."""

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path
from xml.etree import ElementTree
from zipfile import ZipFile

import pytest
from catalogue import tiny

from generator.catalogue import load
from generator.catalogue.rules import RULES
from generator.engine import VERDICTS, routes
from generator.engine.missing import missing
from generator.engine.rulebook import SEVERITIES

MICROPHONE, LEAD, INPUT = "mic-dynamic-xlr", "xlr-f-to-xlr-m-3m", "mixer-mic-in-p48-xlr"
CHAIN = [MICROPHONE, "--through", LEAD, INPUT]


@pytest.fixture
def small(tmp_path, monkeypatch):
    """The tiny catalogue, with the reader standing above it, so that nothing is remembered elsewhere."""
    monkeypatch.chdir(tmp_path)
    return tiny.write(tmp_path)


@pytest.fixture
def broken(small):
    """The tiny catalogue with one fault."""
    path = small / "ports" / "desk-in.yaml"
    path.write_text(path.read_text().replace("half: female", "half: jack"))
    return small


FAULT = """\
pinouts/ports/desk-in.yaml:4:7: error[unknown-half]
    'jack' is not a half of 'round'; it has male, female.
    defined at pinouts/connectors/round.yaml:1
"""


def test_it_runs_as_a_module():
    done = subprocess.run(
        [sys.executable, "-m", "generator", "list", "connectors"],
        capture_output=True,
        text=True,
        cwd=Path(__file__).parents[1],
    )
    assert (done.returncode, done.stderr) == (0, "")
    assert "xlr-3 " in done.stdout


# -- lint
# -----------------------------------------------------------------------------------------------------------


def test_lint_says_nothing_of_a_good_catalogue(ask, small):
    assert ask("lint", "--pinouts", small) == (0, "", "")


def test_lint_prints_every_fault_with_place_and_rule(ask, broken):
    status, printed, complained = ask("lint", "--pinouts", broken)
    assert (status, complained) == (1, "")
    assert printed.splitlines()[0] == FAULT.splitlines()[0]
    assert "unknown-half" in RULES


def test_lint_prints_what_the_terminal_has_no_sign_for(small):
    (small / "leads/odd.yaml").write_text(
        "name: Odd lead\nsame_as: straight\nform: caf\u00e9 \u2603\n", "utf-8"
    )
    done = subprocess.run(
        [sys.executable, "-m", "generator", "lint", "--pinouts", small],
        capture_output=True,
        text=True,
        cwd=Path(__file__).parents[1],
        env=os.environ | {"PYTHONIOENCODING": "ascii"},
    )
    assert (done.returncode, done.stderr) == (1, "")
    assert done.stdout.splitlines()[1] == (
        r"    'caf\xe9 \u2603' is not a legal value of 'form'; write one of cable, adapter, converter, "
        r"splitter."
    )


def test_lint_of_no_catalogue(ask, small, tmp_path):
    assert ask("lint", "--pinouts", "nowhere") == (
        1,
        "nowhere:1:1: error[no-catalogue]\n    there is no catalogue here: not one YAML file.\n",
        "",
    )


@pytest.mark.parametrize(
    "words",
    [
        ("judge", "player-out", "desk-in"),
        ("route", "player-out", "desk-in"),
        ("matrix",),
        ("draw", "jack"),
        ("docs",),
        ("ledger",),
        ("list",),
    ],
    ids=lambda w: w[0],
)
def test_every_command_refuses_a_broken_catalogue(ask, broken, words):
    status, printed, complained = ask(*words, "--pinouts", broken)
    assert (status, printed) == (1, "")
    assert complained.startswith("pinouts/ports/desk-in.yaml:4:7: error[unknown-half]\n")


# -- judge
# ----------------------------------------------------------------------------------------------------------


def test_judge_for_people(ask):
    status, printed, _ = ask("judge", *CHAIN)
    assert status == 0
    assert printed.startswith(f"SAFE  {MICROPHONE} -> {LEAD} -> {INPUT}\n")


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
    check_shape(answer, "missing", "own")


def check_shape(answer, *more):
    """Keys and types as promised to other programs; `more` are keys that one command adds."""
    assert list(answer) == [
        "from",
        "through",
        "into",
        "fits",
        "verdict",
        "settings",
        "conditions",
        "offer",
        "offered",
        "plugs",
        "moments",
        "plugging",
        "findings",
        "figures",
        "ways",
        "remedies",
        *more,
    ]
    assert all(isinstance(answer[name], str) for name in ("from", "into", "conditions", "offer"))
    assert answer["offered"] in ("safe", "lossy", "") and bool(answer["offered"]) is bool(answer["offer"])
    assert isinstance(answer["plugs"], list) and all(isinstance(label, str) for label in answer["plugs"])
    assert len(answer["moments"]) == len(answer["settings"])
    for moment in answer["moments"]:
        assert list(moment) == ["settled", "plugging"] and set(moment.values()) <= set(VERDICTS)
    assert isinstance(answer["through"], list) and all(isinstance(lead, str) for lead in answer["through"])
    assert answer["verdict"] in VERDICTS and answer["plugging"] in VERDICTS
    for setting in answer["settings"]:
        assert list(setting) == ["supplies", "verdict"]
        assert setting["verdict"] in VERDICTS
        assert all(
            isinstance(name, str) and isinstance(state, str) for name, state in setting["supplies"].items()
        )
    for finding in answer["findings"]:
        assert list(finding) == [
            "id",
            "severity",
            "subject",
            "where",
            "value",
            "unit",
            "limit",
            "when",
            "says",
            "remedy",
            "evidence",
            "cite",
        ]
        assert finding["severity"] in (*SEVERITIES, "does not fit")
        assert isinstance(finding["value"], (int, float)) and (
            finding["limit"] is None or isinstance(finding["limit"], (int, float))
        )
        assert all(
            isinstance(finding[name], str)
            for name in ("id", "where", "unit", "when", "says", "remedy", "evidence")
        )
        assert isinstance(finding["cite"], list)
    assert bool(answer["figures"]) <= (answer["verdict"] in ("safe", "lossy"))
    for figure in answer["figures"]:
        assert list(figure) == ["id", "where", "value", "unit", "says"]
    for way in answer["ways"]:
        assert list(way) == ["ends", "plugged", "verdict"]
        assert all(len(pair) == 2 for pair in way["ends"]) and all(len(one) == 3 for one in way["plugged"])
        assert way["verdict"] in VERDICTS
    for remedy in answer["remedies"]:
        assert list(remedy) == ["through", "verdict", "offer", "offered"]
        assert (
            remedy["verdict"] in ("safe", "lossy")
            or remedy["verdict"] == "dangerous"
            and remedy["offered"]
            and remedy["offer"]
        )


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
            "'mic-dynmic-xlr' is not in the catalogue. Nearest: mic-dynamic-xlr, mic-digital-xlr,",
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
        and out.endswith(" sends what the other listens to.\n")
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


@pytest.mark.parametrize(
    "words",
    [
        (),
        ("juge",),
        ("judge",),
        ("judge", MICROPHONE),
        ("list", "cables"),
        ("draw", "xlr-3", "--view", "inside"),
        ("lint", "--fast"),
    ],
)
def test_bad_use(ask, words):
    status, printed, complained = ask(*words)
    assert (status, printed) == (2, "")
    assert complained.startswith("usage: python -m generator")


# -- route
# ----------------------------------------------------------------------------------------------------------


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


# -- matrix, ledger
# -------------------------------------------------------------------------------------------------

PAIRINGS = ["block", "crossed", "straight"]


def test_matrix(ask, small, tmp_path):
    status, printed, _ = ask("matrix", "--pinouts", small)
    answers = [json.loads(line) for line in printed.splitlines()]
    assert status == 0
    assert [(answer["from"], answer["through"], answer["into"]) for answer in answers] == [
        ("player-out", [lead], "desk-in") for lead in PAIRINGS
    ]
    for answer in answers:
        check_shape(answer)
    assert ask("matrix", "--out", tmp_path / "all.jsonl", "--pinouts", small) == (0, "", "")
    assert (tmp_path / "all.jsonl").read_text("utf-8") == printed


def test_ledger_writes_then_has_nothing_to_say(ask, small):
    assert ask("ledger", "--check", "--pinouts", small)[0] == 1, "there is none yet"
    assert not (small / "verdicts").exists()
    assert ask("ledger", "--pinouts", small) == (0, "- 3 pairings added\n", "")
    assert (
        (small / "verdicts" / "player-out.txt")
        .read_text("utf-8")
        .startswith("# Computed by `python -m generator ledger`")
    )
    assert ask("ledger", "--check", "--pinouts", small) == (0, "No verdict changed.\n", "")
    assert ask("lint", "--pinouts", small) == (0, "", "")


def test_ledger_since_a_revision(ask, small, tmp_path):
    git = shutil.which("git")
    assert git, "the ledger lives in git"
    ask("ledger", "--pinouts", small)
    for words in (
        ("init", "-q"),
        ("add", "pinouts"),
        ("-c", "user.name=a", "-c", "user.email=a@b.example", "commit", "-qm", "first"),
    ):
        subprocess.run([git, "-C", tmp_path, *words], check=True)
    (small / "leads" / "block.yaml").unlink()
    (small / "published.txt").unlink()  # as if it had never been published
    assert ask("ledger", "--since", "HEAD", "--pinouts", small) == (0, "- 1 pairings removed\n", "")
    status, printed, complained = ask("ledger", "--since", "no-such-tag", "--pinouts", small)
    assert (status, printed) == (2, "")
    assert "no-such-tag" in complained


# -- draw, docs, list
# -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "words",
    [
        ("xlr-3",),
        ("xlr-3", "--view", "solder", "--half", "female"),
        ("phone-35-trs", "--view", "plug"),
        (LEAD,),
        (INPUT,),
        ("xlr-3-balanced",),
    ],
)
def test_draw(ask, words):
    status, printed, complained = ask("draw", *words)
    assert (status, complained) == (0, "")
    assert ElementTree.fromstring(printed).tag == "{http://www.w3.org/2000/svg}svg"


@pytest.mark.parametrize(
    "words, complaint",
    [
        (
            ("xlr-3", "--view", "lead"),
            "'xlr-3' (XLR, three contacts) has no view 'lead'; it has face, solder, side\n",
        ),
        (
            ("xlr-3", "--half", "plug"),
            "'xlr-3' (XLR, three contacts) has no half 'plug'; it has male, female\n",
        ),
    ],
)
def test_what_cannot_be_drawn(ask, words, complaint):
    assert ask("draw", *words) == (2, "", complaint)


def test_docs(ask, small, tmp_path):
    assert ask("docs", "--out", tmp_path / "tree", "--pinouts", small) == (0, "", "")
    assert (tmp_path / "tree" / "index.md").is_file()
    assert (tmp_path / "tree" / "ports" / "desk-in.md").is_file()
    assert json.loads((tmp_path / "tree" / "data" / "v1" / "verdicts.json").read_text())["verdicts"]


def test_finish_wants_a_site(ask, tmp_path):
    assert ask("finish", "--site", tmp_path) == (
        2,
        "",
        f"no built site in {tmp_path}; run mkdocs build first\n",
    )
    (tmp_path / "index.html").write_text("<p>no head</p>")
    assert ask("finish", "--site", tmp_path) == (
        2,
        "",
        'index.html: the page should have <meta charset="utf-8"> once, where its policy goes\n',
    )


def test_bundle(ask, tmp_path):
    (tmp_path / "site/ports/a").mkdir(parents=True)
    (tmp_path / "site/index.html").write_text('<a href="ports/a/">a</a>')
    (tmp_path / "site/sw.js").write_text("")
    assert ask("bundle", "--site", tmp_path / "site", "--out", tmp_path / "out.zip") == (0, "", "")
    with ZipFile(tmp_path / "out.zip") as archive:
        assert archive.namelist() == ["ringfence/index.html"]
        assert archive.read("ringfence/index.html") == b'<a href="ports/a/index.html">a</a>'
    assert ask("bundle", "--site", tmp_path / "none") == (
        2,
        "",
        f"no built site in {tmp_path / 'none'}; run mkdocs build first\n",
    )


def test_list(ask, small):
    assert ask("list", "ports", "--pinouts", small) == (
        0,
        f"{'desk-in':44} Desk input\n{'player-out':44} Player output\n",
        "",
    )
    everything = json.loads(ask("list", "--json", "--pinouts", small)[1])
    assert {row["kind"] for row in everything} == {"connectors", "assignments", "ports", "leads"}
    assert {"kind": "leads", "id": "straight", "name": "Jack to round"} in everything
    assert all(list(row) == ["kind", "id", "name"] for row in everything)
