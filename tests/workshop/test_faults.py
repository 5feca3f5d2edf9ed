"""Faults put into leads: what they read (the published dictionary of an XLR-3 lead), what they sound like
(published statements), and that none is forgotten."""

from itertools import combinations
from math import inf

import pytest

from generator.workshop import heard
from generator.workshop.dictionary import dictionary, written
from generator.workshop.faulty import Fault, faults, injected, wired
from generator.workshop.paths import HIGH, resistances
from generator.workshop.specimen import SHELL, contact_of, end_of, on_bench

LEAD = "xlr-f-to-xlr-m-3m"
SIX = ("a.1-b.1", "a.2-b.2", "a.3-b.3", "a.1-a.2", "a.1-a.3", "a.2-a.3")
SIGNATURES = {  # 1-1 2-2 3-3 then 1-2 1-3 2-3 in one end: x conducts, o open
    "good": "xxxooo",
    "short:a.1-a.2": "xxxxoo",
    "open:a.1": "oxxooo",
    "short:a.1-a.3": "xxxoxo",
    "open:a.2": "xoxooo",
    "short:a.2-a.3": "xxxoox",
    "open:a.3": "xxoooo",
    "crossed:a.1-a.2": "ooxooo",
    "crossed:a.1-a.3": "oxoooo",
    "crossed:a.2-a.3": "xooooo",
}


@pytest.fixture(scope="module")
def specimen(catalogue):
    return on_bench(catalogue, catalogue.leads[LEAD])


@pytest.mark.parametrize("id, signature", SIGNATURES.items())
def test_the_ten_signatures_of_an_xlr_lead(specimen, id, signature):
    kind, _, at = id.partition(":")
    ohms = resistances(injected(specimen, Fault(kind, tuple(at.split("-")) if at else ())))[HIGH]
    place = list(specimen.terminals).index
    assert "".join("x" if ohms[place(p[:3]), place(p[4:])] < 5 else "o" for p in SIX) == signature


def test_counts(specimen):
    """n = 3: 3 opens, 3 shorts, 3 crossings at an end, 6 joints."""
    found = [fault.id for fault in faults(specimen)]
    assert len(found) == len(set(found))
    for kind, ends in {"open": 2, "short": 2, "crossed": 2}.items():
        assert len([id for id in found if id.startswith(f"{kind}:")]) == 3 * ends
    assert len([id for id in found if id.startswith("joint-100-ohm:")]) == 6
    assert [id for id in found if id.startswith("crossed-both")] == [
        "crossed-both:a.1-a.2-b.1-b.2",
        "crossed-both:a.1-a.3-b.1-b.3",
    ]


def test_every_contact_pair_and_part_of_every_lead_is_tried(catalogue):
    for lead in catalogue.leads.values():
        specimen = on_bench(catalogue, lead)
        found = {fault.id for fault in faults(specimen)}
        soldered = {node for join in lead.joins for node in join.nodes if "." in node} | {
            node
            for part in lead.network.parts
            if part.id in lead.parts
            for node in (part.a, part.b)
            if "." in node
        }
        soldered -= {
            f"{end.id}.{contact}"
            for end in lead.ends.values()
            for contact in catalogue.connectors[end.connector].light
        }
        assert {t for t in wired(specimen) if contact_of(t) != SHELL} == soldered - set(), lead.id
        for terminal in soldered:
            assert {
                f"open:{terminal}",
                f"loose:{terminal}",
                f"joint-1-ohm:{terminal}",
                f"joint-100-ohm:{terminal}",
            } <= found
        apart = resistances(specimen)[HIGH]
        place = {terminal: i for i, terminal in enumerate(specimen.terminals)}
        for one, other in combinations(sorted(soldered, key=place.get), 2):
            if end_of(one) == end_of(other) and apart[place[one], place[other]] > 1:
                assert {f"short:{one}-{other}", f"crossed:{one}-{other}"} <= found, lead.id
        for part in lead.network.parts:
            if part.id in lead.parts and part.kind == "resistor":
                assert {f"missing:{part.id}", f"shorted:{part.id}"} <= found


def test_an_open_part_is_seen(catalogue):
    """The leg of a U-pad missing: open through, and the way round through the other leg gone."""
    specimen = on_bench(catalogue, catalogue.leads["xlr-f-to-xlr-m-pad-20-db"])
    ohms = resistances(injected(specimen, Fault("missing", ("leg-hot",))))[HIGH]
    place = list(specimen.terminals).index
    assert ohms[place("a.2"), place("b.2")] == ohms[place("a.2"), place("a.3")] == inf
    assert ohms[place("a.3"), place("b.3")] < 720


