"""The tables: every number has evidence and a reason, every source exists, quiet is never louder
than loud.
"""

import re
from itertools import combinations_with_replacement

import pytest
import yaml

from generator.catalogue.records import GRADES
from generator.interference import tables as read_tables
from generator.interference.formulas.radio import ferrite_turns
from generator.interference.guesses import UNITS
from generator.interference.tables import FOLDER, NAMES, _row

FILES = [name for name in NAMES if name != "sources"]


def rows(node, name=""):
    """Every map that gives evidence, by the way to it; read without the package's own loader."""
    if isinstance(node, dict):
        if "evidence" in node:
            yield name, node
        else:
            for key, value in node.items():
                yield from rows(value, f"{name}/{key}")


def raw(name):
    return yaml.safe_load((FOLDER / f"{name}.yaml").read_text("utf-8"))


@pytest.mark.parametrize("name", FILES)
def test_every_row_says_how_it_is_known(name):
    found = list(rows(raw(name), name))
    assert found
    for where, row in found:
        assert row["evidence"] in GRADES and row["reason"], where
        if row["evidence"] in ("standard", "published"):
            assert row.get("cite"), where
        if row["evidence"] == "from memory":
            assert any(word in row["reason"] for word in ("confirm", "measure", "label", "ask")), where


def test_every_source_exists_and_is_used(catalogue):
    cited = {id for name in FILES for _, row in rows(raw(name), name) for id in row.get("cite", ())}
    own = set(raw("sources"))
    assert cited - own - set(catalogue.sources) == set()
    worked = (FOLDER.parents[2] / "tests/interference/test_worked_checks.py").read_text("utf-8")
    assert [id for id in own - cited if f"[{id}]" not in worked] == []


def test_worked_checks_cite_what_exists(catalogue):
    worked = (FOLDER.parents[2] / "tests/interference/test_worked_checks.py").read_text("utf-8")
    cited = set(re.findall(r"\[([a-z][a-z0-9]*(?:-[a-z0-9]+)+)\]", worked))
    assert len(cited) >= 20
    assert cited - set(raw("sources")) - set(catalogue.sources) == set()


def test_loud_is_never_quieter_than_quiet(tables):
    for key, row in tables.powering.items():
        for louder in ("volts", "share", "amps", "farad", "varying"):
            if louder in row:
                assert list(row[louder]) == sorted(row[louder]), key
        if "ohm" in row and "amps" not in row:
            assert list(row["ohm"]) == sorted(row["ohm"], reverse=True), key


def test_every_constant_has_a_unit(tables):
    assert set(UNITS) == set(tables.constants)


def test_every_pair_of_powerings_has_a_row(tables):
    for pair in combinations_with_replacement(("battery", "earthed", "insulated"), 2):
        key = "-".join(pair)
        assert key in tables.powering or key == "earthed-earthed"


def test_spectra_hold_all_of_the_power(tables):
    """Roots of squares of the shares; what lies above 20 kHz is missing."""
    for of in tables.spectra.values():
        for shape, shares in of.items():
            assert sum(share**2 for share in shares) == pytest.approx(1, abs=0.02), shape


@pytest.mark.parametrize(
    "row, said",
    [
        ({"values": ["1 V"]}, "powering.yaml: 'a' has no evidence of a known grade"),
        ({"evidence": "derived"}, "powering.yaml: 'a' gives no reason"),
        ({"evidence": "published", "reason": "x"}, "powering.yaml: 'a' is published and cites nothing"),
        (
            {"evidence": "from memory", "reason": "x"},
            "powering.yaml: 'a' is from memory and does not say what would confirm it",
        ),
        (
            {"evidence": "derived", "reason": "x", "volts": "1 Volt"},
            "powering.yaml: 'a': 'Volt' in '1 Volt' is not a unit; units are V, A, W, ohm, F, H, m, T, Hz, "
            "m2, dB, deg, ohm/m, F/m, H/m, dBu, dBV, %, with prefixes p n u m c k M G.",
        ),
    ],
)
def test_a_row_that_is_not_fit_is_refused(row, said):
    with pytest.raises(ValueError) as caught:
        _row("powering", "a", row)
    assert str(caught.value) == said


def test_tables_are_read_once():
    assert read_tables() is read_tables()


def test_a_ring_is_nine_times_one_pass(tables):
    """Impedance grows with the square of the turns [choke-pages]."""
    assert tables.chokes["ring"]["ohm"] == ferrite_turns(tables.chokes["clip-on"]["ohm"], 3)


def test_what_the_catalogue_has_is_there(tables, catalogue):
    """A row that names a cable or a lead of the catalogue names one that exists."""
    assert {row["catalogue"] for row in tables.cables.values() if "catalogue" in row} <= {
        lead.cable for lead in catalogue.leads.values()
    }
    assert {row["catalogue"] for row in tables.chokes.values() if "catalogue" in row} <= set(catalogue.leads)
