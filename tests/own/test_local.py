"""A port out of somebody's own file: without its numbers it is its class, where it has one."""

import json
from types import SimpleNamespace

import pytest
from front import run, scripts

from generator.site.build import SOURCE
from generator.site.data import _classes
from generator.site.templates import Templates

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


TABLE = {
    "ids": ["mine", "desk", "lead", "class", "my-lead"],
    "verdicts": ["safe", "lossy", "no signal", "dangerous", "does not fit"],
    "pairs": [0, 1, 1, 3, 1, 2],
    "ways": [2, 0, 2, 0, 4, 1],
    "told": [[0, -1], [1, -1]],
    "offers": [],
    "findings": [],
}


@pytest.mark.parametrize(
    "local, marked",
    [
        (["mine"], {"mine": [True], "class": [False, False]}),
        (["my-lead"], {"mine": [False], "class": [False, True]}),
        ([], {"mine": [False], "class": [False, False]}),
    ],
)
def test_a_row_of_the_table_says_that_it_rests_on_a_file_of_ones_own(tmp_path, local, marked):
    """Such a verdict never has the mark of the catalogue: of two ends, or of the lead between them."""
    file = tmp_path / "data.json"
    file.write_text(json.dumps({"data": {"local": local}, "table": TABLE}))
    said = run(
        "['mine', 'class'].map((from) => [from, ui.pair(from, 'desk').rows.map(({ own }) => Boolean(own)), "
        "Boolean(ui.pair(from, 'desk').own)])",
        scripts("ui"),
        file,
    )
    assert {start: rows for start, rows, _ in said} == marked
    assert {start: best for start, _, best in said} == {start: rows[0] for start, rows in marked.items()}


@pytest.mark.parametrize(
    "local, verdict, tagged",
    [
        (("mine",), "safe", True),
        (("lead",), "lossy", True),
        (("desk",), "no signal", True),
        (("mine",), "dangerous", False),
        (("other",), "safe", False),
        ((), "safe", False),
    ],
)
def test_a_row_on_a_page_says_so_too(local, verdict, tagged):
    """In the lists of every record's page; a danger keeps the mark of danger."""
    page = SimpleNamespace(catalogue=SimpleNamespace(local=local))
    templates = Templates([SOURCE / "templates"], "", SimpleNamespace(link=str), None)
    parts = templates._env.get_template("_parts.j2").make_module({"page": page})
    shown = parts.ended({"from": "mine", "through": ["lead"], "into": "desk", "verdict": verdict})
    assert (f"{verdict}, by yours" in shown) == tagged
    assert ("rf-mark" in shown) != tagged
