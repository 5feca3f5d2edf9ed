"""The workshop's tools run by node: pads, blockers and runs reckon as Python does."""

from random import Random

import pytest
from front import STORAGE
from workshop_node import in_node

from generator.workshop import blockers, pads
from generator.workshop import run as runs
from generator.workshop.safety import Misuse
from generator.workshop.tables import table

node = pytest.fixture(in_node)


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
  return { tries: known.tries.map(({ id, covers, seconds }) => [id, [...covers].sort(), seconds]),
    likely: found.likely, state: found.state,
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
