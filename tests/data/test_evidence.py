"""What is known from memory says so and says what would confirm it, in every kind of record, whether written there or taken over by `same_as`."""

import re
from collections import Counter

import pytest

from generator.catalogue import default_directory, loader
from generator.catalogue.nodes import plain
from generator.catalogue.problems import Problems

KINDS = ("connectors", "assignments", "circuits", "cables", "ports", "leads")


def records(kind: str) -> dict[str, dict]:
    """id -> what its file says."""
    return {path.stem: plain(loader.read(path, path.name, Problems())) for path in sorted((default_directory() / kind).glob("*.yaml"))}


def told(id: str, key: str, among: dict[str, dict]) -> str | None:
    """What a record says for a key, or the record it is the same as."""
    record = among[id]
    return record[key] if key in record else told(record["same_as"], key, among) if "same_as" in record else None


def silent(among: dict[str, dict]) -> list[str]:
    """Ids of the records from memory whose note names nothing that would confirm them."""
    return [id for id in among if told(id, "evidence", among) == "from memory" and "confirm" not in (told(id, "note", among) or "")]


@pytest.mark.parametrize("kind", KINDS)
def test_memory_says_what_would_confirm_it(kind):
    among = records(kind)
    assert among
    assert silent(among) == []


def test_a_silent_memory_is_found():
    among = {
        "a": {"evidence": "from memory", "note": "A meter would confirm it."}, "b": {"same_as": "a"}, "c": {"same_as": "a", "note": "Other."},
        "d": {"evidence": "from memory"}, "e": {"evidence": "published"},
    }
    assert silent(among) == ["c", "d"]


@pytest.mark.parametrize("kind", KINDS)
def test_every_record_is_graded(kind):
    among = records(kind)
    assert [id for id in among if not told(id, "evidence", among)] == []


def test_most_assignments_stand_on_a_published_page(catalogue):
    graded = Counter(assignment.evidence.grade for assignment in catalogue.assignments.values())
    assert graded["standard"] + graded["published"] >= 0.6 * graded.total()


def test_a_port_does_not_doubt_an_order_its_assignment_has_from_a_page(catalogue):
    # One page must not say "published" and its neighbour "from memory" of the same contacts.
    doubted = [
        port.id for port in catalogue.ports.values()
        if catalogue.assignments[port.assignment].evidence.grade in ("standard", "published")
        and re.search(r"\border\b[^.;:]*\bfrom memory\b", port.evidence.note or "")
    ]
    assert doubted == []
