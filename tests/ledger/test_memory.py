"""Earlier results are used where nothing they rest on has changed, and nowhere else."""

import ast
import json
import os
import re
import sqlite3
from collections import Counter
from functools import partial
from importlib import import_module
from pathlib import Path
from shutil import copytree

import pytest

from generator import ledger
from generator.catalogue import load
from generator.engine import __file__ as engine_file
from generator.engine import judge, pairings
from generator.ledger import fingerprint, workers
from generator.ledger.fingerprint import Fingerprints
from generator.ledger.recorded import recorded

JUDGED = import_module("generator.ledger.judged")  # the package offers a function of the same name


@pytest.fixture
def counted(monkeypatch):
    """Counts which pairings are judged from nothing."""
    calls = Counter()

    def counting(catalogue, start, through, target):
        calls[through] += 1
        return recorded(catalogue, start, through, target)

    monkeypatch.setattr(JUDGED, "recorded", counting)
    return calls


ALL = {("block",): 1, ("crossed",): 1, ("straight",): 1}
MEMORY = "build/readings.sqlite"


@pytest.fixture
def memory(tmp_path):
    return tmp_path / MEMORY


def test_nothing_is_judged_twice(small, memory, counted):
    first = ledger.judged(small, memory)
    assert counted == ALL
    assert ledger.judged(small, memory) == first
    assert counted == ALL


def test_what_is_remembered_is_what_was_judged(small, memory):
    assert (
        ledger.judged(small, memory)
        == ledger.judged(small, memory)
        == ledger.judged(small)
        == [
            json.loads(json.dumps(judge(small, "player-out", (lead,), "desk-in").as_data()))
            for lead in ("block", "crossed", "straight")
        ]
    )


@pytest.mark.parametrize(
    "name, old, new, again",
    [
        (
            "leads/block.yaml",
            "capacitor: 10 uF",
            "capacitor: 22 uF",
            {("block",)},
        ),  # only what it goes through
        # crossed is the same as straight
        ("leads/straight.yaml", "label: round plug", "label: the round one", {("straight",), ("crossed",)}),
        (
            "ports/desk-in.yaml",
            "feed: 6.8 kohm",
            "feed: 6.81 kohm",
            {("block",), ("crossed",), ("straight",)},
        ),
        ("cables/pair.yaml", "core: 80 mohm/m", "core: 90 mohm/m", {("crossed",), ("straight",)}),
        (
            "connectors/round.yaml",
            "female: {forward: {1: 1 mm",
            "female: {forward: {1: 2 mm",
            {("block",), ("crossed",), ("straight",)},
        ),
        ("ports/desk-in.yaml", "name: ", "also_called: [console in]\nname: ", set()),  # a word to search by
        ("leads/block.yaml", "name: ", "cautions: [Mind the end.]\nname: ", set()),
        # no answer shows it
        ("assignments/round-balanced.yaml", "name: Balanced on a round one", "name: Balanced, round", set()),
    ],
)
def test_only_what_changed_is_judged_again(small, changed, memory, counted, name, old, new, again):
    ledger.judged(small, memory)
    counted.clear()
    fresh = ledger.judged(changed(name, old, new), memory)
    assert set(counted) == again
    assert [answer["through"] for answer in fresh] == [["block"], ["crossed"], ["straight"]]


@pytest.mark.parametrize(
    "name, old, new",
    [
        (
            "circuits/input.yaml",
            "momentary: unknown, evidence: common practice",
            "momentary: unknown, evidence: derived",
        ),
        (
            "circuits/input.yaml",
            "momentary: unknown, evidence: common practice",
            "momentary: unknown, evidence: published, cite: handbook",
        ),
        ("circuits/input.yaml", "evidence: published, cite: handbook", "evidence: from memory"),
    ],
)
def test_how_a_thing_is_known_is_told_and_changes_no_row(
    small, changed, pinouts, memory, counted, name, old, new
):
    """No row is judged again; a whole answer, which says so, is."""
    pairing = ("player-out", ("block",), "desk-in")
    rows, answers = ledger.rows(small, pinouts / "verdicts", memory), ledger.judged(small, memory)
    ledger.keep(small, rows, pinouts / "verdicts", memory)
    counted.clear()
    other = changed(name, old, new)
    assert Fingerprints(other, words=False).of(pairing) == Fingerprints(small, words=False).of(pairing)
    assert (
        ledger.rows(other, pinouts / "verdicts", memory) == rows
        and list(ledger.stale(other, rows, pinouts / "verdicts", memory)) == []
    )
    assert not counted
    assert (Fingerprints(other).of(pairing) == Fingerprints(small).of(pairing)) == ("published" in old)
    again = ledger.judged(other, memory)
    assert bool(counted) == ("published" not in old)
    assert again == ledger.judged(other) and [one["verdict"] for one in again] == [
        one["verdict"] for one in answers
    ]


