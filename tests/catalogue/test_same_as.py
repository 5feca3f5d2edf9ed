"""`same_as` fills a record from another."""

import pytest

from generator.catalogue import load
from generator.catalogue.lint import lint


def test_own_keys_win_and_maps_merge_one_level(pinouts):
    lead = load(pinouts).leads["crossed"]
    assert lead.name == "Jack to round, crossed"
    assert {join.id: join.nodes for join in lead.joins} == {
        "hot": ("a.tip", "b.3"),
        "cold": ("a.ring", "b.2"),
        "screen": ("a.sleeve", "b.1"),
    }
    assert lead.length == 3


def test_chains(pinouts, replace):
    replace("ports/second.yaml", "", "name: Second\nsame_as: desk-in\n")
    replace("ports/third.yaml", "", "name: Third\nsame_as: second\nearthed: no\n")
    port = load(pinouts).ports["third"]
    assert (port.name, port.device, port.earthed) == ("Third", "desk", "no")


def test_a_new_grade_does_not_inherit_the_old_source(pinouts, replace):
    replace("connectors/other.yaml", "", "name: Other\nsame_as: round\nevidence: from memory\n")
    known = load(pinouts).connectors["other"].evidence
    assert (known.grade, known.cite, known.checked) == ("from memory", (), None)


def test_a_fault_of_the_base_is_told_once(pinouts, replace):
    replace("ports/second.yaml", "", "name: Second\nsame_as: desk-in\n")
    replace("ports/third.yaml", "", "name: Third\nsame_as: desk-in\n")
    replace("ports/desk-in.yaml", "assignment: round-balanced\n", "")
    replace("ports/desk-in.yaml", "earthed: maybe", "earthed: perhaps")
    assert [(p.path, p.line, p.rule) for p in lint(pinouts)] == [
        ("pinouts/ports/desk-in.yaml", 1, "missing-key"),
        ("pinouts/ports/desk-in.yaml", 7, "bad-choice"),
    ]


@pytest.mark.parametrize("id", ["second", "third"])
def test_a_cycle_is_told_once_and_nothing_of_who_leads_into_it(pinouts, replace, id):
    replace("ports/second.yaml", "", "name: Second\nsame_as: third\n")
    replace("ports/third.yaml", "", "name: Third\nsame_as: second\n")
    replace("ports/outside.yaml", "", f"name: Outside\nsame_as: {id}\n")
    assert "\n".join(map(str, lint(pinouts))) == (
        "pinouts/ports/second.yaml:2:10: error[same-as-cycle]\n"
        "    `same_as` runs in a circle: second -> third -> second."
    )


def test_a_record_cannot_be_the_same_as_itself(pinouts, replace):
    replace("ports/second.yaml", "", "name: Second\nsame_as: second\n")
    assert [p.message for p in lint(pinouts)] == ["`same_as` runs in a circle: second -> second."]


@pytest.mark.parametrize("value", ["", "[desk-in]"])
def test_an_unreadable_base_is_one_fault(pinouts, replace, value):
    replace("ports/second.yaml", "", f"name: Second\nsame_as: {value}\n")
    assert [(p.line, p.column) for p in lint(pinouts)] == [(2, 9 if not value else 10)]


def test_a_base_that_cannot_be_read_is_told_in_its_own_file_only(pinouts, replace):
    replace("ports/second.yaml", "", "name: Second\nsame_as: desk-in\n")
    (pinouts / "ports/desk-in.yaml").write_text("name: [\n")
    assert [(p.path, p.rule) for p in lint(pinouts)] == [("pinouts/ports/desk-in.yaml", "syntax")]


def test_instances_of_a_port(pinouts, replace):
    replace(
        "assignments/jack-stereo.yaml",
        "",
        "name: S\n"
        "connector: jack\n"
        "carries: {tip: left, ring: right, sleeve: common}\n"
        "evidence: common practice\n",
    )
    replace(
        "ports/stereo.yaml",
        "",
        "name: Stereo\n"
        "same_as: player-out\n"
        "assignment: jack-stereo\n"
        "circuit:\n"
        "  main: {use: output, roles: {hot: left, cold: common}}\n"
        "  right: {same_as: main, roles: {hot: right}}\n",
    )
    port = load(pinouts).ports["stereo"]
    assert [(s.id, s.channel, s.output) for s in port.sources] == [
        ("main.main", "main", ("left", "common")),
        ("right.main", "right", ("right", "common")),
    ]
