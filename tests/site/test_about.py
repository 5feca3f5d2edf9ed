"""Coverage and state of the data: counted from the catalogue, and told on every page."""

import re
from dataclasses import replace
from pathlib import Path

import pytest

from generator.catalogue.published import as_data
from generator.catalogue.records import GRADES
from generator.site import about, stamp as stamps
from generator.site.coverage import coverage, deciding, grades, limit_evidence, links, unknown
from generator.site.guides import read
from generator.site.page import KINDS
from generator.site.stamp import checked, stamp

CONTESTED = read(Path(__file__).parents[2] / "site_src/guides/contested.yaml")


def row(start, through, target, verdict="safe", findings=()):
    return {
        "from": start,
        "through": list(through),
        "into": target,
        "verdict": verdict,
        "findings": list(findings),
    }


def test_every_record_is_counted_once(catalogue):
    counts = grades(catalogue)
    assert list(counts) == list(KINDS)
    for kind in KINDS:
        assert list(counts[kind]) == list(GRADES)
        assert sum(counts[kind].values()) == len(getattr(catalogue, kind))


def test_a_regraded_record_moves(catalogue):
    port = catalogue.ports["mic-dynamic-xlr"]
    other = replace(port, evidence=replace(port.evidence, grade="standard"))
    moved = replace(catalogue, ports={**catalogue.ports, port.id: other})
    assert grades(moved)["ports"]["standard"] == grades(catalogue)["ports"]["standard"] + (
        port.evidence.grade != "standard"
    )


def test_a_rating_nobody_knows_is_listed(catalogue):
    port = catalogue.ports["mixer-mic-in-p48-xlr"]
    limit = replace(port.network.limits[0], where="test part", settled=None)
    changed = replace(port, network=replace(port.network, limits=(limit,)))
    found = unknown(replace(catalogue, ports={port.id: changed}, leads={}))
    assert found["What the test part stands, settled"] == [changed]
    assert "What the test part stands, settled" not in unknown(catalogue)


def test_every_unknown_rating_of_the_catalogue_is_listed(catalogue):
    listed = {
        record.id for words, found in unknown(catalogue).items() if " stands" in words for record in found
    }
    assert listed == {
        record.id
        for record in (*catalogue.ports.values(), *catalogue.leads.values())
        if any(None in (limit.settled, limit.momentary) for limit in record.network.limits)
    }


def test_findings_are_counted_by_the_pairings_they_decide():
    rows = [
        row("a", (), "b", "lossy", ["dull", "thin"]),
        row("a", (), "c", "lossy", ["thin"]),
        row("a", (), "d"),
    ]
    assert list(deciding(rows).items()) == [("thin", 2), ("dull", 1)]


def test_ratings_are_counted_by_grade(catalogue):
    assert sum(coverage(catalogue, [])["limits"].values()) == len(list(limit_evidence(catalogue))) > 0


def test_the_page_shows_the_counts(catalogue, rows, tree):
    page = tree["coverage.md"].decode()
    assert f"{len(rows)} pairings" in page
    for kind in KINDS:
        assert f"<td>{len(getattr(catalogue, kind))}</td>" in page
    assert all(f'<th scope="row">{grade}</th>' in page for grade in GRADES)


@pytest.mark.parametrize("question", CONTESTED, ids=lambda question: question["asks"])
def test_a_contested_fact_names_at_least_two_sides_and_where_they_stand(catalogue, question):
    assert len(question["variants"]) >= 2 and question["ruling"].endswith(".")
    assert any(variant.get("records") for variant in question["variants"]) or question["ruling"].startswith(
        "It is in the catalogue"
    )
    for variant in question["variants"]:
        assert variant["grade"] in GRADES
        assert set(variant.get("cite", ())) <= set(catalogue.sources)
        assert variant.get("cite") or variant["grade"] in ("common practice", "derived")
        assert len(links(catalogue, variant.get("records", ()))) == len(variant.get("records", ()))


def test_the_date_is_the_newest_of_any_fact():
    data = {
        "a": {"evidence": {"checked": "2026-01-02"}},
        "b": [{"checked": "2026-03-01"}, {"checked": None}],
        "checked": "2025-12-31",
    }
    assert sorted(checked(data)) == ["2025-12-31", "2026-01-02", "2026-03-01"]
    assert stamp(data, []).date == "2026-03-01"
    assert stamp({}, []).date == "an unknown day"


def test_any_change_of_data_or_rules_shows_in_the_stamp(catalogue):
    data = as_data(catalogue)
    assert stamp(data, []) == stamp(as_data(catalogue), [])
    assert (
        len(
            {
                stamp(data, []).digest,
                stamp({**data, "ports": {}}, []).digest,
                stamp(data, [{"limit": 1}]).digest,
            }
        )
        == 3
    )


def test_a_copy_that_was_never_installed_says_so(monkeypatch):
    monkeypatch.setattr(stamps, "PACKAGE", "no-package-of-this-name")
    assert stamp({}, []).version == "not installed"


def test_every_page_tells_the_state_of_its_data(tree):
    told = {
        re.search(r"^stamp: (.*)$", content.decode(), re.MULTILINE)[1]
        for path, content in tree.items()
        if path.endswith(".md")
    }
    assert len(told) == 1 and re.fullmatch(
        r'"Data of \d{4}-\d\d-\d\d \([0-9a-f]{8}\) · program .+"', told.pop()
    )


def test_days_are_newest_first_and_nothing_is_left_out(catalogue):
    port = catalogue.ports["mic-dynamic-xlr"]
    undated = replace(port, evidence=replace(port.evidence, checked=None))
    found = about.days(replace(catalogue, ports={**catalogue.ports, port.id: undated}))
    assert list(found)[-1] == "never" and undated in found["never"]["ports"]
    assert list(found)[:-1] == sorted(list(found)[:-1], reverse=True)
    assert sum(len(group) for kinds in found.values() for group in kinds.values()) == sum(
        len(getattr(catalogue, kind)) for kind in KINDS
    )
