"""One record for every fault, printed so that an editor can jump to it."""

import pytest

from generator.catalogue import CatalogueError, load
from generator.catalogue.nodes import Place
from generator.catalogue.problems import Problems, did_you_mean, not_one_of


def test_printed_form():
    problems = Problems()
    problems.add(Place("a/b.yaml", 6, 3), "unknown-contact", "'x' is not a contact.", Place("a/c.yaml", 4, 1))
    assert (
        str(problems.sorted()[0])
        == "a/b.yaml:6:3: error[unknown-contact]\n    'x' is not a contact.\n    defined at a/c.yaml:4"
    )


def test_sorted_by_place_and_each_once():
    problems = Problems()
    for path, line in (("b", 1), ("a", 10), ("a", 9), ("a", 10)):
        problems.add(Place(path, line), "syntax", "no")
    assert [(p.path, p.line) for p in problems.sorted()] == [("a", 9), ("a", 10), ("b", 1)]


def test_a_rule_must_be_known():
    with pytest.raises(KeyError):
        Problems().add(Place("a"), "no-such-rule", "no")


def test_did_you_mean():
    assert did_you_mean("rign", ["tip", "ring"]) == " Did you mean 'ring'?"
    assert did_you_mean("xyzzy", ["tip", "ring"]) == ""
    assert not_one_of("x", "a contact of 'y'", []) == "'x' is not a contact of 'y'; it has none."


def test_load_raises_every_fault(pinouts, replace):
    replace("ports/desk-in.yaml", "earthed: maybe", "earthed: perhaps")
    replace("cables/pair.yaml", "core: 80 mohm/m", "core: 0 ohm/m")
    with pytest.raises(CatalogueError) as error:
        load(pinouts)
    assert [p.rule for p in error.value.problems] == ["non-positive", "bad-choice"]
    assert str(error.value) == "\n".join(map(str, error.value.problems))