@pytest.mark.parametrize(
    "name, old, new",
    [
        ("ports/desk-in.yaml", "earthed: maybe", "earthed: maybe\nalso_called: [console in]"),
        ("ports/desk-in.yaml", "earthed: maybe", "earthed: maybe\ncautions: [Mind the end.]"),
        ("ports/desk-in.yaml", "evidence: from memory", "evidence: from memory\nchecked: 2026-11-26"),
        ("ports/desk-in.yaml", "evidence: from memory", "evidence: from memory\nnote: Measured once."),
        ("connectors/round.yaml", "checked: 2026-11-25", "checked: 2026-11-26"),
        ("leads/block.yaml", "evidence: from memory", "evidence: from memory\ntell_apart: By its ends."),
    ],
)
def test_words_about_a_record_judge_nothing(small, changed, pinouts, memory, counted, name, old, new):
    rows = ledger.rows(small, pinouts / "verdicts", memory)
    answers = ledger.judged(small, memory)
    ledger.keep(small, rows, pinouts / "verdicts", memory)
    counted.clear()
    other = changed(name, old, new)
    assert (
        ledger.rows(other, pinouts / "verdicts", memory) == rows
        and list(ledger.stale(other, rows, pinouts / "verdicts", memory)) == []
    )
    assert ledger.judged(other, memory) == answers
    assert not counted


def test_a_changed_partner_of_a_spare_end_counts(small, changed, memory):
    """straight names desk-in as the usual partner of its end."""
    prints = Fingerprints(small)
    before = prints.of(("player-out", ("straight",), "desk-in"))
    assert (
        Fingerprints(changed("ports/desk-in.yaml", "earthed: maybe", "earthed: yes")).of(
            ("player-out", ("straight",), "desk-in")
        )
        != before
    )


def test_a_fingerprint_is_the_same_in_every_run(small, pinouts):
    pairing = ("player-out", ("block",), "desk-in")
    assert Fingerprints(small).of(pairing) == Fingerprints(load(pinouts)).of(pairing)
    assert len(Fingerprints(small).of(pairing)) == 24


def test_changed_readings_judge_everything_again(small, memory, counted, monkeypatch):
    ledger.judged(small, memory)
    monkeypatch.setattr(fingerprint, "readings_digest", lambda words: "another engine")
    ledger.judged(small, memory)
    assert counted == {through: 2 for through in ALL}


def test_the_engine_digest_covers_code_and_rules():
    """A rule changed in the data file changes the digest as surely as a changed line of code."""
    files = {path.name for path in Path(engine_file).parent.glob("*.*") if path.suffix in (".py", ".yaml")}
    assert {"rulebook.yaml", "judge.py", "solve.py", "mate.py", "direct.py", "hearing.py"} <= files


@pytest.mark.parametrize(
    "old, new, verdict, row",
    [
        ("  says: ", "  says: Well, ", False, True),
        ("  reason: ", "  reason: So it is. ", False, True),
        ("  limit: own", "  limit: 1", False, False),
        ("  weighs: 2", "  weighs: 3", False, False),
    ],
)
def test_a_sentence_of_a_rule_changes_verdicts_and_no_row(tmp_path, monkeypatch, old, new, verdict, row):
    engine = tmp_path / "engine"
    copytree(Path(engine_file).parent, engine)
    monkeypatch.setattr(fingerprint, "ENGINE", engine)
    before, readings = (
        [fingerprint.engine_digest.__wrapped__(words) for words in (True, False)],
        fingerprint.readings_digest.__wrapped__(True),
    )
    text = (engine / "rulebook.yaml").read_text("utf-8")
    assert old in text
    (engine / "rulebook.yaml").write_text(text.replace(old, new, 1), "utf-8")
    after = [fingerprint.engine_digest.__wrapped__(words) for words in (True, False)]
    assert [one == other for one, other in zip(before, after)] == [verdict, row]
    assert fingerprint.readings_digest.__wrapped__(True) == readings, (
        "what is measured has nothing to do with rules"
    )


@pytest.mark.parametrize(
    "code, same",
    [
        ("def f(x):\n    return x + 1  # why\n", True),
        ('def f(x):\n    """What it gives.\n\n    More."""\n\n    return x + 1\n', True),
        ('"""A module."""\ndef f(x):\n    return x + 1\n', True),
        ("def f( x ):\n\n    return (x\n            + 1)\n", True),
        ("async def f(x):\n    return x + 1\n", False),
        ("def f(x):\n    'x'\n    return x + 2\n", False),
        ("def f(x):\n    return x + 1.0\n", False),
        ("def f(x):\n    return x + True\n", False),
        ("def f(x):\n    return x - 1\n", False),
        ("def f(x, y=None):\n    return x + 1\n", False),
        ("def f(*x):\n    return x + 1\n", False),
        ("def f(x):\n    return x + 2\n", False),
        ("def f(x):\n    return x + '# 1'\n", False),
    ],
)
def test_what_does_not_run_does_not_count(tmp_path, code, same):
    digests = []
    for text in (code, "def f(x):\n    return x + 1\n"):
        (tmp_path / "module.py").write_text(text, "utf-8")
        digests.append(fingerprint._code([tmp_path / "module.py"]))
    assert (digests[0] == digests[1]) == same


