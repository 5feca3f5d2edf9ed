"""Build, test and ordering sheets over the whole catalogue, read back by a reader of their own: what they
say is how the lead is wired."""

import re
from math import inf

import pytest

from generator.catalogue.light import fibres
from generator.workshop import sheets, solder
from generator.workshop.readings import readings
from generator.workshop.specimen import on_bench

PAIR = re.compile(r"\b([a-z0-9]+\.[\w+-]+)-([a-z0-9]+\.[\w+-]+)")


def test_every_contact_of_every_lead_has_its_row(catalogue):
    for lead in catalogue.leads.values():
        told = {
            (t["end"], row["contact"]): row["solder"]
            for t in solder.tables(catalogue, lead)
            for row in t["contacts"]
        }
        assert set(told) == {
            (end.id, contact)
            for end in lead.ends.values()
            for contact in catalogue.connectors[end.connector].contacts
        }
        for join in lead.joins:
            contacts = [node for node in join.nodes if "." in node]
            for node in contacts:
                end, _, contact = node.partition(".")
                assert all(
                    any(other in words for words in told[end, contact]) for other in contacts if other != node
                ), (lead.id, node)
        for part in lead.network.parts:
            for node in (part.a, part.b) if part.id in lead.parts else ():
                end, dot, contact = node.partition(".")
                assert not dot or any(part.id in words for words in told[end, contact]), (lead.id, part.id)


def test_what_nothing_is_soldered_to_says_so(catalogue):
    table = solder.tables(catalogue, catalogue.leads["xlr-f-to-635-ts-3-open"])
    assert next(row for row in table[0]["contacts"] if row["contact"] == "3")["solder"] == ["nothing"]


def test_every_cable_of_the_catalogue_can_be_bought(catalogue):
    from generator.workshop.tables import table

    assert {lead.cable for lead in catalogue.leads.values() if lead.cable} <= set(table("making")["cables"])


def test_the_test_sheet_leaves_no_pair_out(catalogue):
    """Whatever shows something has a row of its own; each end, its shell, and the way across have their
    rows of silence."""
    for lead in catalogue.leads.values():
        sheet = sheets.test_sheet(catalogue, lead)
        shown = {row["between"] for row in sheet["rows"]}
        found = readings(on_bench(catalogue, lead))
        assert {r.pair for r in found if r.low < inf} <= shown, lead.id
        silent = " ".join(row["between"] for row in sheet["silent"])
        for reading in found:
            if reading.pair not in shown:
                ends = {reading.a.split(".")[0], reading.b.split(".")[0]}
                kind = (
                    "the metal shell of"
                    if "body" in reading.pair
                    else "any contact to any other end's"
                    if len(ends) > 1
                    else ""
                )
                assert kind in silent, lead.id
                assert (
                    kind or reading.pair in silent or f"every contact of {min(ends)} to every other" in silent
                ), (lead.id, reading)


def test_capacitors_say_which_way_round(catalogue):
    """The data sheet's way: + towards the side that gives phantom."""
    parts = {
        part["id"]: part["says"]
        for part in solder.components(catalogue.leads["xlr-f-to-xlr-m-phantom-block"])
    }
    assert parts["block-hot"] == "47 µF, 63 V, + to b.2"
    assert parts["bleed-hot"] == "100 kΩ, metal film, 1 %, 250 mW"


def test_legs_that_must_match_are_named(catalogue):
    said = list(solder.matching(catalogue.leads["xlr-f-to-xlr-m-pad-20-db"]))
    assert said == [
        (
            "leg-hot and leg-cold from one reel: 1 % off in opposite directions leaves 57 dB of hum "
            "rejection (10 kΩ to ground)."
        )
    ]


@pytest.mark.parametrize(
    "id", ["xlr-f-to-xlr-m-3m", "xlr-f-to-xlr-m-pad-20-db", "phone-635-trs-to-two-635-ts-insert"]
)
def test_an_order_can_be_wired_one_way_only(catalogue, id):
    """From the ordering sheet alone, every conductor and every part comes out again as the record has it."""
    lead = catalogue.leads[id]
    order = sheets.ordering_sheet(catalogue, lead)
    said = dict(re.findall(r"^  ([a-z0-9]+\.\S+): (.+)$", order, re.MULTILINE))
    joined = {
        frozenset((node, other))
        for node, words in said.items()
        if node.count(".") == 1 and "-" not in node
        for piece in words.split("; ")
        if piece.startswith(("core", "wire", "screen"))
        for other in re.findall(r"[a-z0-9]+\.\w+", piece)
    }
    assert joined == {
        frozenset((one, other))
        for join in lead.joins
        for one in join.nodes
        for other in join.nodes
        if one < other
    }
    for part in solder.made(lead):
        assert re.search(
            rf"^  {part.id}: .* between {re.escape(part.a)} and {re.escape(part.b)}$", order, re.MULTILINE
        )


def test_a_build_sheet_for_every_lead_of_wire(catalogue):
    for lead in catalogue.leads.values():
        if fibres(lead, catalogue.connectors):  # tests/data/test_light.py
            continue
        sheet = sheets.build_sheet(catalogue, lead)
        text = sheets.text(sheet, sheets.ordering_sheet(catalogue, lead))
        assert "Solder with glasses on" in text and "Unplug every end" in text
        assert any(step.startswith("Test it") for step in sheet["steps"])
        assert len(sheet["buy"]) == len(lead.ends) + bool(lead.cable)
        assert bool(sheet["strip"]) == bool(lead.cable)
        if any(part.kind == "capacitor" for part in solder.made(lead)):
            assert any("charged capacitor" in caution for caution in sheet["cautions"])
