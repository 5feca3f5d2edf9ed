"""The published data and the classic scripts made from it."""

import json
import re

from generator.engine.mate import fits
from generator.site import data, mated

ROWS = [
    {"from": "mic", "through": ["lead"], "into": "desk", "verdict": "lossy", "findings": ["dull", "thin"], "number": None, "says": ""},
    {"from": "mic", "through": [], "into": "desk", "verdict": "safe", "findings": [], "number": None, "says": ""},
]


def values(script: bytes) -> dict:
    """What a script assigns to Ringfence, by name."""
    return {name: json.loads(text) for name, text in re.findall(r"^Ringfence\.(\w+) = (.*);$", script.decode(), re.MULTILINE)}


def test_verdicts_are_published_whole():
    files = data.files({"ports": {}}, [], {}, {}, ROWS)
    published = json.loads(files["data/v1/verdicts.json"])
    assert published["version"] == 1
    assert published["verdicts"][0] == {"from": "mic", "through": ["lead"], "into": "desk", "verdict": "lossy",
                                        "findings": ["dull", "thin"], "number": None}


def test_the_table_script_tells_the_same_rows():
    table = values(data.files({}, [], {}, {}, ROWS)["assets/js/table.js"])["table"]
    told = [(table["ids"][a], [table["ids"][x] for x in leads], table["ids"][b], table["verdicts"][v], [table["findings"][f] for f in found])
            for a, leads, b, v, found in table["rows"]]
    assert told == [(row["from"], row["through"], row["into"], row["verdict"], row["findings"]) for row in ROWS]


def test_no_text_can_end_the_script():
    script = data.files({"ports": {"x": {"name": "</script><b>"}}}, [], {}, {}, [])["assets/js/data.js"]
    assert b"</" not in script
    assert values(script)["data"]["ports"]["x"]["name"] == "</script><b>"


def test_published_catalogue_is_the_one_in_the_script(tree):
    published = json.loads(tree["data/v1/catalogue.json"])
    assert published.pop("version") == 1
    assert values(tree["assets/js/data.js"])["data"] == published


def test_matings_are_the_engines_and_seen_from_both_sides(catalogue):
    table = mated.table(catalogue)
    for one, others in table.items():
        connector, half = one.split("/")
        for other in table:
            family, partner = other.split("/")
            assert (other in others) == fits((catalogue.connectors[connector], half), (catalogue.connectors[family], partner))
        for other, ways in others.items():
            turned = [sorted([b, a] for a, b in way) for way in table[other][one]]
            assert sorted(sorted(way) for way in ways) == sorted(turned)


def test_two_equal_halves_meet_contact_by_contact(catalogue):
    for way in mated.table(catalogue)["phone-635-trs/jack"]["phone-635-trs/plug"]:
        assert way == [["tip", "tip"], ["ring", "ring"], ["sleeve", "sleeve"]]