# -- what one hears


@pytest.fixture(scope="module")
def hearing(catalogue):
    lead = catalogue.leads[LEAD]
    found = heard.hear(catalogue, lead, faults(on_bench(catalogue, lead)))
    return {id: {(case.start, case.target): case for case in cases} for id, cases in found.items()}


DYNAMIC, CONDENSER, LINE = (
    ("mic-dynamic-xlr", "mixer-mic-in-p48-xlr"),
    ("mic-condenser-p48-xlr", "mixer-mic-in-p48-xlr"),
    ("mixer-line-out-xlr", "mixer-line-in-xlr"),
)


@pytest.mark.parametrize(
    "fault, pair, symptom",
    [
        ("open:a.2", DYNAMIC, "thin-rest"),  # published (forum post): thin, tinny with one of 2 and 3 open
        ("open:b.3", DYNAMIC, "thin-rest"),
        ("open:a.2", LINE, "half"),  # published: about 6 dB low where an active output loses a leg
        ("open:a.2", LINE, "hum"),  # published (preamplifier manual): low level and noise
        (
            "open:a.1",
            CONDENSER,
            "unpowered",
        ),  # published (forum post): dynamic works, the phantom microphone is dead
        ("open:a.1", DYNAMIC, "screen"),
        (
            "crossed:a.2-a.3",
            DYNAMIC,
            "hollow",
        ),  # published: polarity inverted, hollow with a second microphone
        ("short:a.2-a.3", DYNAMIC, "silent"),
        ("short:a.1-a.2", DYNAMIC, "danger"),  # phantom through the coil
        ("loose:a.1", CONDENSER, "crackle"),
        (
            "crossed-both:a.1-a.2-b.1-b.2",
            DYNAMIC,
            "nothing",
        ),  # continuity passes it and so do the ears, on a quiet stage
    ],
)
def test_symptoms_as_published(hearing, fault, pair, symptom):
    assert symptom in hearing[fault][pair].symptoms


def test_a_dynamic_microphone_does_without_its_screen(hearing):
    assert (
        "thin-rest" not in hearing["open:a.1"][DYNAMIC].symptoms
        and hearing["open:a.1"][DYNAMIC].verdict == "lossy"
    )


def test_symptoms_point_back_the_common_ones_first(catalogue):
    lead = catalogue.leads[LEAD]
    tried = faults(on_bench(catalogue, lead))
    found = heard.by_symptom(heard.hear(catalogue, lead, tried), tried)
    assert found["thin-rest"][:2] == ["loose:a.2", "loose:a.3"] and "open:a.2" in found["thin-rest"]
    weight = {fault.id: fault.weight for fault in tried}
    for ids in found.values():
        assert [weight[id] for id in ids] == sorted((weight[id] for id in ids), reverse=True)


def test_the_good_record_is_left_alone(catalogue):
    """With no fault put in, the lead with joints is judged as the one without."""
    from dataclasses import replace

    from generator.engine import judge

    for id in (LEAD, "xlr-f-to-xlr-m-phantom-supply", "xlr-f-to-xlr-m-transformer-joined"):
        lead = catalogue.leads[id]
        changed = replace(
            catalogue, leads={**catalogue.leads, id: heard.with_fault(catalogue, lead, Fault("good"))}
        )
        for pair in heard.usual_pairs(catalogue, lead):
            before, after = (judge(c, pair[0], [id], pair[1]).as_data() for c in (catalogue, changed))
            assert (before["verdict"], [f["id"] for f in before["findings"]]) == (
                after["verdict"],
                [f["id"] for f in after["findings"]],
            )


def test_pads_lose_their_loss(catalogue):
    lead = catalogue.leads["xlr-f-to-xlr-m-pad-20-db"]
    cases = heard.hear(catalogue, lead, [Fault("missing", ("across",))])["missing:across"]
    assert any("louder" in case.symptoms for case in cases)


def test_the_dictionary_names_every_measurement_once(specimen):
    known = dictionary(specimen)
    names = [written(m) for m in known.measurements]
    assert len(names) == len(set(names)) == known.which.shape[1]
