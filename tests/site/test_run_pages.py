"""The page of a run, the worked runs, their curves and the data a phone computes with."""

import json
import re
from pathlib import Path
from xml.etree import ElementTree

import pytest

from generator import interference
from generator.interference.published import as_data
from generator.site import curves, runs
from generator.site.told_numbers import NUMBERS, told

FOLDER = Path(__file__).parents[2] / "site_src/runs"


@pytest.fixture(scope="module")
def tables(catalogue):
    return interference.with_ports(interference.tables(), catalogue)


@pytest.fixture(scope="module")
def worked(catalogue, tables):
    return runs.worked(catalogue, tables, FOLDER)


def test_every_worked_run_is_told(worked, tree):
    assert [one.id for one in worked] == sorted(path.stem for path in FOLDER.glob("*.yaml"))
    page = tree["runs.md"].decode()
    for one in worked:
        assert (
            f"{{ #{one.id} }}" in page
            and one.address.replace("&", "&amp;") in page
            and one.says.split(".")[0] in page
        )


def test_the_answers_the_page_was_written_for(worked):
    """What the trade expects of them."""
    said = {one.id: one.told.answer for one in worked}
    assert said["player-two-earths"].said == "in pauses" and said["player-two-earths"].dominant == "chassis"
    assert said["bell-wire"].said == "unusable" and said["bell-wire"].dominant == "electric"
    assert said["microphone-beside-flex"].worst == "inaudible"
    assert said["microphone-beside-feeder"].dominant == "induced"
    assert said["phone-on-the-boom"].radio[0].step == "expect it"


def test_where_nothing_is_heard_nothing_is_to_be_done(worked):
    quiet = next(one for one in worked if one.id == "microphone-beside-flex")
    assert quiet.cures == ()


def test_no_worked_run_offers_what_is_never_offered(worked, tree):
    for one in worked:
        assert not re.search(r"lift|open the screen|cut", " ".join(one.cures), re.IGNORECASE)
    page = tree["runs.md"].decode()
    assert (
        "Lifting the earth of a mains plug" in page
        and "That is for an electrician" not in page.split("Take care")[0]
    )


def test_pictures_say_what_they_show_and_have_ids_of_their_own(worked):
    ids = []
    for one in worked:
        for picture in (one.picture, one.bars):
            root = ElementTree.fromstring(picture)
            assert root.get("role") == "img" and root.findtext("desc")
            ids += [element.get("id") for element in root.iter() if element.get("id")]
    assert len(ids) == len(set(ids))
    first = next(one for one in worked if one.id == "player-two-earths")
    assert "the loop through both earths is closed" in first.picture and "rf-marked" in first.picture


def test_every_curve_stands_as_a_table_too(tables):
    for shown in curves.all(tables):
        ElementTree.fromstring(shown.picture)
        assert len(shown.rows) >= 3 and all(len(row) == len(shown.head) for row in shown.rows)
    treble = curves.treble("player", "x", 1e3, 20e3, tables)
    assert treble.rows[0][1] == "−0.0" or float(treble.rows[0][1].replace("−", "-")) > -0.1


def test_the_phone_computes_with_the_same_tables(tree, tables):
    script = tree["assets/js/runs.js"].decode()
    text = json.loads(re.search(r"JSON\.parse\((.*)\);\n", script)[1])
    assert json.loads(text) == json.loads(json.dumps(as_data(tables)))


def test_the_page_works_without_scripts_as_far_as_it_can(tree):
    page = tree["run.md"].decode()
    assert "they are not running" in page and 'href="../runs/"' in page and 'href="../guides/hum/"' in page
    for name in ("interference", "runs", "ui", "hum", "run"):
        assert f"assets/js/{name}.js" in page and f"assets/js/{name}.js" in tree


def test_sources_of_the_tables_are_in_the_bibliography(tree):
    page = tree["sources.md"].decode()
    assert all(f'id="{id}"' in page or f"#{id}" in page for id in interference.references())


@pytest.mark.parametrize("name", NUMBERS)
def test_a_number_of_the_guides_is_a_number(name):
    assert re.fullmatch(r"−?\d+(\.\d+)?( (dB|µV|nV|pV|mV|V|m|cm|Ω|%))?", told(name))


def test_numbers_the_guides_lean_on():
    """Held to what the fact sheet works out."""
    assert told("opened") == "82 dB" and told("copper") == "0.00004 dB" and told("lay-1") == "−27 dB"
    assert told("quad-current") == "0 dB" and told("bond") == "17 dB" and told("halves-88") == "4.7"
