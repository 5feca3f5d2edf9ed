"""What a ledger that is not as it was written gets on the command line: file, line, and which command mends
it. Nothing is overwritten by any other."""

import re
import shutil
import subprocess

import pytest

from generator import ledger
from generator.__main__ import main

BOOK, RESTS, NUMBERS = "player-out.txt", "rests-on.tsv", "numbers.tsv"
MENDED = "; `python -m generator ledger` writes it anew\n"
NOT_AS_WRITTEN = ": not as it was written, edited by hand or from another version"


@pytest.fixture
def verdicts(small, pinouts):
    """The folder of a whole ledger."""
    ledger.keep(small, ledger.rows(small, pinouts / "verdicts"), pinouts / "verdicts")
    return pinouts / "verdicts"


@pytest.fixture
def ask(capsys, pinouts):
    """Runs a command on the tiny catalogue: its status, and what it said on either channel."""

    def ask(*words):
        status = main([*map(str, words), "--pinouts", str(pinouts)])
        said = capsys.readouterr()
        return status, said.out, said.err

    return ask


@pytest.fixture
def committed(verdicts, tmp_path):
    """The same folder, in git."""
    for words in (
        ("init", "-q"),
        ("add", "pinouts"),
        ("-c", "user.name=a", "-c", "user.email=a@b.example", "commit", "-qm", "first"),
    ):
        subprocess.run([shutil.which("git"), "-C", tmp_path, *words], check=True)
    return verdicts


def contents(directory):
    return {path.name: path.read_bytes() for path in directory.iterdir()}


def merged(line):
    """A line as a merge leaves it that could not decide."""
    return b"<<<<<<< HEAD\n" + line + b"\n=======\n" + line + b"\n>>>>>>> other\n"


def edit(number, change):
    """Bytes with one of their lines changed."""

    def edited(whole):
        lines = whole.split(b"\n")
        lines[number - 1] = change(lines[number - 1])
        return b"\n".join(lines)

    return edited


SPOILT = {
    "cut short in a line": (BOOK, lambda whole: whole[:-9], "line 4: cut short"),
    "cut short after a line's end": (BOOK, lambda whole: whole[: whole.rindex(b"straight")], NOT_AS_WRITTEN),
    "emptied": (BOOK, lambda whole: b"", NOT_AS_WRITTEN),
    "another verdict": (
        BOOK,
        edit(2, lambda line: re.sub(rb"\t(safe|lossy|dangerous|no signal)\t", b"\tsafe\t", line) + b" "),
        NOT_AS_WRITTEN,
    ),
    "no verdict": (
        BOOK,
        edit(4, lambda line: b"straight\tdesk-in\tfine\t-\t-\t-"),
        "line 4: no row of a ledger: 'straight\tdesk-in\tfine\t-\t-\t-'",
    ),
    "a head of another version": (BOOK, edit(1, lambda line: b"# Version 2"), NOT_AS_WRITTEN),
    "a field more": (
        BOOK,
        edit(3, lambda line: b"crossed\tdesk-in\tsafe\t-\t-\t-\t-"),
        "line 3: no row of a ledger: 'crossed\tdesk-in\tsafe\t-\t-\t-\t-'",
    ),
    "merged": (BOOK, edit(3, merged), "line 3: no row of a ledger: '<<<<<<< HEAD'"),
    "half mended": (
        BOOK,
        edit(4, lambda line: line + b"\n>>>>>>> other"),
        "line 5: no row of a ledger: '>>>>>>> other'",
    ),
    "a row twice": (BOOK, edit(4, lambda line: line + b"\n" + line), NOT_AS_WRITTEN),
    "no text": (
        BOOK,
        edit(2, lambda line: b"block\xff\tdesk-in\tsafe\t-\t-\t-"),
        "line 2: no row of a ledger: 'block\ufffd\tdesk-in\tsafe\t-\t-\t-'",
    ),
    "numbers merged": (
        NUMBERS,
        edit(2, merged),
        ": not as it was written, edited by hand or from another version",
    ),
    "what it rests on cut short": (RESTS, lambda whole: whole[:-1], "cut short"),
    "what it rests on merged": (
        RESTS,
        edit(2, merged),
        "line 2: not a kind, a name and a digest: '<<<<<<< HEAD'",
    ),
    "what it rests on emptied": (RESTS, lambda whole: b"", f": missing, or without a line for {NUMBERS}"),
    "a digest edited": (
        RESTS,
        edit(2, lambda line: line[:-1] + b"x"),
        "line 2: not a kind, a name and a digest: '",
    ),
    "a file left out": (
        RESTS,
        lambda whole: b"\n".join(line for line in whole.split(b"\n") if b"player-out.txt" not in line),
        f": missing, or without a line for {BOOK}",
    ),
}


