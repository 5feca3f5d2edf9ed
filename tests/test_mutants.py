"""The list of faults does not rot: each can still be put in, says something else, and is about a
module of the engine."""

from collections import Counter
from pathlib import Path

import pytest
import yaml
from mutants import spoilt

from generator.engine import __file__ as engine

ENGINE = Path(engine).parent
ROWS = yaml.safe_load((Path(__file__).parent / "mutants/engine.yaml").read_text("utf-8"))
WITHOUT = {"__init__.py", "constants.py", "tables.py"}  # nothing is worked out there


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["id"])
def test_a_fault_can_be_put_in(row):
    assert set(row) <= {"id", "file", "text", "becomes", "same"}
    whole = (ENGINE / row["file"]).read_text("utf-8")
    text, places = spoilt(whole, row)
    assert places == 1 and text != whole
    if row["file"].endswith(".py"):
        compile(text, row["file"], "exec")
    else:
        assert yaml.safe_load(text) != yaml.safe_load(whole)


@pytest.mark.parametrize("laid_out", ["f(a, [b, c])", "f(\n    a,\n    [\n        b,\n        c,\n    ],\n)"])
def test_how_a_statement_is_laid_out_does_not_matter(laid_out):
    fault = {"file": "x.py", "text": "f(a, [b, c])", "becomes": "g(a)"}
    assert spoilt(f"x = {laid_out}\n", fault) == ("x = g(a)\n", 1)
    assert spoilt(f"x = {laid_out}\n", {**fault, "text": "f(a, [b])"}) == (f"x = {laid_out}\n", 0)


def test_every_fault_has_a_name_of_its_own():
    assert [name for name, count in Counter(row["id"] for row in ROWS).items() if count > 1] == []


def test_every_module_of_the_engine_has_some():
    assert {row["file"] for row in ROWS} == {
        path.name for path in ENGINE.iterdir() if path.suffix in (".py", ".yaml")
    } - WITHOUT
    assert len(ROWS) >= 80
