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
from commands import CHAIN, INPUT, LEAD, MICROPHONE, check_shape, small_catalogue

from generator.catalogue.rules import RULES

small = pytest.fixture(small_catalogue)


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


def test_judge_for_people(ask):
    status, printed, _ = ask("judge", *CHAIN)
    assert status == 0
    assert printed.startswith(f"SAFE  {MICROPHONE} -> {LEAD} -> {INPUT}\n")


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


# -- matrix, ledger

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
