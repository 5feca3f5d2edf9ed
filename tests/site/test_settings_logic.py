"""One setting of the supplies at a time: what the browser's engine tells of it, on connections
of the real catalogue."""

import json
import shutil

import pytest
from front import run, scripts

from generator.catalogue.published import as_data
from generator.engine.tables import tables

pytestmark = pytest.mark.skipif(shutil.which("node") is None, reason="node not installed")

CONNECTIONS = (
    ("mic-dynamic-xlr", ("xlr-f-to-xlr-m-3m",), "mixer-mic-in-p48-xlr"),
    ("mic-condenser-p48-xlr", ("xlr-f-to-xlr-m-3m",), "mixer-mic-in-p48-xlr"),
    ("computer-headphone-out-35", ("phone-35-trs-to-xlr-m-tip-2",), "mixer-mic-in-p48-xlr"),
    ("mic-ribbon-xlr", ("xlr-f-to-two-xlr-m",), "mixer-mic-in-p48-xlr"),  # two supplies, one at a spare end
    ("mic-ribbon-xlr", ("xlr-f-to-two-xlr-m",), "recorder-mic-in-t-power-xlr"),
    ("mic-electret-stereo-35", ("phone-35-trs-to-35-trs",), "camera-mic-in-35"),
    ("headset-lrmg", ("phone-35-trs-jack-to-xlr-m-bias-from-phantom",), "mixer-mic-in-p48-xlr"),
    ("party-line-supply-xlr", ("xlr-f-to-xlr-m-3m",), "camera-mic-in-p48-xlr"),
    ("mixer-line-out-xlr", ("xlr-f-to-xlr-m-3m",), "mixer-line-in-xlr"),  # nothing to switch
    ("mic-dynamic-xlr", ("phone-35-trs-to-35-trs",), "camera-mic-in-35"),  # does not fit
)
TOLD = """((question) => {
    const { engine, data, rulebook } = Ringfence, judged = Ringfence.judge(data, rulebook, question);
    const shown = (one) => { try { return Ringfence.explain(data, rulebook, question, one).value; } catch (fault) { return String(fault); } };
    return { verdict: judged.verdict, keys: Object.keys(judged), fields: Object.keys(judged.findings[0] || {}), names: engine.switchNames(judged) && [...engine.switchNames(judged)],
        findings: judged.findings, settings: judged.settings.map(({ supplies, verdict }, number) => ({ supplies, verdict,
            held: engine.inSetting(judged, number).map(({ finding, always }) => ({ ...finding, always, worked: engine.explains(finding) ? shown(finding) : null })) })) };
})"""
WORST_LAST = ["note", "safe", "lossy", "no signal", "dangerous"]


@pytest.fixture(scope="module")
def told(catalogue, tmp_path_factory):
    data = tmp_path_factory.mktemp("settings") / "given.json"
    data.write_text(json.dumps({"data": as_data(catalogue), **tables()}))
    asked = [{"from": start, "through": list(through), "into": into} for start, through, into in CONNECTIONS]
    return run(f"{json.dumps(asked)}.map({TOLD})", scripts("engine"), data)


def settings(told):
    return [(one, number, setting) for one in told for number, setting in enumerate(one["settings"])]


def test_the_verdict_of_a_setting_is_its_worst_finding(told):
    assert len(settings(told)) > 15
    for _, _, setting in settings(told):
        worst = max((WORST_LAST.index(finding["severity"]) for finding in setting["held"]), default=0)
        assert setting["verdict"] == WORST_LAST[max(worst, 1)]


def test_a_finding_names_only_the_setting_it_is_told_of(told):
    """Where a finding says when, the positions it names are those of this setting; beside them only those of
    a device in a spare end."""
    for one, _, setting in settings(told):
        words = ", ".join(f"{name} {setting['supplies'][key]}" for key, name in one["names"])
        for finding in setting["held"]:
            positions = [
                part
                for part in finding["when"].split(", ")
                if part.split(" ")[-1] in ("on", "off") and " at the spare end " not in part
            ]
            assert all(part in words for part in positions), (finding["when"], words)


def test_what_holds_in_every_setting_stands_in_every_one(told):
    seen = {True: 0, False: 0}
    for one in told:
        held = [
            {
                (finding["id"], finding["subject"], finding["state"]): finding["always"]
                for finding in setting["held"]
            }
            for setting in one["settings"]
        ]
        for each in held:
            for key, always in each.items():
                assert always == all(key in other for other in held)
                seen[always] += 1
    assert min(seen.values()) > 5, "both kinds were met"


def test_no_finding_of_the_answer_is_lost_among_the_settings(told):
    for one in told:
        if one["settings"]:
            held = {
                (finding["id"], finding["where"], finding["severity"])
                for setting in one["settings"]
                for finding in setting["held"]
            }
            assert {
                (finding["id"], finding["where"], finding["severity"]) for finding in one["findings"]
            } <= held


def test_the_working_of_a_finding_is_that_of_its_setting(told):
    """Not that of the setting where it is worst: the number under the drawing is the number above it."""
    for _, _, setting in settings(told):
        for finding in setting["held"]:
            assert finding["worked"] is None or finding["worked"] == pytest.approx(finding["value"], rel=1e-9)


def test_what_is_held_apart_is_not_in_the_published_answer(told):
    for one in told:
        assert set(one["keys"]) == {
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
        }
        assert not {"state", "setting", "always"} & set(one["fields"])


def test_phantom_off_spares_the_output_and_loses_a_channel_all_the_same(told):
    """From memory: phantom power pushes direct current back into a headphone output wired to contacts 1 and
    2; a mono input hears one of two channels whatever the switch says."""
    on, off = told[2]["settings"]
    assert (on["supplies"], on["verdict"], off["verdict"]) == ({"phantom": "on"}, "dangerous", "lossy")
    assert "over-volts" in {finding["id"] for finding in on["held"]} - {
        finding["id"] for finding in off["held"]
    }
    assert all(finding["always"] for finding in off["held"] if finding["id"] == "one-side-only")
