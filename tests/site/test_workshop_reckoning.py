"""The workshop's tools run by node: pads and runs reckon as Python does, and the log survives what people
and browsers do to it."""

import csv
import io
import json
from random import Random

import pytest
from front import FORBIDDEN, STORAGE, run, scripts

from generator.workshop import blockers, pads, run as runs
from generator.workshop.safety import Misuse
from generator.workshop.tables import table

FULL = """globalThis.localStorage = { getItem: () => null, setItem() { throw Object.assign(new Error("full"), { name: "QuotaExceededError" }); } };"""


@pytest.fixture
def node(tmp_path):
    """node(expression, scripts, data, before): the value of an expression with data put on `Ringfence`."""

    def node(expression, loaded, data=None, before=STORAGE):
        file = tmp_path / "data.json"
        file.write_text(json.dumps(data or {}))
        return run(expression, scripts("ui/dom.js", "ui/words.js", *loaded), file, before)

    return node


ASKED = [
    (loss, source, load, form, series)
    for loss in (1, 6, 10, 20, 37, 60, 80, 90)
    for source, load in ((200, 2000), (150, 1500), (600, 600), (50, 10000), (2000, 200))
    for form in "UHLO"
    for series in ("E24", "E96")
]


def test_pads_are_designed_as_in_python(node):
    """The same resistors, and the same figures, for every form; and the same that cannot be built."""
    found = node(
        "Ringfence.asked.map(([loss, source, load, form, series]) => Ringfence.pads.designed({ loss, "
        "source, load, form, series }))",
        ["pads/attenuation.js", "pads/design.js"],
        {"asked": ASKED},
    )
    built = 0
    for (loss, source, load, form, series), one in zip(ASKED, found):
        try:
            wanted = pads.designed(loss, source, load, form, series)
        except Misuse:
            assert one["fault"], (loss, source, load, form)
            continue
        built += 1
        assert dict(one["resistors"]) == wanted.resistors, (loss, source, load, form, series)
        assert one["leg"] == pytest.approx(wanted.leg)
        for name, value in (
            ("loss", wanted.does.loss),
            ("unloaded", wanted.does.unloaded),
            ("sourceSees", wanted.does.source_sees),
            ("loadSees", wanted.does.load_sees),
            ("noise", wanted.does.noise),
            ("noiseCost", wanted.does.noise_cost),
        ):
            assert one["does"][name] == pytest.approx(value, abs=1e-9), name
    assert built > 100 and built < len(ASKED)


def test_a_published_pad_comes_out(node):
    """U-pad of 680 and 150 ohm between 150 ohm and 1.5 kohm: 20.81 dB lost, 1496 and 136.4 ohm seen (worked
    by hand; sold as 20 dB)."""
    does = node('Ringfence.pads.done([["series", 1360], ["shunt", 150]], 150, 1500)', ["pads/attenuation.js"])
    assert does["loss"] == pytest.approx(20.81, abs=5e-3)
    assert (does["sourceSees"], does["loadSees"]) == (
        pytest.approx(1496, abs=0.5),
        pytest.approx(136.4, abs=0.05),
    )


@pytest.mark.parametrize("hertz, ohms", [(10, 1650), (3.3, 4400), (20, 600), (100, 20000)])
def test_blockers_are_designed_as_in_python(node, hertz, ohms):
    wanted, found = (
        blockers.designed(hertz, ohms),
        node(f"Ringfence.pads.blocker({hertz}, {ohms})", ["pads/attenuation.js", "pads/design.js"]),
    )
    assert found["farad"] == wanted["farad"]
    assert found["corner"] == pytest.approx(wanted["corner"], abs=5e-3) and found[
        "charging"
    ] == pytest.approx(wanted["charging"], abs=0.05)


def test_a_corner_nobody_reaches_is_said(node):
    assert node("Ringfence.pads.blocker(0.001, 1)", ["pads/attenuation.js", "pads/design.js"])[
        "fault"
    ].startswith("No capacitor one can buy reaches")


TRACE = """Ringfence.asked.map(({ symptom, leads, tried }) => { const { trace, table } = Ringfence;
  const known = trace.run(table, symptom, { source: "s", input: "i", leads: Array(leads).fill("l") });
  const found = trace.traced(table, known, tried);
  return { tries: known.tries.map(({ id, covers, seconds }) => [id, [...covers].sort(), seconds]), likely: found.likely, state: found.state,
    offered: found.tries.map(({ id, bits }) => [id, bits]) }; })"""


