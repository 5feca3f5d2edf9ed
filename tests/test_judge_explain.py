"""`judge --explain`, `--finding` and `--schematic` as a terminal sees them."""

import json
import xml.etree.ElementTree as ET

from generator.__main__ import main

# one lead does, so what helps is found soon
ASKED = ["judge", "active-di-out-xlr", "--through", "xlr-f-to-xlr-m-phantom-supply", "camera-mic-in-p48-xlr"]
NOT_FITTING = ["judge", "camera-battery-out-xlr-4", "mixer-line-in-635"]


def test_explain_prints_the_working_after_the_verdict(capsys):
    assert main([*ASKED, "--explain"]) == 0
    said = capsys.readouterr().out
    assert (
        said.index("DANGEROUS")
        < said.index("WORKING  over-volts")
        < said.index("no more than 53 V is wanted")
    )


def test_explain_with_json_adds_the_working(capsys):
    assert main([*ASKED, "--explain", "--json"]) == 0
    working = json.loads(capsys.readouterr().out)["working"]
    assert working["finding"] == "over-volts" and working["equation"]["sum"] < 1e-9


def test_without_explain_json_is_as_before(capsys):
    assert main([*ASKED, "--json"]) == 0
    assert "working" not in json.loads(capsys.readouterr().out)


def test_a_chosen_finding_and_its_schematic(capsys, tmp_path):
    assert main([*ASKED, "--finding", "wait-for-capacitors", "--schematic", str(tmp_path / "it.svg")]) == 0
    assert "WORKING  wait-for-capacitors" in capsys.readouterr().out
    assert ET.parse(tmp_path / "it.svg").getroot().get("width") == "320"


def test_a_finding_that_was_not_made_is_bad_use(capsys):
    assert main([*ASKED, "--finding", "dull"]) == 2
    assert capsys.readouterr().err.startswith(
        "'dull' is not a finding of this connection; its findings: over-volts,"
    )


def test_what_does_not_fit_has_no_circuit(capsys, tmp_path):
    assert main([*NOT_FITTING, "--explain", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["working"] is None
    assert main([*NOT_FITTING, "--schematic", str(tmp_path / "it.svg")]) == 2
    assert (
        capsys.readouterr().err == "The halves do not go into each other: there is no circuit to work out.\n"
    )