@pytest.mark.parametrize("name, change, told", SPOILT.values(), ids=SPOILT)
def test_a_spoilt_file_is_named_and_left_as_it_is(ask, verdicts, tmp_path, name, change, told):
    path = verdicts / name
    path.write_bytes(change(path.read_bytes()))
    before = contents(verdicts)
    status, printed, complained = ask("docs", "--out", tmp_path / "docs")
    assert (status, printed) == (1, "")
    assert (
        complained.startswith(f"verdicts/{name}")
        and complained.endswith(MENDED)
        and complained.count("\n") == 1
    )
    assert told in complained
    if told.startswith("line"):
        assert complained.startswith(f"verdicts/{name}, {told}")
    assert contents(verdicts) == before and not (tmp_path / "docs").exists()


@pytest.mark.parametrize("name, change, told", SPOILT.values(), ids=SPOILT)
def test_the_command_it_names_mends_it(ask, verdicts, name, change, told):
    whole = contents(verdicts)
    (verdicts / name).write_bytes(change(whole[name]))
    spoilt = contents(verdicts)
    status, _, complained = ask("ledger", "--check")
    assert status == 1 and complained.splitlines()[0].startswith(f"verdicts/{name}, line ")
    assert complained.endswith(": not what the engine says today" + MENDED)
    assert contents(verdicts) == spoilt, "checking writes nothing"
    assert ask("ledger")[0] == 0
    assert contents(verdicts) == whole
    assert ask("ledger", "--check") == (0, "No verdict changed.\n", "")


@pytest.mark.parametrize(
    "name, told",
    [
        (BOOK, f"verdicts/{BOOK}: missing"),
        (RESTS, f"verdicts/{RESTS}: missing, or without a line for {NUMBERS}"),
        (NUMBERS, f"verdicts/{NUMBERS}: missing"),
    ],
)
def test_a_missing_file_is_named(ask, verdicts, tmp_path, name, told):
    (verdicts / name).unlink()
    assert ask("docs", "--out", tmp_path / "docs") == (1, "", told + MENDED)
    assert not (verdicts / name).exists()


def test_a_file_that_is_none_of_its_own_is_named(ask, verdicts, tmp_path):
    shutil.copy(verdicts / BOOK, verdicts / "stranger.txt")
    assert ask("docs", "--out", tmp_path / "docs") == (
        1,
        "",
        f"verdicts/{RESTS}: missing, or without a line for stranger.txt{MENDED}",
    )
    assert (verdicts / "stranger.txt").exists()


def test_an_edited_line_is_named_where_git_has_it_as_it_was(ask, committed, tmp_path):
    path = committed / BOOK
    path.write_bytes(edit(3, lambda line: line.replace(b"crossed", b"crossing"))(path.read_bytes()))
    assert ask("docs", "--out", tmp_path / "docs") == (
        1,
        "",
        f"verdicts/{BOOK}, line 3{NOT_AS_WRITTEN}{MENDED}",
    )


def test_a_stale_ledger_is_named_by_its_first_line(ask, verdicts):
    path = verdicts / BOOK
    path.write_bytes(edit(4, lambda line: line + b".")(path.read_bytes()))
    assert ask("ledger", "--check") == (
        1,
        "No verdict changed.\n",
        f"verdicts/{BOOK}, line 4: not what the engine says today{MENDED}",
    )


def test_a_revision_where_there_is_no_git_is_bad_use(ask, committed, monkeypatch, tmp_path):
    monkeypatch.setenv("PATH", str(tmp_path / "nothing here"))
    assert ask("ledger", "--since", "HEAD") == (2, "", "git is not on this machine.\n")