def test_runs_are_traced_as_in_python(node, catalogue):
    rng, asked, known = Random("runs"), [], {}
    for symptom in runs.SYMPTOMS:
        for leads in range(1, 7):
            known[symptom, leads] = runs.run(
                catalogue, "mic-dynamic-xlr", ["xlr-f-to-xlr-m-3m"] * leads, "mixer-mic-in-p48-xlr", symptom
            )
            for count in (0, 1, 2, 4):
                ids = rng.sample(
                    [one.id for one in known[symptom, leads].tries],
                    min(count, len(known[symptom, leads].tries)),
                )
                asked.append(
                    {"symptom": symptom, "leads": leads, "tried": [[id, rng.random() < 0.4] for id in ids]}
                )
    found = node(TRACE, ["trace/search.js"], {"table": table("run"), "asked": asked})
    for one, said in zip(asked, found):
        here = known[one["symptom"], one["leads"]]
        assert said["tries"] == [[t.id, sorted(t.covers), t.seconds] for t in here.tries]
        likely = runs.after(here, [tuple(tried) for tried in one["tried"]])
        assert dict(said["likely"]) == pytest.approx(likely, abs=1e-9)
        gains = {t.id: runs.gain(likely, t) for t in here.tries}
        for id, bits in said["offered"]:
            assert bits == pytest.approx(gains[id], abs=1e-9)
        assert (said["state"] == "found") == (max(likely.values()) >= runs.SURE)


def test_the_address_of_a_run_takes_nothing_else(node):
    read = 'Ringfence.trace.read("#hear=constructor&leads=99&tried=look=gone,swap-lead1,x=stays", ["dead"])'
    assert node(
        read,
        ["trace/search.js", "trace/controller.js"],
        before=STORAGE + "globalThis.document = { addEventListener() {} };",
    ) == {"heard": None, "leads": 6, "tried": [["look", True], ["x", False]]}


LOG = ["upkeep/log.js", "upkeep/exchange.js", "upkeep/keep.js"]
LEADS = [
    {
        "label": "X-01",
        "lead": "xlr-f-to-xlr-m-3m",
        "made": "2025-01-31",
        "tested": "2026-05-01",
        "result": "passed",
        "due": "2026-11-01",
        "quarantine": False,
        "note": "",
    },
    {
        "label": '=SUM(A1), "red"',
        "lead": "",
        "made": "",
        "tested": "",
        "result": "",
        "due": "",
        "quarantine": True,
        "note": "screen\nloose; b",
    },
    {
        "label": "'quoted",
        "lead": "",
        "made": "",
        "tested": "2026-02-28",
        "result": "failed",
        "due": "",
        "quarantine": True,
        "note": "-1 dB",
    },
]
WHOLE = {"version": 1, "every": 3, "leads": LEADS}


def test_out_and_in_again(node):
    json_, csv_ = node(
        "[Ringfence.upkeep.asJson(Ringfence.log), Ringfence.upkeep.asCsv(Ringfence.log)]", LOG, {"log": WHOLE}
    )
    back = node(
        "[Ringfence.json, Ringfence.csv, Ringfence.csv.replaceAll(',', ';').replaceAll('=SUM(A1);', "
        "'=SUM(A1),')].map((text) => Ringfence.upkeep.parse(text))",
        LOG,
        {"json": json_, "csv": csv_},
    )
    assert back[0] == {"log": WHOLE, "faults": []}
    assert back[1]["log"]["leads"] == LEADS and back[1]["faults"] == []
    assert back[2]["log"]["leads"] == LEADS  # as half of Europe's spreadsheets write it
    rows = list(csv.reader(io.StringIO(csv_, newline="")))  # another reader of the same format
    assert rows[0] == ["label", "lead", "made", "tested", "result", "due", "quarantine", "note"]
    assert rows[1][0] == "X-01" and rows[2][7] == "screen\nloose; b"
    assert not any(cell.startswith(("=", "+", "-", "@")) for row in rows for cell in row), (
        "a spreadsheet would run it"
    )


@pytest.mark.parametrize(
    "text, fault",
    [
        ("", "There is nothing in it."),
        ("{", "This is not whole JSON."),
        ('{"version": 2, "leads": []}', "This is not a log of version 1."),
        (
            "name,day\na,b",
            (
                "The first line has no column “label”. The columns are: label, lead, made, tested, result, "
                "due, quarantine, note."
            ),
        ),
    ],
)
def test_what_is_no_log_is_said(node, text, fault):
    assert node("Ringfence.upkeep.parse(Ringfence.text)", LOG, {"text": text}) == {"fault": fault}


def test_what_is_half_right_is_half_taken(node):
    text = (
        "label,tested,result\n"
        "A,2026-02-30,passed\n"
        "B,2026-02-28,perhaps\n"
        ",2026-02-28,passed\n"
        "C,2026-02-28,PASSED\n"
        "c,,\n"
    )
    found = node("Ringfence.upkeep.parse(Ringfence.text)", LOG, {"text": text})
    assert [lead["label"] for lead in found["log"]["leads"]] == ["C"]
    assert found["faults"] == [
        "A: “2026-02-30” is no day. Write it like 2026-11-28.",
        "B: “perhaps” is no result. Write passed or failed.",
        "A lead needs a label: what is written on it.",
        "c is there twice; the first is kept.",
    ]


