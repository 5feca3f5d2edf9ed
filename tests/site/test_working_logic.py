"""The working shown on the check page is the working of the engine in Python: the same case, nets,
volts, currents and number.

Both engines eliminate in double precision, in a different order. Where two cases are equally bad to the last
bits (a path that carries nothing at all, two channels alike), each may show the other one; such connections
are not asked about here.
"""

import json
import shutil

import pytest
from front import run, scripts
from workings import ASKED

from generator.catalogue.published import as_data
from generator.engine.explain import explain
from generator.engine.rulebook import rules
from generator.engine.tables import tables

pytestmark = pytest.mark.skipif(shutil.which("node") is None, reason="node not installed")

RELATIVE, FLOOR = 1e-6, 1e-9
# What follows from what devices and leads are, whatever the circuit says
TOLD_BY_KIND = {
    "kinds-apart",
    "unheard",
    "source-off",
    "unknown-level",
    "slow-lead",
    "slow-parts",
    "fast-coil",
    "contact-shut",
    "bare-lead",
    "amplifier-into",
    "amplifier-through",
    "timecode-as-sound",
}


@pytest.fixture(scope="module")
def shown(catalogue, tmp_path_factory):
    """What the browser's engine shows, one working for each connection asked about."""
    data = tmp_path_factory.mktemp("working") / "given.json"
    data.write_text(json.dumps({"data": as_data(catalogue), **tables()}))
    asked = json.dumps(ASKED)
    found = run(
        f"{asked}.map(([from, through, into, id]) => Ringfence.engine.explain(Ringfence.data, "
        "Ringfence.rulebook, {from, through, into}, id || null))",
        scripts("engine"),
        data,
    )
    assert len(found) == len(ASKED)
    return found


def differences(own, other, where=""):
    """Every field in which two workings differ, in words."""
    if isinstance(own, dict) and isinstance(other, dict):
        for key in sorted(own.keys() | other.keys()):
            yield from differences(own.get(key, "nothing"), other.get(key, "nothing"), f"{where}.{key}")
    elif isinstance(own, list) and isinstance(other, list) and len(own) == len(other):
        for i, (one, two) in enumerate(zip(own, other)):
            yield from differences(one, two, f"{where}[{i}]")
    elif isinstance(own, float) and isinstance(other, (int, float)) and not isinstance(other, bool):
        if not abs(own - other) <= RELATIVE * max(abs(own), abs(other)) + FLOOR:
            yield f"{where}: Python has {own!r}, the browser {other!r}"
    elif own != other:
        yield f"{where}: Python has {own!r}, the browser {other!r}"


@pytest.mark.parametrize(
    "number", range(len(ASKED)), ids=[f"{finding or 'arrives'}-{i}" for i, (*_, finding) in enumerate(ASKED)]
)
def test_the_browser_shows_the_working_of_python(catalogue, shown, number):
    start, through, target, finding = ASKED[number]
    own = json.loads(json.dumps(explain(catalogue, start, through, target, finding or None).as_data()))
    assert list(differences(own, shown[number])) == []


def test_every_finding_a_circuit_decides_is_asked_about():
    decided = {
        rule.id
        for rule in rules()
        if rule.quantity not in TOLD_BY_KIND
        and rule.severity != "figure"
        and rule.only.get("cause") != "nothing"
    }
    assert decided - {finding for *_, finding in ASKED} == set()


def test_a_difference_is_seen():
    assert list(differences({"volts": 1.0, "name": "hot"}, {"volts": 1.00001, "name": "cold"})) == [
        ".name: Python has 'hot', the browser 'cold'",
        ".volts: Python has 1.0, the browser 1.00001",
    ]
