"""The catalogue as plain data."""

import json

from generator.catalogue import load
from generator.catalogue.published import as_data


def test_plain_and_repeatable(pinouts):
    data = as_data(load(pinouts))
    assert json.loads(json.dumps(data, allow_nan=False)) == data
    assert json.dumps(data) == json.dumps(as_data(load(pinouts)))


def test_every_record_has_every_field(pinouts):
    data = as_data(load(pinouts))
    assert list(data) == [
        "connectors",
        "assignments",
        "ports",
        "leads",
        "sources",
        "retired",
        "questions",
        "converters",
        "feeding",
        "local",
    ]
    assert list(data["ports"]) == ["desk-in", "player-out"]
    end = data["leads"]["block"]["ends"]["a"]
    assert end == {"id": "a", "connector": "jack", "half": "plug", "label": "jack plug", "usual": None}
    assert data["connectors"]["jack"]["halves"]["plug"]["segments"]["tip"] == [0.0, 9.0]
    assert data["retired"]["old-leads"] == ["straight", "crossed"]
