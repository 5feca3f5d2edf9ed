"""Every row of the workshop's tables says how it is known: published names its source, memory what would
confirm it."""

import pytest

from generator.catalogue import GRADES
from generator.engine.rulebook import rules
from generator.workshop.tables import FOLDER, table

ROWS = [(path.stem, key) for path in sorted(FOLDER.glob("*.yaml")) for key in table(path.stem)]


@pytest.mark.parametrize("name, key", ROWS)
def test_a_row_is_known_somehow(catalogue, name, key):
    row = table(name)[key]
    assert row["evidence"] in GRADES
    if row["evidence"] in ("published", "standard"):
        assert row["cite"] and set(row["cite"]) <= set(catalogue.sources)
    if row["evidence"] == "from memory":
        assert "would confirm" in row["note"]


def test_there_are_rows():
    assert len(ROWS) > 20


def test_what_the_rules_find_has_a_sound():
    """Whatever a fault can bring about is some symptom; what hangs on the devices alone is none, nor what the
    good lead does too, for the parts that are in it."""
    devices = {"other-kind", "level-not-known", "switched-off", "timecode-as-sound"}
    parts = {"not-for-data", "coil-before-data", "coil-for-data", "contact-shut"}
    found = {rule.id for rule in rules() if rule.severity in ("dangerous", "no signal", "lossy")}
    heard = {id for row in table("symptoms").values() for id in row.get("findings", ())}
    assert found - devices - parts <= heard <= {rule.id for rule in rules()}
