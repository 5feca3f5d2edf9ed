"""What of mine goes into what of mine, the dangers first; kits to begin with; what got worse since the kit
was last looked at. Run by node."""

import json
import re

import pytest
from front import FORBIDDEN, STORAGE, run, scripts

from generator.catalogue.published import as_data
from generator.engine.tables import tables
from generator.site import data, kits, mated

MIC, DESK, CAMERA, LINE = "mic-dynamic-xlr", "mixer-mic-in-p48-xlr", "camera-mic-in-35", "mixer-line-out-xlr"
CABLE, PAD, MINI = "xlr-f-to-xlr-m-3m", "xlr-f-to-xlr-m-pad-20-db", "xlr-f-to-35-trs-both-3-to-1"
ROWS = [
    [MIC, [CABLE], DESK, "safe", []],
    [MIC, [PAD], DESK, "lossy", ["too-quiet"]],
    [MIC, [MINI], CAMERA, "lossy", ["unbalanced"]],
    [LINE, [MINI], CAMERA, "dangerous", ["over-volts"]],
    [LINE, [CABLE], DESK, "lossy", ["too-hot"]],
]
PAGE = """globalThis.document = { querySelector: () => ({ content: EDITION, dataset: { date: "2026-11-29" } }), addEventListener() {}, createElement: () => ({ append() {}, setAttribute() {}, addEventListener() {} }),
  createElementNS: () => ({ append() {}, setAttribute() {}, children: [] }), getElementById: () => null }; globalThis.window.addEventListener = () => {}; globalThis.location = { href: "file:///" };"""
MINE = {"ports": [MIC, LINE, DESK, CAMERA], "leads": [CABLE, MINI], "jobs": []}


@pytest.fixture(scope="module")
def node(catalogue, tmp_path_factory):
    """node(expression): its value with the real catalogue and a small table."""
    rows = [
        dict(zip(("from", "through", "into", "verdict", "findings", "offered", "offer"), [*row, "", ""]))
        for row in ROWS
    ]
    file = tmp_path_factory.mktemp("kit") / "given.json"
    file.write_text(
        json.dumps(
            {
                "data": as_data(catalogue),
                **tables(),
                "mated": mated.table(catalogue),
                "table": data.table(rows),
                "sides": {},
            }
        )
    )
    return lambda expression, storage=STORAGE: run(
        expression,
        scripts("engine", "ui", "ways", "kit"),
        file,
        before=storage + 'globalThis.EDITION = "new";' + PAGE,
    )


def pairs(node, mine):
    return {(one["from"], one["into"]): one for one in node(f"Ringfence.kit.pairs({json.dumps(mine)})")}


def test_every_pair_has_the_best_of_my_leads(node):
    found = pairs(node, MINE)
    assert found[MIC, DESK]["best"]["through"] == [CABLE] and found[MIC, DESK]["best"]["verdict"] == "safe"
    assert found[MIC, CAMERA]["best"]["through"] == [MINI]
    assert len(found) == 4


def test_a_lead_that_is_not_mine_is_not_told(node):
    assert pairs(node, {**MINE, "leads": [PAD]})[MIC, DESK]["best"]["through"] == [PAD]
    assert pairs(node, {**MINE, "leads": []})[MIC, DESK]["best"] is None


def test_what_would_do_harm_is_known_for_every_pair(node):
    found = pairs(node, MINE)
    assert [way["through"] for way in found[LINE, CAMERA]["dangers"]] == [[MINI]]
    assert found[MIC, DESK]["dangers"] == []


def test_only_what_got_worse_is_announced_the_worst_first(node):
    before = {"a|x|b": "safe", "c|x|d": "lossy", "e||f": "dangerous", "g|x|h": "safe", "i|x|j": "nonsense"}
    now = {
        "a|x|b": "lossy",
        "c|x|d": "dangerous",
        "e||f": "safe",
        "g|x|h": "safe",
        "i|x|j": "dangerous",
        "new|x|one": "dangerous",
    }
    worse = node(f"Ringfence.kit.worse({json.dumps(before)}, {json.dumps(now)})")
    assert worse == [
        {"from": "c", "through": ["x"], "into": "d", "before": "lossy", "now": "dangerous"},
        {"from": "a", "through": ["x"], "into": "b", "before": "safe", "now": "lossy"},
    ]


NEWS = 'Boolean(Ringfence.kit.news(%s, ""))' % json.dumps(MINE)


def kept(edition, verdict):
    return STORAGE + (
        "kept['ringfence.kit-seen'] = "
        f"JSON.stringify({json.dumps({'edition': edition, 'date': '2026-01-01', 'verdicts': {f'{LINE}|{MINI}|{CAMERA}': verdict}})});"
    )


@pytest.mark.parametrize(
    "edition, verdict, told", [("old", "lossy", True), ("old", "dangerous", False), ("new", "lossy", False)]
)
def test_it_is_told_after_an_update_and_only_then(node, edition, verdict, told):
    assert node(NEWS, kept(edition, verdict)) is told


def test_what_is_kept_by_others_or_may_not_be_read_breaks_nothing(node):
    assert node(NEWS, FORBIDDEN) is False
    for nonsense in ("{", "[]", '{"edition": 4}', '{"edition": "old", "verdicts": null}'):
        assert node(NEWS, STORAGE + f"kept['ringfence.kit-seen'] = {json.dumps(nonsense)};") is False


# Kits to begin with


def test_the_kits_are_of_the_catalogue_and_each_does_something(catalogue):
    given = kits.read(catalogue)
    assert len(given) >= 5 and len({one["id"] for one in given}) == len(given)
    for one in given:
        assert any(catalogue.ports[id].sources for id in one["ports"]) and any(
            catalogue.ports[id].listeners for id in one["ports"]
        )


def test_an_id_that_is_not_there_is_named(catalogue, tmp_path):
    file = tmp_path / "kits.yaml"
    file.write_text(
        "- {id: a, name: A, for: b, evidence: common practice, ports: [mic-dynamic-xlr], leads: "
        "[no-such-lead]}"
    )
    with pytest.raises(
        ValueError,
        match=re.escape("kits.yaml: a has 'no-such-lead', and there is no such id among the leads."),
    ):
        kits.read(catalogue, file)


def test_a_catalogue_without_their_records_has_no_kits_and_the_real_one_has_all(catalogue):
    from dataclasses import replace

    assert kits.at_hand(catalogue) == kits.read(catalogue) != []
    assert kits.at_hand(replace(catalogue, leads={})) == []
