"""The workshop's pages: every lead has one with its sheets, and the search in the browser goes step by step
as the one in Python does."""

import json
import re
from math import inf
from random import Random

import pytest
from front import run, scripts

from generator.catalogue.light import fibres, only_light
from generator.workshop.carried import MANY, carried
from generator.workshop.dictionary import dictionary
from generator.workshop.faulty import faults
from generator.workshop.likely import MOVES
from generator.workshop.search import Search
from generator.workshop.specimen import on_bench

LEADS = (
    "xlr-f-to-xlr-m-3m",
    "xlr-f-to-xlr-m-pad-20-db",
    "xlr-f-to-xlr-m-phantom-block",
    "xlr-f-to-xlr-m-t-power-from-phantom",
    "phone-635-trs-to-two-635-ts-insert",
    "xlr-5-f-to-xlr-5-m-stereo",
)
WALK = """(() => { const { workshop } = Ringfence; const known = workshop.unpacked(Ringfence.carried);
const answer = (said) => (said === "open" ? Infinity : said);
return Ringfence.walks.map((walk) => { const prior = workshop.prior(known, null); const steps = [];
  for (let i = 0; i <= walk.length; i += 1) {
    const read = walk.slice(0, i).map(([m, said]) => [m, answer(said)]);
    const likely = workshop.posterior(known, prior, read), next = workshop.best(known, likely, read, []);
    const ending = workshop.ending(known, prior, likely, read.length > 0, next);
    steps.push({ likely, next, ...ending });
  } return steps; }); })()"""


def walks(known, rng):
    """Searches as a person would go through them, some with readings that are wrong: lists of
    (measurement, answer)."""
    search, found = Search(known), []
    for fault in rng.sample(range(len(known.faults)), min(12, len(known.faults))):
        read = []
        for _ in range(9):
            likely = search.posterior(read)
            following = search.best(likely, read)
            if following is None or search.ending(likely, bool(read), following).state == "found":
                break
            window = known.classes[
                known.which[fault, following] if rng.random() < 0.85 else rng.randrange(len(known.classes))
            ]
            middle = window.low if window.high == inf else (window.low + window.high) / 2
            read.append((following, MOVES if window.moves else middle))
        found.append(read)
    return found


@pytest.mark.parametrize("id", LEADS)
def test_the_browser_searches_as_python_does(catalogue, tmp_path, id):
    lead = catalogue.leads[id]
    known = dictionary(on_bench(catalogue, lead))
    search, tried = Search(known), walks(known, Random(id))
    file = tmp_path / "data.json"
    said = [[[m, "open" if answer == inf else answer] for m, answer in read] for read in tried]
    file.write_text(json.dumps({"carried": carried(catalogue, lead, {}), "walks": said}))
    answers = run(WALK, scripts("workshop/likely.js", "workshop/search.js"), file)
    count = 0
    for read, steps in zip(tried, answers):
        for i, step in enumerate(steps):
            likely = search.posterior(read[:i])
            following = search.best(likely, read[:i])
            ending = search.ending(likely, i > 0, following)
            assert step["likely"] == pytest.approx(likely.tolist(), abs=1e-9)
            assert (step["next"], step["named"], step["state"]) == (
                following,
                list(ending.named),
                ending.state,
            )
            assert step["sure"] == pytest.approx(ending.sure, abs=1e-9)
            count += 1
    assert count > 30


@pytest.mark.parametrize(
    "typed, ohms",
    [
        ("0.3", 0.3),
        ("680", 680),
        ("2.2k", 2200),
        ("1,5 M", 1.5e6),
        ("12 ohm", 12),
        ("x", None),
        ("", None),
        ("-3", None),
    ],
)
def test_what_a_thumb_types(tmp_path, typed, ohms):
    file = tmp_path / "data.json"
    file.write_text("{}")
    assert run(f"Ringfence.workshop.ohms({json.dumps(typed)})", scripts("workshop/address.js"), file) == ohms


def test_the_address_holds_the_readings(tmp_path):
    file = tmp_path / "data.json"
    file.write_text(json.dumps({"known": {"pairs": ["a.1-b.1", "a.2-b.2"], "symptoms": [{"id": "hum"}]}}))
    loaded = scripts("workshop/address.js")
    back = "Ringfence.workshop.write(Ringfence.workshop.read({}, Ringfence.known), Ringfence.known.pairs)"
    whole = "hear=hum&read=a.1-b.1%3D0.3%2Ca.2-b.2%3Dopen"
    assert run(back.format(json.dumps(f"#{whole}")), loaded, file) == whole
    hostile = "#hear=constructor&read=a.9-b.9=0.3,a.1-b.1=__proto__,=3,a.2-b.2=moves"
    assert run(back.format(json.dumps(hostile)), loaded, file) == "read=a.2-b.2%3Dmoves"


def test_every_lead_has_its_sheets(catalogue, tree):
    for lead in catalogue.leads.values():
        page = tree[f"workshop/{lead.id}.md"].decode()
        light = fibres(lead, catalogue.connectors)
        build = "## How it is got and kept" if light else "## Build sheet"
        for heading in ("## Test sheet", build, "## Ordering sheet"):
            assert heading in page, lead.id
        if light:
            assert "Never look into a fibre" in page and "Before you solder" not in page
        else:
            assert page.count('type="checkbox"') >= 3
            assert "Before you measure" in page and "Before you solder" in page
        assert f'href="../../workshop/{lead.id}/"' in tree[f"leads/{lead.id}.md"].decode()
    assert b"Mains leads are work for people licensed" in tree["workshop/index.md"]


def test_the_dictionary_a_page_carries_is_the_leads(catalogue, tree):
    for lead in catalogue.leads.values():
        page = tree[f"workshop/{lead.id}.md"].decode()
        found = re.search(
            r'<script type="application/json" id="rf-dictionary">(.*?)</script>', page, re.DOTALL
        )
        if only_light(lead, catalogue.connectors):
            assert not found and "with two probes" not in page
            continue
        specimen = on_bench(catalogue, lead)
        if len(faults(specimen)) > MANY:
            assert not found and "too many contacts" in page
            continue
        data = json.loads(found[1])
        assert len(data["faults"]) * len(data["measurements"]) == len(data["which"])
        assert max(map(ord, data["which"])) - 48 < len(data["classes"]) == len(data["shows"])
        assert {fault["group"] for fault in data["faults"]} == set(range(len(data["groups"])))
        for symptom in data["symptoms"]:
            assert symptom["faults"] and max(symptom["faults"]) < len(data["faults"])


def test_the_check_asks_for_nothing_of_the_workshop(tree):
    assert b"workshop.js" not in tree["check.md"] and b"rf-dictionary" not in tree["check.md"]
