"""A small bag and a small table, for the bag's scripts run by node."""

import json

from front import STORAGE, run, scripts

from generator.catalogue.published import as_data
from generator.site import mated
from generator.site.data import table

LOADED = scripts(
    "ui/dom.js",
    "ui/words.js",
    "ui/catalogue.js",
    "ui/table.js",
    "ui/fits.js",
    "ui/slices.js",
    "engine/route.js",
    "ui/effort.js",
    "ui/bag.js",
    "ui/editions.js",
    "ui/own.js",
    "judging/kinds.js",
    "judging/ask.js",
    "check/numbers.js",
    "check/judged.js",
    "check/bagged.js",
    "bag/codes.js",
    "bag/exchange.js",
    "bag/chains.js",
    "bag/pack.js",
    "bag/ask.js",
)
MIC, DESK, CAMERA = "mic-dynamic-xlr", "mixer-mic-in-p48-xlr", "camera-mic-in-35"
CABLE, OTHER, PAD, MINI = (
    "xlr-f-to-xlr-m-3m",
    "xlr-f-to-xlr-m-20m",
    "xlr-f-to-xlr-m-pad-20-db",
    "xlr-f-to-35-trs-both-3-to-1",
)
AMPLIFIER, SPEAKER, CABINET = (
    "loudspeaker-amp-out-635",
    "phone-635-ts-to-635-ts-loudspeaker",
    "loudspeaker-635",
)
ORDER = "Plug it with amplifier off, wait a moment, then amplifier on: then it is safe."
ROWS = [
    [MIC, [CABLE], DESK, "safe", []],
    [MIC, [PAD], DESK, "lossy", ["too-quiet"]],
    [MIC, [MINI], CAMERA, "lossy", ["unbalanced"]],
    [AMPLIFIER, [SPEAKER], CABINET, "dangerous", ["over-current"], "safe", ORDER],
    [MIC, ["xlr-f-to-35-trs-balanced"], CAMERA, "dangerous", ["x"]],
]
BAG = {"leads": [CABLE, PAD], "ports": [MIC], "jobs": [[MIC, DESK], [MIC, CAMERA]], "counts": {}}


def in_node(catalogue, tmp_path_factory):
    """A function that runs an expression on the real catalogue with a small table;
    retired ids are made up."""
    rows = [
        dict(zip(("from", "through", "into", "verdict", "findings", "offered", "offer"), [*row, "", ""][:7]))
        for row in ROWS
    ]
    data = {**as_data(catalogue), "retired": {"old-mic": [MIC], "old-lead": [CABLE], "split": [MIC, DESK]}}
    file = tmp_path_factory.mktemp("bag") / "data.json"
    file.write_text(
        json.dumps({"data": data, "mated": mated.table(catalogue), "table": table(rows), "rulebook": []})
    )
    return lambda expression, before=STORAGE, changed=None: run(expression, LOADED, file, before, changed)


def said(value):
    return json.dumps(value)