def test_in_which_module_a_thing_stands_does_not_count(tmp_path):
    whole, one, two = (tmp_path / f"{name}.py" for name in ("whole", "one", "two"))
    whole.write_text('"""Both."""\nfrom math import pi\nA = pi\n\ndef f(x):\n    return x * A\n')
    one.write_text('"""One."""\nfrom .two import A\n\ndef f(x):\n    return x * A\n')
    two.write_text('"""Two."""\nfrom math import pi\n\nA = pi\n')
    assert fingerprint._code([one, two]) == fingerprint._code([whole]) != fingerprint._code([one])


def test_the_form_of_a_syntax_tree_is_the_same_in_every_python():
    """What versions of Python differ in is no part of it: where a thing stands, whether it is written to, how
    a string was written, types of types."""
    code = (
        "class A(B):\n"
        "    'Words.'\n"
        "    x: int = f'{y!r:>{n}}' u'z'\n\n"
        "    async def f(self, *a, b=None):\n"
        "        return {**a, 1: ...}, None\n"
    )
    assert fingerprint._meaning(ast.parse(code)) == (
        "Module(body=[ClassDef(name='A',bases=[Name(id='B')],body=[AnnAssign(target=Name(id='x'),annotation=Name(id='int'),value=JoinedStr(values=["
        "FormattedValue(value=Name(id='y'),conversion=114,format_spec=JoinedStr(values=[Constant(value='>'),FormattedValue(value=Name(id='n'),conversion=-1)])),"
        "Constant(value='z')]),simple=1),AsyncFunctionDef(name='f',args=arguments(args=[arg(arg='self')],vararg=arg(arg='a'),kwonlyargs=[arg(arg='b')],"
        "kw_defaults=[Constant()]),body=[Return(value=Tuple(elts=[Dict(keys=[None,Constant(value=1)],values=[Name(id='a'),Constant(value=Ellipsis)]),Constant()]))])])])"
    )


def test_three_digests_of_the_engine_each_see_more():
    """Of readings, of what makes verdicts of them, of what is said of them."""
    applies = {path.stem for path in fingerprint.judging()} - {path.stem for path in fingerprint.reading()}
    assert applies == fingerprint.APPLYING, "nothing that readings are made by knows of rules"
    assert {"solve", "hearing", "memory", "switches"} <= {path.stem for path in fingerprint.reading()}


@pytest.mark.parametrize(
    "old, new, same",
    [
        ("*discharge_readings(assembly),", "", False),
        ("return max(verdicts, key=RANK.get)", "return min(verdicts, key=RANK.get)", True),
    ],
)
def test_of_the_module_that_judges_only_what_makes_readings_makes_readings(
    tmp_path, monkeypatch, old, new, same
):
    engine = tmp_path / "engine"
    copytree(Path(engine_file).parent, engine)
    monkeypatch.setattr(fingerprint, "ENGINE", engine)
    before, whole = fingerprint.readings_digest.__wrapped__(True), fingerprint.code_digest.__wrapped__(False)
    text = (engine / "judge.py").read_text("utf-8")
    assert text.count(old) == 1
    (engine / "judge.py").write_text(text.replace(old, new), "utf-8")
    assert (fingerprint.readings_digest.__wrapped__(True) == before) == same
    assert fingerprint.code_digest.__wrapped__(False) != whole


def test_a_stopped_run_goes_on_where_it_was(small, memory, counted, monkeypatch):
    """What was judged is kept whatever stops it."""

    def stopping(made, catalogue, start, through, target):
        if through == ("straight",):
            raise KeyboardInterrupt
        return made(catalogue, start, through, target)

    monkeypatch.setattr(JUDGED, "recorded", partial(stopping, counted_one := JUDGED.recorded))
    with pytest.raises(KeyboardInterrupt):
        ledger.judged(small, memory)
    monkeypatch.setattr(JUDGED, "recorded", counted_one)
    counted.clear()
    ledger.judged(small, memory)
    assert counted == {("straight",): 1}


def asked(memory, words, *given):
    with sqlite3.connect(memory) as file:
        return file.execute(words, given).fetchall()


