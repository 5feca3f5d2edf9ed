"""Every way to write a bad file that the catalogue knows, each with the exact text its author gets to see."""

import re

import pytest

from generator.catalogue.lint import lint
from generator.catalogue.rules import RULES

from .bad_asked import ASKED, UNASKED
from .bad_converters import CONVERTERS
from .bad_light import LIGHT
from .bad_meanings import MEANINGS
from .bad_shapes import SHAPES

CASES = [*SHAPES, *UNASKED, *MEANINGS, *LIGHT, *CONVERTERS]


@pytest.mark.parametrize(("edits", "expected"), CASES)
def test_message(pinouts, replace, edits, expected):
    for edit in edits:
        replace(*edit)
    assert "\n".join(map(str, lint(pinouts))) == expected


def test_every_rule_has_a_bad_example():
    shown = {rule for param in CASES for rule in re.findall(r"error\[([a-z-]+)\]", param.values[1])}
    assert shown | {"no-catalogue", "not-a-file"} == set(RULES)  # those two are no matter of what a file says


def test_tiny_catalogue_has_no_fault(pinouts):
    assert lint(pinouts) == []


def test_every_number_that_decides_may_be_asked_for_or_say_why_not(pinouts, replace):
    """How long a rating holds more, a drive of 0 V and a resistor that is no way out may
    stand in their place."""
    for edit in ASKED:
        replace(*edit)
    replace("circuits/input.yaml", "momentary: unknown", "momentary: 100 V, seconds: 70 V")
    assert lint(pinouts) == []


def test_missing_directory_is_not_an_empty_catalogue(pinouts):
    assert (
        "\n".join(map(str, lint(pinouts.parent / "pinout")))
        == """\
pinout:1:1: error[no-catalogue]
    there is no catalogue here: not one YAML file."""
    )


def test_all_faults_of_all_files_sorted(pinouts, replace):
    replace("ports/desk-in.yaml", "earthed: maybe", "earthed: perhaps")
    replace("ports/desk-in.yaml", "half: female", "half: jack")
    replace("assignments/jack-balanced.yaml", "ring: cold", "rign: cold")
    replace("connectors/jack.yaml", "at: 12..13 mm", "at: 13..12 mm")
    found = [(p.path, p.line, p.rule) for p in lint(pinouts)]
    assert found == [
        ("pinouts/assignments/jack-balanced.yaml", 3, "unknown-contact"),
        ("pinouts/connectors/jack.yaml", 10, "bad-quantity"),
        ("pinouts/ports/desk-in.yaml", 4, "unknown-half"),
        ("pinouts/ports/desk-in.yaml", 8, "bad-choice"),
    ]


def test_a_path_outside_is_shown_as_given(pinouts, tmp_path, monkeypatch):
    """Clickable wherever the reader stands."""
    (tmp_path / "elsewhere").mkdir()
    monkeypatch.chdir(tmp_path / "elsewhere")
    (pinouts / "leads" / "nothing.yaml").write_text("")
    assert [p.path for p in lint(pinouts)] == [f"{pinouts.as_posix()}/leads/nothing.yaml"]
