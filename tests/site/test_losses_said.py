"""How much a loss is said to matter, beside a way and in the first sentences of an answer."""

import json

import pytest
from front import run, scripts

from generator.engine.tables import tables


@pytest.fixture(scope="module")
def given(tmp_path_factory):
    file = tmp_path_factory.mktemp("losses") / "given.json"
    file.write_text(json.dumps(tables()))
    return file


@pytest.mark.parametrize(
    "findings, matters",
    [
        (["balance lost"], "harmless"),
        (["starved"], "audible"),
        (
            ["starved", "unbalanced"],
            "audible",
        ),  # a lavalier on a phone: short of supply, and no balance to lose
        (["starved", "unbalanced", "dull", "thin"], "audible"),  # little things do not add up to a ruin
        (["barely powered"], "may fail"),
        (["barely powered", "balance lost"], "audible"),
        (["not for data"], "may fail"),
        (["one side only"], "ruins it"),
        (["too hot"], "ruins it"),
        (["balance lost", "cancels in mono"], "ruins it"),
    ],
)
def test_what_is_lost_is_said_as_it_is_heard(given, findings, matters):
    said = run(
        f"Ringfence.ways.means({json.dumps({'verdict': 'lossy', 'offered': False, 'findings': findings})})",
        scripts("ways", "engine"),
        given,
    )
    assert said.startswith("Works, but: ") and said.endswith(f"({matters})")