@pytest.mark.parametrize(
    "words",
    [
        "UPDATE pairings SET readings = substr(readings, 1, length(readings) - 9) WHERE digest = ?",
        "UPDATE pairings SET readings = x'00' WHERE digest = ?",
        "UPDATE pairings SET readings = NULL WHERE digest = ?",
        "UPDATE pairings SET readings = 'words' WHERE digest = ?",
    ],
)
def test_a_damaged_pairing_is_said_and_judged_anew(small, memory, counted, capsys, words):
    first = ledger.judged(small, memory)
    counted.clear()
    asked(memory, words, Fingerprints(small, words=False).readings(("player-out", ("crossed",), "desk-in")))
    assert ledger.judged(small, memory) == first
    assert (
        capsys.readouterr().err == f"{memory}: 1 of its pairings is damaged; what it held is judged anew.\n"
        and counted == {("crossed",): 1}
    )
    assert ledger.judged(small, memory) == first and counted.total() == 1
    assert capsys.readouterr().err == ""


@pytest.mark.parametrize("words", ["DELETE FROM outlines", "UPDATE outlines SET text = substr(text, 1, 20)"])
def test_damaged_outlines_are_said_and_judged_anew(small, memory, counted, capsys, words):
    first = ledger.judged(small, memory)
    counted.clear()
    asked(memory, words)
    assert ledger.judged(small, memory) == first
    assert (
        capsys.readouterr().err
        == f"{memory}: 3 of its pairings are damaged; what they held is judged anew.\n"
        and counted == ALL
    )
    assert ledger.judged(small, memory) == first and counted == ALL


@pytest.mark.parametrize(
    "spoil",
    [
        lambda whole: b"\xff\x00" * 5000,
        lambda whole: whole[:100] + b"\x00" * (len(whole) - 100),
        lambda whole: b'{"from": "player-out"}\n',
        lambda whole: whole[:4096] + b"\xaa" * (len(whole) - 4096),
    ],
    ids=["noise", "zeros", "text", "its pages"],
)
def test_a_file_that_is_none_is_said_and_begun_anew(small, memory, counted, capsys, spoil):
    first = ledger.judged(small, memory)
    counted.clear()
    memory.write_bytes(spoil(memory.read_bytes()))
    assert ledger.judged(small, memory) == first
    assert capsys.readouterr().err == f"{memory}: damaged; what it held is judged anew.\n" and counted == ALL
    assert ledger.judged(small, memory) == first and counted == ALL
    assert capsys.readouterr().err == ""


def test_a_file_that_cannot_be_opened_is_named(small, memory):
    memory.mkdir(parents=True)
    with pytest.raises(OSError, match="unable to open database file") as fault:
        ledger.judged(small, memory)
    assert fault.value.filename == str(memory)


def test_two_runs_at_once_do_no_harm(small, memory, counted):
    """One begins while another is in the middle of the same."""
    wanted = list(pairings(small))
    slow = JUDGED.told_of(dict, small, memory, wanted)
    found = [next(slow)]
    other = ledger.judged(small, memory)
    assert [*found, *slow] == other == ledger.judged(small)
    counted.clear()
    assert ledger.judged(small, memory) == other and not counted


def test_pairings_that_are_gone_leave_the_memory_once_they_are_most(changed, pinouts, memory):
    for number, left in ((10, 3), (20, 6), (30, 3)):
        today = changed("ports/desk-in.yaml", "feed: 6.8 kohm", f"feed: 6.8{number} kohm")
        ledger.rows(today, pinouts / "verdicts", memory)
        assert asked(memory, "SELECT count(*) FROM pairings") == [(left,)]
        changed("ports/desk-in.yaml", f"feed: 6.8{number} kohm", "feed: 6.8 kohm")
    prints = Fingerprints(today, words=False)
    assert {digest for (digest,) in asked(memory, "SELECT digest FROM pairings")} == set(
        map(prints.readings, pairings(today))
    )


def test_many_are_judged_on_all_cores_alike(small, monkeypatch):
    """More processes, the same answers."""
    alone = ledger.judged(small)
    monkeypatch.setattr(JUDGED, "FEW", 0)
    assert ledger.judged(small) == alone


def ended(*given):
    """What a process does that the machine has no memory for."""
    os._exit(1)


def test_a_process_that_is_ended_from_outside_is_said(small):
    with pytest.raises(OSError) as fault:
        with workers.processes(ended, small, None, 2) as mapped:
            list(mapped([["pairing"]]))
    assert str(fault.value.strerror) == (
        "a process that judged was ended from outside, for want of memory perhaps; start it again and it "
        "goes on"
    )


def test_what_is_never_asked_is_never_asked():
    """No module that judges looks at a field the digest leaves out."""
    code = "\n".join(path.read_text("utf-8") for path in fingerprint.judging())
    for kind, names in fingerprint.UNASKED.items():
        for name in names - {"evidence", "device"}:
            assert not re.search(rf"\.{name}\b", code), (kind, name)
