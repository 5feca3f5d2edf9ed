"""The tables of numbers that are no fact about hardware: what a row has, that both engines read it, and that
none stands beside the tables."""

import ast
import re
from pathlib import Path

import pytest

from generator.catalogue import constants as of_the_catalogue
from generator.catalogue.constants import read
from generator.catalogue.records import GRADES
from generator.engine import constants

ROOT = Path(__file__).parents[2]
PYTHON = {
    path: path.read_text("utf-8")
    for path in (ROOT / "generator/engine").glob("*.py")
    if path.name != "constants.py"
}
SCRIPTS = {path: path.read_text("utf-8") for path in (ROOT / "site_src/assets/js/engine").glob("*.js")}
TAKEN = re.compile(r"import \{([^}]*)\} from \"\./constants\.js\";")
ONE_SIDED = {  # what only one of the engines does
    "CLOSED",
    "THROUGH",  # the browser gets the table of powering worked out
    "GRID_BITS",  # the browser sums up what cancels otherwise, see currents.js
    "MOST_ENTRIES",  # the browser solves one state after the other
}


@pytest.mark.parametrize(
    "row", [*constants.TABLE.values(), *of_the_catalogue.TABLE.values()], ids=lambda row: row.name
)
def test_a_row_says_what_it_stands_for_why_and_how_that_is_known(row):
    assert row.evidence in GRADES and bool(row.cite) == (row.evidence in ("standard", "published"))
    assert row.says.endswith(".") and row.reason.endswith(".") and row.group


def test_both_engines_read_every_number_of_the_table():
    imports = [
        node
        for text in PYTHON.values()
        for node in ast.walk(ast.parse(text))
        if isinstance(node, ast.ImportFrom) and node.module == "constants"
    ]
    here = {alias.name for node in imports for alias in node.names}
    there = {
        name
        for text in SCRIPTS.values()
        for names in TAKEN.findall(text)
        for name in re.findall(r"\w+", names)
    }
    assert here == set(constants.TABLE)
    assert there == set(constants.TABLE) - ONE_SIDED


def test_no_number_stands_beside_the_table():
    """A number with a name of its own belongs to it; numbers of a formula or of a format have none."""
    beside = [
        f"{path.name}: {line}"
        for path, text in PYTHON.items()
        for line in re.findall(r"^[A-Z_]+ = -?[\d.]+(?:e-?\d+)?(?= *(?:#|$)).*", text, re.MULTILINE)
    ]
    assert [
        line for line in beside if not line.startswith(("memory.py: MOST = 50_000", "told.py: WIDE = 96"))
    ] == [], "how much is remembered and how wide a line is decide nothing"
    assert [
        f"{path.name}: {line}"
        for path, text in SCRIPTS.items()
        for line in re.findall(r"\b(?:const |, *)([A-Z_]{2,}) = -?[\d.]", text)
    ] == [f"signal.js: {name}" for name in ("LOW", "MID", "HIGH")]


def test_a_name_that_is_none_is_said():
    with pytest.raises(AttributeError, match=r"^constants\.yaml has no row 'HEAR'$"):
        _ = constants.HEAR


@pytest.mark.parametrize(
    "text, told",
    [
        (
            "- {name: A, group: g, value: 1e-9, unit: V, says: s., reason: r., evidence: derived}\n",
            "numbers.yaml: 'A' has a number that YAML takes for a word; write 1.0e-9, not 1e-9",
        ),
        (
            2 * "- {name: A, group: g, value: 1, unit: V, says: s., reason: r., evidence: derived}\n",
            "numbers.yaml: two rows have one name",
        ),
    ],
)
def test_a_table_that_makes_no_sense_is_refused(tmp_path, text, told):
    path = tmp_path / "numbers.yaml"
    path.write_text(text)
    with pytest.raises(ValueError) as error:
        read(path)
    assert str(error.value) == told
