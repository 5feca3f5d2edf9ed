"""Earlier results are used where nothing they rest on has changed, and nowhere else."""

import json
import re
from collections import Counter
from importlib import import_module
from pathlib import Path
from shutil import copytree

import pytest

from generator import ledger
from generator.catalogue import load
from generator.engine import __file__ as engine_file
from generator.engine import judge
from generator.ledger import fingerprint
from generator.ledger.fingerprint import Fingerprints

JUDGED = import_module("generator.ledger.judged")  # the package offers a function of the same name


@pytest.fixture
def counted(monkeypatch):
    """Counts which pairings are judged."""
    calls = Counter()

    def counting(catalogue, start, through, target):
        calls[through] += 1
        return judge(catalogue, start, through, target)

    monkeypatch.setattr(JUDGED, "judge", counting)
    return calls


ALL = {("block",): 1, ("crossed",): 1, ("straight",): 1}
MEMORY = "build/memory.jsonl"


@pytest.fixture
def memory(tmp_path):
    return tmp_path / MEMORY


def test_nothing_is_judged_twice(small, memory, counted):
    first = ledger.judged(small, memory)
    assert counted == ALL
    assert ledger.judged(small, memory) == first
    assert counted == ALL


def test_what_is_remembered_is_what_was_judged(small, memory):
    assert ledger.judged(small, memory) == ledger.judged(small, memory) == ledger.judged(small) == [
        json.loads(json.dumps(judge(small, "player-out", (lead,), "desk-in").as_data())) for lead in ("block", "crossed", "straight")]


@pytest.mark.parametrize("name, old, new, again", [
    ("leads/block.yaml", "capacitor: 10 uF", "capacitor: 22 uF", {("block",)}),  # only what it goes through
    ("leads/straight.yaml", "label: round plug", "label: the round one", {("straight",), ("crossed",)}),  # crossed is the same as straight
    ("ports/desk-in.yaml", "feed: 6.8 kohm", "feed: 6.81 kohm", {("block",), ("crossed",), ("straight",)}),
    ("cables/pair.yaml", "core: 80 mohm/m", "core: 90 mohm/m", {("crossed",), ("straight",)}),
    ("connectors/round.yaml", "female: {forward: {1: 1 mm", "female: {forward: {1: 2 mm", {("block",), ("crossed",), ("straight",)}),
    ("ports/desk-in.yaml", "name: ", "also_called: [console in]\nname: ", set()),  # a word to search by
    ("leads/block.yaml", "name: ", "cautions: [Mind the end.]\nname: ", set()),
    ("assignments/round-balanced.yaml", "name: Balanced on a round one", "name: Balanced, round", set()),  # no answer shows it
])
def test_only_what_changed_is_judged_again(small, changed, memory, counted, name, old, new, again):
    ledger.judged(small, memory)
    counted.clear()
    fresh = ledger.judged(changed(name, old, new), memory)
    assert set(counted) == again
    assert [answer["through"] for answer in fresh] == [["block"], ["crossed"], ["straight"]]


def test_a_changed_partner_of_a_spare_end_counts(small, changed, memory):
    """straight names desk-in as the usual partner of its end."""
    prints = Fingerprints(small)
    before = prints.of(("player-out", ("straight",), "desk-in"))
    assert Fingerprints(changed("ports/desk-in.yaml", "earthed: maybe", "earthed: yes")).of(("player-out", ("straight",), "desk-in")) != before


def test_a_fingerprint_is_the_same_in_every_run(small, pinouts):
    pairing = ("player-out", ("block",), "desk-in")
    assert Fingerprints(small).of(pairing) == Fingerprints(load(pinouts)).of(pairing)
    assert len(Fingerprints(small).of(pairing)) == 24


def test_a_changed_engine_judges_everything_again(small, memory, counted, monkeypatch):
    ledger.judged(small, memory)
    monkeypatch.setattr(fingerprint, "engine_digest", lambda words: "another engine")
    ledger.judged(small, memory)
    assert counted == {through: 2 for through in ALL}


