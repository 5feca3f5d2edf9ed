"""Laws of the trade that every row of the ledger keeps, read from the committed text and the records alone:
nothing here is judged."""

import pytest

from generator.catalogue import default_directory

SAFE, OPEN = "safe", {"open-path"}


@pytest.fixture(scope="module")
def lines():
    """Every line of the ledger: (outlet, leads, inlet, verdict, ids of findings)."""
    found = []
    for path in sorted((default_directory() / "verdicts").glob("*.txt")):
        for line in path.read_text("utf-8").splitlines():
            if not line.startswith("#"):
                lead, inlet, verdict, findings, *_ = line.split("\t")
                found.append(
                    (path.stem, lead, inlet, verdict, set(findings.replace("|", "").split()) - {"-"})
                )
    return found


def kinds(parts):
    return {part.kind for part in parts}


def test_a_loudspeaker_output_into_anything_else_is_dangerous(catalogue, lines):
    """common practice: tens of volts and amps from a few ohms belong into loudspeakers only. Where no wire
    leads on, nothing can happen."""
    outlets = {port.id for port in catalogue.ports.values() if "loudspeaker" in kinds(port.sources)}
    others = {port.id for port in catalogue.ports.values() if "loudspeaker" not in kinds(port.listeners)}
    asked = [line for line in lines if line[0] in outlets and line[2] in others]
    assert len(asked) > 100
    assert not [
        line for line in asked if line[3] != "dangerous" and not (line[3] == "no signal" and line[4] & OPEN)
    ]


def test_what_is_dangerous_says_what_of(lines):
    assert not [line for line in lines if line[3] == "dangerous" and not line[4]]


def test_what_is_safe_lacks_nothing(lines):
    """Safe may leave a device unpowered or short of power in a setting, where another powers it, and nothing
    else."""
    assert not [
        line
        for line in lines
        if line[3] == SAFE
        and line[4]
        - {"not-powered", "barely-powered", "part-unpowered", "talkback-unpowered", "switched-off"}
    ]
