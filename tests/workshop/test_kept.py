"""What faults sound like is kept as text: it is read back as written, and is what the engine says today."""

import pytest

from generator.catalogue import default_directory
from generator.workshop import kept

LEADS = ("xlr-f-to-xlr-m-3m", "xlr-f-to-xlr-m-pad-20-db", "xlr-f-to-35-trs-both-3-to-1")


@pytest.mark.parametrize("id", LEADS)
def test_what_is_kept_is_what_is_worked_out(catalogue, id):
    """For leads of three kinds; all would take half an hour. If it fails: python -m generator symptoms"""
    [(_, found)] = kept.worked_out(catalogue, [id])
    assert kept.read(default_directory())[id] == found


def test_only_leads_there_are(catalogue):
    assert set(kept.read(default_directory())) <= set(catalogue.leads)


def test_there_and_back(tmp_path):
    told = {"a": {"hum": ["open:a.2", "open:b.2"]}, "b": {"silent": ["short:a.1-a.2"]}}
    kept.write(tmp_path, told)
    assert kept.read(tmp_path) == told
    assert kept.read(tmp_path / "nowhere") == {}


def test_several_leads_are_worked_out_as_each_alone(catalogue):
    ids = ["battery-plate-stud-to-battery-tap", "battery-plate-wedge-to-battery-tap"]
    assert list(kept.worked_out(catalogue, ids)) == [
        one for id in ids for one in kept.worked_out(catalogue, [id])
    ]
