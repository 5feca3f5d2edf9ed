"""What the tests of the command line ask about."""

from catalogue import tiny

from generator.engine import VERDICTS
from generator.engine.rulebook import SEVERITIES

MICROPHONE, LEAD, INPUT = "mic-dynamic-xlr", "xlr-f-to-xlr-m-3m", "mixer-mic-in-p48-xlr"
CHAIN = [MICROPHONE, "--through", LEAD, INPUT]


def small_catalogue(tmp_path, monkeypatch):
    """The tiny catalogue, with the reader standing above it, so that nothing is remembered elsewhere."""
    monkeypatch.chdir(tmp_path)
    return tiny.write(tmp_path)


def check_shape(answer, *more):
    """Keys and types as promised to other programs; `more` are keys that one command adds."""
    assert list(answer) == [
        "from",
        "through",
        "into",
        "fits",
        "verdict",
        "settings",
        "conditions",
        "offer",
        "offered",
        "plugs",
        "moments",
        "plugging",
        "findings",
        "figures",
        "ways",
        "remedies",
        *more,
    ]
    assert all(isinstance(answer[name], str) for name in ("from", "into", "conditions", "offer"))
    assert answer["offered"] in ("safe", "lossy", "") and bool(answer["offered"]) is bool(answer["offer"])
    assert isinstance(answer["plugs"], list) and all(isinstance(label, str) for label in answer["plugs"])
    assert len(answer["moments"]) == len(answer["settings"])
    for moment in answer["moments"]:
        assert list(moment) == ["settled", "plugging"] and set(moment.values()) <= set(VERDICTS)
    assert isinstance(answer["through"], list) and all(isinstance(lead, str) for lead in answer["through"])
    assert answer["verdict"] in VERDICTS and answer["plugging"] in VERDICTS
    for setting in answer["settings"]:
        assert list(setting) == ["supplies", "verdict"]
        assert setting["verdict"] in VERDICTS
        assert all(
            isinstance(name, str) and isinstance(state, str) for name, state in setting["supplies"].items()
        )
    for finding in answer["findings"]:
        assert list(finding) == [
            "id",
            "severity",
            "subject",
            "where",
            "value",
            "unit",
            "limit",
            "when",
            "says",
            "remedy",
            "evidence",
            "cite",
        ]
        assert finding["severity"] in (*SEVERITIES, "does not fit")
        assert isinstance(finding["value"], (int, float)) and (
            finding["limit"] is None or isinstance(finding["limit"], (int, float))
        )
        assert all(
            isinstance(finding[name], str)
            for name in ("id", "where", "unit", "when", "says", "remedy", "evidence")
        )
        assert isinstance(finding["cite"], list)
    assert bool(answer["figures"]) <= (answer["verdict"] in ("safe", "lossy"))
    for figure in answer["figures"]:
        assert list(figure) == ["id", "where", "value", "unit", "says"]
    for way in answer["ways"]:
        assert list(way) == ["ends", "plugged", "verdict"]
        assert all(len(pair) == 2 for pair in way["ends"]) and all(len(one) == 3 for one in way["plugged"])
        assert way["verdict"] in VERDICTS
    for remedy in answer["remedies"]:
        assert list(remedy) == ["through", "verdict", "offer", "offered"]
        assert remedy["verdict"] in ("safe", "lossy") or (
            remedy["verdict"] == "dangerous" and remedy["offered"] and remedy["offer"]
        )