def test_two_logs_become_one_and_the_later_test_counts(node):
    theirs = {
        **WHOLE,
        "leads": [
            {**LEADS[0], "tested": "2026-06-01", "note": "newer"},
            {**LEADS[2], "tested": "2026-01-01", "note": "older"},
        ],
    }
    leads = node(
        "Ringfence.upkeep.joined(Ringfence.mine, Ringfence.theirs)", LOG, {"mine": WHOLE, "theirs": theirs}
    )["leads"]
    assert [lead["note"] for lead in leads] == ["newer", LEADS[1]["note"], LEADS[2]["note"]]


@pytest.mark.parametrize(
    "day, months, later",
    [
        ("2026-08-31", 6, "2027-02-28"),
        ("2027-08-31", 6, "2028-02-29"),
        ("2026-11-28", 1, "2026-12-28"),
        ("2026-12-31", 2, "2027-02-28"),
    ],
)
def test_due_again(node, day, months, later):
    assert node(f'Ringfence.upkeep.later("{day}", {months})', LOG) == later


def test_what_failed_is_out_of_use_until_it_passes(node):
    both = node(
        """(() => { const { upkeep, lead } = Ringfence; const failed = upkeep.tested(lead, false, "2026-11-28", 6);
        return [failed, upkeep.tested(failed, true, "2026-11-29", 6)].map((one) => [upkeep.state(one, "2026-11-30"), one.due, one.result]); })()""",
        LOG,
        {"lead": LEADS[0]},
    )
    assert both == [["out of use", "", "failed"], ["fine", "2027-05-29", "passed"]]


def test_the_store_keeps_it_or_it_is_said(node):
    there_and_back = "[Ringfence.upkeep.keep(Ringfence.log), Ringfence.upkeep.kept()]"
    assert node(there_and_back, LOG, {"log": WHOLE}) == ["", {"log": WHOLE, "fault": ""}]
    fault, kept = node(there_and_back, LOG, {"log": WHOLE}, FORBIDDEN)
    assert (
        fault
        == kept["fault"]
        == (
            "This browser does not let the page keep anything; a private window or a setting forbids it. "
            "Export the log before you leave."
        )
    )
    assert kept["log"]["leads"] == []
    assert (
        node(there_and_back, LOG, {"log": WHOLE}, FULL)[0]
        == "This browser's store is full, so the last change is not kept. Export the log now, then make room."
    )
    broken = STORAGE + """localStorage.setItem("ringfence.upkeep", '{"version":1,"leads":[{"label":""}]}');"""
    assert node("Ringfence.upkeep.kept().fault", LOG, before=broken).startswith(
        "What this browser kept is no whole log."
    )


def test_what_must_beep_is_how_the_lead_is_wired(node, catalogue):
    from generator.catalogue.published import as_data

    published = as_data(catalogue)["leads"]
    beeps = node(
        "Object.fromEntries(Object.values(Ringfence.leads).map((lead) => [lead.id, "
        "Ringfence.upkeep.beeps(lead)]))",
        [*LOG, "upkeep/round.js"],
        {"leads": published},
    )
    assert beeps["xlr-f-to-xlr-m-3m"]["joined"] and not beeps["xlr-f-to-xlr-m-3m"]["numbers"]
    for lead in catalogue.leads.values():
        contacts = [[node for node in join.nodes if "." in node] for join in lead.joins]
        said = [
            " ".join(
                [
                    first,
                    "to",
                    " and ".join(rest) if len(rest) < 3 else ", ".join(rest[:-1]) + " and " + rest[-1],
                ]
            )
            for first, *rest in (nodes for nodes in contacts if len(nodes) > 1)
        ]
        assert beeps[lead.id]["joined"] == said, lead.id
        assert beeps[lead.id]["numbers"] == bool(lead.parts)


def test_the_queue_has_what_is_due_first(node):
    order = node(
        'Ringfence.upkeep.queue(Ringfence.log, "2026-10-01")',
        [*LOG, "upkeep/round.js"],
        {
            "log": {
                **WHOLE,
                "leads": [
                    LEADS[0],
                    LEADS[2],
                    {**LEADS[0], "label": "X-00", "due": "2026-09-01"},
                    {**LEADS[1], "quarantine": False, "label": "new"},
                ],
            }
        },
    )
    assert order == ["new", "X-00", "'quoted", "X-01"]


def test_the_tools_have_their_pages(tree):
    index = tree["workshop/index.md"].decode()
    for tool in ("trace", "pads", "upkeep"):
        page = tree[f"workshop/{tool}.md"].decode()
        assert f'href="{tool}/"' in index and "need" in page and "scripts" in page
        assert f"assets/js/{tool}.js" in page and "assets/css/workshop.css" in page
    assert b"rf-pads" not in tree["assets/css/site.css"], "styles of the workshop are no weight of the check"
    assert tree["workshop/pads.md"].decode().count("U, balanced") == 4
    for guide in ("making", "testing"):
        assert f"../guides/{guide}/" in index and f"guides/{guide}.md" in tree
