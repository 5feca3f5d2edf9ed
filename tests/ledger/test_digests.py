"""The digests earlier results are kept under: each covers what it rests on, and no more."""

import ast
from pathlib import Path
from shutil import copytree

import pytest
from remembering import ALL, a_memory, count_judged

from generator import ledger
from generator.catalogue import load
from generator.engine import __file__ as engine_file
from generator.ledger import fingerprint
from generator.ledger.fingerprint import Fingerprints

counted, memory = pytest.fixture(count_judged), pytest.fixture(a_memory)


def test_a_fingerprint_is_the_same_in_every_run(small, pinouts):
    pairing = ("player-out", ("block",), "desk-in")
    assert Fingerprints(small).of(pairing) == Fingerprints(load(pinouts)).of(pairing)
    assert len(Fingerprints(small).of(pairing)) == 24


def test_changed_readings_judge_everything_again(small, memory, counted, monkeypatch):
    ledger.judged(small, memory)
    monkeypatch.setattr(fingerprint, "readings_digest", lambda words: "another engine")
    ledger.judged(small, memory)
    assert counted == dict.fromkeys(ALL, 2)


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
