"""--own on the command line: a file, a folder, and what is wrong with one."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
FILE = (
    "name: My microphone\n"
    "same_as: mic-electret-battery-xlr\n"
    "circuit:\n"
    "  main:\n"
    "    stands: {value: 63 V, evidence: your manual}\n"
)


def ran(*arguments):
    return subprocess.run(
        [sys.executable, "-m", "generator", *arguments], cwd=ROOT, capture_output=True, text=True, timeout=600
    )


@pytest.fixture
def own(tmp_path):
    (tmp_path / "my-microphone.yaml").write_text(FILE, encoding="utf-8")
    return tmp_path


def test_judged_by_it_and_said_so(own):
    done = ran(
        "judge",
        "my-microphone",
        "--own",
        str(own / "my-microphone.yaml"),
        "--through",
        "xlr-f-to-xlr-m-3m",
        "mixer-mic-in-p48-xlr",
    )
    assert done.returncode == 0, done.stderr
    assert done.stdout.splitlines()[:2] == [
        "SAFE, BY YOUR NUMBER  my-microphone -> xlr-f-to-xlr-m-3m -> mixer-mic-in-p48-xlr",
        "  Most direct volts this output takes from outside, either way round: 63 V [your manual]",
    ]


def test_a_folder_and_json(own):
    done = ran(
        "judge",
        "my-microphone",
        "--own",
        str(own),
        "--through",
        "xlr-f-to-xlr-m-3m",
        "mixer-mic-in-p48-xlr",
        "--json",
    )
    told = json.loads(done.stdout)
    assert (told["verdict"], told["own"]) == (
        "safe",
        [{"asks": "Most direct volts this output takes from outside, either way round", "value": "63 V"}],
    )


def test_a_faulty_file_is_named(own):
    (own / "my-microphone.yaml").write_text(FILE.replace("stands", "stand"), encoding="utf-8")
    done = ran("lint", "--own", str(own))
    assert done.returncode == 1
    assert "error[unknown-parameter]" in done.stdout and "Did you mean 'stands'?" in done.stdout


def test_an_id_of_the_catalogue_is_not_taken_over(own):
    (own / "mixer-line-out-xlr.yaml").write_text(FILE, encoding="utf-8")
    done = ran("lint", "--own", str(own))
    assert done.returncode == 1
    assert "'mixer-line-out-xlr' is taken; give the file another name." in done.stdout


def test_a_file_that_is_not_there(own):
    done = ran("judge", "my-microphone", "--own", str(own / "gone.yaml"), "mixer-mic-in-p48-xlr")
    assert (done.returncode, "error[not-a-file]" in done.stderr) == (1, True)


def test_the_ledger_takes_none(own):
    assert ran("ledger", "--check", "--own", str(own)).returncode == 2


LEAD = "name: My lead\nsame_as: xlr-f-to-xlr-m-3m\nlength: 10 m\n"


def test_a_lead_may_be_as_long_as_leads_are(own):
    """Whatever its folder is called: what it is, its file says. Of its look-alikes none can say so of it."""
    (own / "my-lead.yaml").write_text(LEAD, encoding="utf-8")
    done = ran("lint", "--own", str(own))
    assert done.returncode == 0, done.stdout
