"""What is known from memory says so and says what would confirm it, in every kind of record, whether written
there or taken over by `same_as`."""

import re
from collections import Counter
from pathlib import Path

import pytest
import yaml

from generator.catalogue import default_directory, loader
from generator.catalogue.nodes import plain
from generator.catalogue.problems import Problems

ROOT = Path(__file__).parents[2]
KINDS = ("connectors", "assignments", "circuits", "cables", "ports", "leads")


def records(kind: str) -> dict[str, dict]:
    """id -> what its file says."""
    return {
        path.stem: plain(loader.read(path, path.name, Problems()))
        for path in sorted((default_directory() / kind).glob("*.yaml"))
    }


def told(id: str, key: str, among: dict[str, dict]) -> str | None:
    """What a record says for a key, or the record it is the same as."""
    record = among[id]
    return (
        record[key] if key in record else told(record["same_as"], key, among) if "same_as" in record else None
    )


def silent(among: dict[str, dict]) -> list[str]:
    """Ids of the records from memory whose note names nothing that would confirm them."""
    return [
        id
        for id in among
        if told(id, "evidence", among) == "from memory" and "confirm" not in (told(id, "note", among) or "")
    ]


@pytest.mark.parametrize("kind", KINDS)
def test_memory_says_what_would_confirm_it(kind):
    among = records(kind)
    assert among
    assert silent(among) == []


def test_a_silent_memory_is_found():
    among = {
        "a": {"evidence": "from memory", "note": "A meter would confirm it."},
        "b": {"same_as": "a"},
        "c": {"same_as": "a", "note": "Other."},
        "d": {"evidence": "from memory"},
        "e": {"evidence": "published"},
    }
    assert silent(among) == ["c", "d"]


@pytest.mark.parametrize("kind", KINDS)
def test_every_record_is_graded(kind):
    among = records(kind)
    assert [id for id in among if not told(id, "evidence", among)] == []


def test_most_assignments_stand_on_a_published_page(catalogue):
    graded = Counter(assignment.evidence.grade for assignment in catalogue.assignments.values())
    assert graded["standard"] + graded["published"] >= 0.75 * graded.total()


def cited() -> set[str]:
    """The ids that the catalogue, the tables, the rules, the lessons and the guides cite."""
    found: set[str] = set()
    for folder in ("pinouts", "generator", "site_src"):
        for path in sorted((ROOT / folder).rglob("*.yaml")):
            if path.name != "sources.yaml":
                found |= _cites(yaml.load(path.read_text("utf-8"), Loader=yaml.CBaseLoader))
        for path in sorted((ROOT / folder).rglob("*.j2")):
            found |= set(
                re.findall(
                    r"'([a-z0-9-]+)'", " ".join(re.findall(r"g\.known\(([^)]*)\)", path.read_text("utf-8")))
                )
            )
    return found


def _cites(node) -> set[str]:
    if isinstance(node, list):
        return set().union(*map(_cites, node))
    if not isinstance(node, dict):
        return set()
    own = node.get("cite", [])
    return _cites(list(node.values())) | {
        id for id in ([own] if isinstance(own, str) else own) if isinstance(id, str)
    }


def test_every_source_is_cited():
    found = cited()
    listed = yaml.load((default_directory() / "sources.yaml").read_text("utf-8"), Loader=yaml.CBaseLoader)
    assert len(listed) > 300
    assert [id for id in listed if id not in found] == []


def test_a_source_that_nothing_cites_is_found():
    assert _cites({"a": [{"cite": "one"}, {"b": {"cite": ["two", "three"]}}], "c": "four"}) == {
        "one",
        "two",
        "three",
    }
