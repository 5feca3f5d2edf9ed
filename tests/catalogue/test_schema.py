"""The editor's schema comes from the declaration the checker uses, so that they cannot part."""

import jsonschema
import pytest
import yaml

from generator.catalogue.kinds import KINDS
from generator.catalogue.schema import json_schema, write_schemas

from . import tiny


def validator(kind):
    return jsonschema.Draft202012Validator(json_schema(kind))


@pytest.mark.parametrize("kind", KINDS)
def test_is_a_schema(kind):
    jsonschema.Draft202012Validator.check_schema(json_schema(kind))


@pytest.mark.parametrize("name", tiny.FILES)
@pytest.mark.parametrize("loader", [yaml.BaseLoader, yaml.SafeLoader])
def test_accepts_the_tiny_catalogue(name, loader):
    """Read as text, as we do, and with the types an editor sees."""
    data = yaml.load(tiny.FILES[name], Loader=loader)
    kind = name.partition("/")[0].removesuffix(".yaml")
    data = (
        yaml.load(yaml.dump(_text_keys(data)), Loader=yaml.BaseLoader)
        if loader is yaml.BaseLoader
        else _text_keys(data)
    )
    assert list(validator(kind).iter_errors(data)) == []


def _text_keys(data):
    """JSON has text keys only, and dates are text."""
    if isinstance(data, dict):
        return {str(key): _text_keys(value) for key, value in data.items()}
    if isinstance(data, list):
        return [_text_keys(item) for item in data]
    return data if isinstance(data, (str, int, float, bool, type(None))) else str(data)


@pytest.mark.parametrize(
    ("name", "old", "new"),
    [
        ("assignments/jack-balanced.yaml", "used_for:", "use_for:"),
        ("assignments/jack-balanced.yaml", "connector: jack\n", ""),
        ("connectors/jack.yaml", "shape: concentric", "shape: square"),
        ("connectors/round.yaml", "2026-11-25", "yesterday"),
        ("circuits/input.yaml", "{resistor: 2 kohm, between", "{between"),
        ("circuits/input.yaml", "between: [hot, in-hot]", "between: [hot]"),
        ("circuits/input.yaml", "volts: 63 V, momentary", "volts: 63 V, amps: 1 A, momentary"),
        ("ports/desk-in.yaml", "device: desk", "device: [desk]"),
    ],
)
def test_refuses(name, old, new):
    text = tiny.FILES[name].replace(old, new)
    assert list(
        validator(name.partition("/")[0]).iter_errors(_text_keys(yaml.load(text, Loader=yaml.BaseLoader)))
    )


def test_same_as_stands_for_what_is_required():
    assert validator("leads").is_valid({"same_as": "straight", "name": "x"})
    assert not validator("leads").is_valid({"name": "x"})


def test_help_stands_in_the_schema():
    assert json_schema("ports")["properties"]["half"]["description"] == "Which half is on the device."


def test_written_files(tmp_path):
    write_schemas(tmp_path / "schema")
    assert {path.stem for path in (tmp_path / "schema").iterdir()} == set(KINDS)
