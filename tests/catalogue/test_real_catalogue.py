"""The real `pinouts/`: no faults, and schemas that are current and accept every file."""

import jsonschema
import pytest

from generator.catalogue import default_directory, loader
from generator.catalogue.kinds import FOLDERS, KINDS
from generator.catalogue.lint import lint
from generator.catalogue.nodes import plain
from generator.catalogue.problems import Problems
from generator.catalogue.published import as_data
from generator.catalogue.schema import as_text, json_schema

PINOUTS = default_directory()
FILES = {
    kind: sorted((PINOUTS / kind).glob("*.yaml")) if kind in FOLDERS else [PINOUTS / f"{kind}.yaml"]
    for kind in KINDS
}


def test_no_faults():
    assert "\n".join(map(str, lint(PINOUTS))) == ""


@pytest.mark.parametrize("kind", KINDS)
def test_committed_schema_is_current(kind):
    assert (PINOUTS / "schema" / f"{kind}.json").read_text("utf-8") == as_text(kind), (
        "run write_schemas(pinouts/schema)"
    )


@pytest.mark.parametrize("kind", KINDS)
def test_schema_accepts_every_file(kind):
    validator = jsonschema.Draft202012Validator(json_schema(kind))
    assert FILES[kind]
    for path in FILES[kind]:
        node = loader.read(path, path.name, Problems())
        assert [
            (path.name, error.json_path, error.message) for error in validator.iter_errors(plain(node))
        ] == []


def test_every_record_is_built(catalogue):
    for kind in ("connectors", "assignments", "ports", "leads"):
        assert list(getattr(catalogue, kind)) == sorted(path.stem for path in FILES[kind])


def test_every_part_of_a_network_is_in_the_published_data(catalogue):
    data = as_data(catalogue)
    for kind in ("ports", "leads"):
        for id, record in getattr(catalogue, kind).items():
            assert [part["id"] for part in data[kind][id]["network"]["parts"]] == [
                part.id for part in record.network.parts
            ]
            assert len({part.id for part in record.network.parts}) == len(record.network.parts), (
                f"ids of parts in {id}"
            )
