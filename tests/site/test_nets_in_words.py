"""The page's working calls nets what the drawn schematic calls them: the script against the
Python it is the twin of."""

import json
import shutil

import pytest
from front import run, scripts

from generator.drawing.nets import in_words
from generator.engine.explain import explain

pytestmark = pytest.mark.skipif(shutil.which("node") is None, reason="node not installed")

ASKED = (
    ("mic-dynamic-xlr", ("xlr-f-to-xlr-m-3m",), "mixer-mic-in-p48-xlr"),
    ("mic-dynamic-xlr", ("xlr-f-to-635-ts-3-to-1",), "mixer-mic-in-p48-635"),
    ("player-line-out-35", ("phone-35-trs-to-xlr-m-left-2-right-3",), "mixer-line-in-xlr"),
    ("mixer-line-out-xlr", ("two-xlr-f-to-xlr-m",), "mixer-line-in-xlr"),
    ("camcorder-av-out-35-trrs", ("phone-35-trs-to-35-trs",), "recorder-mic-in-35"),
)


def test_both_engines_of_words_agree(catalogue, tmp_path):
    workings = [explain(catalogue, *asked) for asked in ASKED]
    data = tmp_path / "data.json"
    data.write_text(json.dumps({"workings": [working.as_data() for working in workings]}))
    got = run("Ringfence.workings.map(check.netsInWords)", scripts("check/nets.js"), data)
    assert got == [json.loads(json.dumps(in_words(working).as_data())) for working in workings]
    assert (
        any(net["name"] == "ground" for one in got for net in one["nets"])
        and got[1]["nets"] != workings[1].as_data()["nets"]
    )
