"""A check of three devices and two leads, run by node."""

import json

from front import in_node, joined, scripts

from generator.site.data import table

LOADED = scripts(
    "ui/dom.js",
    "ui/words.js",
    "ui/catalogue.js",
    "ui/table.js",
    "ui/fits.js",
    "check/address.js",
    "ui/editions.js",
    "ui/own.js",
    "ui/slices.js",
    "judging/kinds.js",
    "judging/ask.js",
    "check/numbers.js",
    "check/judged.js",
    "check/settings.js",
)
PORT = {"supplies": [], "also_called": [], "cautions": [], "device": "device"}
DATA = {
    "ports": {
        "mic": {
            **PORT,
            "id": "mic",
            "name": "Mic",
            "connector": "xlr",
            "half": "male",
            "sources": [{}],
            "listeners": [],
        },
        "desk": {
            **PORT,
            "id": "desk",
            "name": "Desk",
            "connector": "xlr",
            "half": "female",
            "sources": [],
            "listeners": [{}],
            "supplies": [{"id": "phantom", "name": "phantom 48 V"}],
        },
        "player": {
            **PORT,
            "id": "player",
            "name": "Player",
            "connector": "rca",
            "half": "jack",
            "sources": [{}],
            "listeners": [],
        },
    },
    "leads": {
        "cable": {
            "id": "cable",
            "name": "Cable",
            "form": "cable",
            "also_called": [],
            "cautions": [],
            "ends": {"a": {"connector": "xlr", "half": "female"}, "b": {"connector": "xlr", "half": "male"}},
        },
        "odd": {
            "id": "odd",
            "name": "Odd",
            "form": "cable",
            "also_called": [],
            "cautions": [],
            "ends": {"a": {"connector": "rca", "half": "plug"}, "b": {"connector": "rca", "half": "plug"}},
        },
    },
    "connectors": {
        "xlr": {"name": "XLR, three contacts", "also_called": ["three-pin plug"]},
        "rca": {"name": "RCA", "also_called": []},
    },
    "retired": {"old-mic": ["mic"], "split": ["mic", "player"]},
}
MATED = {
    "xlr/male": {"xlr/female": [[["1", "1"]]]},
    "xlr/female": {"xlr/male": [[["1", "1"]]]},
    "rca/plug": {"rca/jack": [[["centre", "centre"]]]},
    "rca/jack": {"rca/plug": [[["centre", "centre"]]]},
}
PLAIN = {"offered": "", "offer": ""}
ORDER = "Plug it with amplifier off, wait a moment, then amplifier on: then it is safe."
TABLE = table(
    [
        {"from": "mic", "through": ["cable"], "into": "desk", "verdict": "safe", "findings": [], **PLAIN},
        {"from": "mic", "through": [], "into": "desk", "verdict": "lossy", "findings": ["dull"], **PLAIN},
        {
            "from": "player",
            "through": ["odd"],
            "into": "desk",
            "verdict": "dangerous",
            "findings": ["over-current"],
            "offered": "safe",
            "offer": ORDER,
        },
        {"from": "player", "through": [], "into": "desk", "verdict": "lossy", "findings": ["dull"], **PLAIN},
        {
            "from": "player",
            "through": ["odd"],
            "into": "mic",
            "verdict": "dangerous",
            "findings": ["over-current"],
            "offered": "safe",
            "offer": ORDER,
        },
    ]
)

# in the place of the engine
ENGINE = "const answering = (judge) => { Ringfence.engine = { judge, switchNames: () => undefined }; };"


def run(expression: str, before: str = ""):
    """The value of a JavaScript expression with the site's scripts loaded."""
    program = (
        "globalThis.window = globalThis; globalThis.Ringfence = {}; console.error = () => {};\n"
        f"{joined(LOADED)}\n{ENGINE}\n"
    )
    program += (
        "Object.assign(Ringfence, "
        f"{json.dumps({'data': DATA, 'mated': MATED, 'table': TABLE, 'rulebook': []})});\n"
    )
    program += (
        "const {ui, check} = Ringfence;\n"
        f"{before}\n"
        f"(async () => console.log(JSON.stringify(await ({expression}))))();"
    )
    return in_node(program)


QUESTION = "{from: 'mic', through: ['cable'], into: 'desk'}"
STRAIGHT = "{from: 'mic', through: [], into: 'desk'}"  # the table says lossy
