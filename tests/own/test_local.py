"""A port out of somebody's own file: without its numbers it is its class, where it has one."""

import json

import pytest
from front import run, scripts

from generator.site.data import _classes

PORTS = {
    "class": {"same_as": None, "connector": "xlr-3", "half": "male"},
    "mine": {"same_as": "class", "connector": "xlr-3", "half": "male"},
    "replugged": {"same_as": "class", "connector": "mini-xlr-3", "half": "male"},
    "alone": {"same_as": None, "connector": "xlr-3", "half": "male"},
}


def test_a_class_has_the_same_plug():
    local = ["mine", "replugged", "alone", "a-lead"]
    assert _classes({"ports": PORTS, "local": local}) == {"mine": "class"}


@pytest.mark.parametrize(
    "asked, told",
    [
        (("mine", "desk"), ["class", "desk"]),
        (("class", "desk"), ["class", "desk"]),
        (("desk", "mine"), ["desk", "class"]),
        (("alone", "desk"), None),
    ],
)
def test_without_its_numbers_it_is_its_class(tmp_path, asked, told):
    file = tmp_path / "data.json"
    file.write_text(
        json.dumps({"data": {"local": ["mine", "alone"]}, "manual": {"classes": {"mine": "class"}}})
    )
    question = json.dumps({"from": asked[0], "through": [], "into": asked[1]})
    found = run(
        f"(Ringfence.check.judge = ({{ from, into }}) => [from, into], Ringfence.own.alone({question}))",
        scripts("own/head.js", "check/judged.js"),
        file,
    )
    assert found == (told or {})