def test_the_engine_digest_covers_code_and_rules():
    """A rule changed in the data file changes the digest as surely as a changed line of code."""
    files = {path.name for path in Path(engine_file).parent.glob("*.*") if path.suffix in (".py", ".yaml")}
    assert {"rulebook.yaml", "judge.py", "solve.py", "mate.py", "direct.py", "hearing.py"} <= files


@pytest.mark.parametrize("old, new, verdict, row", [
    ("  says: ", "  says: Well, ", False, True),
    ("  reason: ", "  reason: So it is. ", False, True),
    ("  limit: own", "  limit: 1", False, False),
    ("  weighs: 2", "  weighs: 3", False, False),
])
def test_a_sentence_of_a_rule_changes_verdicts_and_no_row(tmp_path, monkeypatch, old, new, verdict, row):
    engine = tmp_path / "engine"
    copytree(Path(engine_file).parent, engine)
    monkeypatch.setattr(fingerprint, "ENGINE", engine)
    before = [fingerprint.engine_digest.__wrapped__(words) for words in (True, False)]
    text = (engine / "rulebook.yaml").read_text("utf-8")
    assert old in text
    (engine / "rulebook.yaml").write_text(text.replace(old, new, 1), "utf-8")
    after = [fingerprint.engine_digest.__wrapped__(words) for words in (True, False)]
    assert [one == other for one, other in zip(before, after)] == [verdict, row]


@pytest.mark.parametrize("code, same", [
    ("def f(x):\n    return x + 1  # why\n", True),
    ("def f(x):\n    \"\"\"What it gives.\n\n    More.\"\"\"\n\n    return x + 1\n", True),
    ("\"\"\"A module.\"\"\"\ndef f(x):\n    return x + 1\n", True),
    ("def f(x):\n    return x + 2\n", False),
    ("def f(x):\n    return x + '# 1'\n", False),
])
def test_what_does_not_run_does_not_count(code, same):
    plain = "def f(x):\n    return x + 1\n"
    assert (fingerprint._meaning(code) == fingerprint._meaning(plain)) == same


def test_a_stopped_run_goes_on_where_it_was(small, memory, counted):
    """What was judged is kept at once; a line that was cut short is judged again."""
    first = ledger.judged(small, memory)
    counted.clear()
    lines = memory.read_text("utf-8").splitlines()
    memory.write_text(lines[0] + "\n" + lines[1][:100], "utf-8")
    assert ledger.judged(small, memory) == first
    assert counted == {("crossed",): 1, ("straight",): 1}
    counted.clear()
    assert ledger.judged(small, memory) == first and not counted


def test_a_damaged_line_is_said_and_judged_anew(small, memory, counted, capsys):
    first = ledger.judged(small, memory)
    counted.clear()
    lines = memory.read_text("utf-8").splitlines()
    memory.write_text("\n".join([lines[0].replace('"', "", 1), *lines[1:]]) + "\n", "utf-8")
    assert ledger.judged(small, memory) == first
    assert capsys.readouterr().err == f"{memory}: 1 of its lines is damaged; what they held is judged anew.\n" and counted.total() == 1
    assert ledger.judged(small, memory) == first and counted.total() == 1
    assert capsys.readouterr().err == ""
    memory.write_bytes(b"\xff\x00" * 5000)
    assert ledger.judged(small, memory) == first


def test_forgotten_pairings_leave_the_memory(small, pinouts, memory):
    ledger.judged(small, memory)
    (pinouts / "leads" / "block.yaml").unlink()
    ledger.judged(load(pinouts), memory)
    assert len(memory.read_text("utf-8").splitlines()) == 2


def test_many_are_judged_on_all_cores_alike(small, monkeypatch):
    """More processes, the same answers."""
    alone = ledger.judged(small)
    monkeypatch.setattr(JUDGED, "FEW", 0)
    assert ledger.judged(small) == alone


def test_what_is_never_asked_is_never_asked():
    """No module that judges looks at a field the digest leaves out."""
    code = "\n".join(path.read_text("utf-8") for path in fingerprint.judging())
    for kind, names in fingerprint.UNASKED.items():
        for name in names - {"evidence", "device"}:
            assert not re.search(rf"\.{name}\b", code), (kind, name)
