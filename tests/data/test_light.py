"""Light and sync, over the whole catalogue: what carries no current harms nothing, no meter is put to a
fibre, and what is not the same kind of signal is not taken for it."""

import pytest

from generator.catalogue.light import fibres, only_light
from generator.drawing import draw, views
from generator.engine import judge
from generator.engine.mate import mate
from generator.engine.matrix import pairings
from generator.workshop import sheets
from generator.workshop.readings import readings
from generator.workshop.specimen import on_bench


@pytest.fixture(scope="module")
def lit(catalogue):
    """Leads with fibres."""
    found = [lead for lead in catalogue.leads.values() if fibres(lead, catalogue.connectors)]
    assert found
    return found


def of_light(catalogue, port):
    """Has this port nothing but light?"""
    connector = catalogue.connectors[catalogue.ports[port].connector]
    return set(connector.light) == set(connector.contacts)


def test_light_is_never_dangerous(catalogue):
    """IEC 60825 is about eyes; to a circuit, light brings neither volts nor current."""
    found = [
        judge(catalogue, *pairing)
        for pairing in pairings(catalogue)
        if of_light(catalogue, pairing[0]) or of_light(catalogue, pairing[2])
    ]
    assert found
    assert {one.verdict for one in found} == {"safe", "no signal"}


def test_no_meter_is_put_to_a_fibre(catalogue, lit):
    for lead in lit:
        passing = {node for join in fibres(lead, catalogue.connectors) for node in join.nodes}
        specimen = on_bench(catalogue, lead)
        assert not passing & set(specimen.terminals), lead.id
        assert not passing & {node for one in readings(specimen) for node in (one.a, one.b)}, lead.id


def test_a_sheet_of_a_fibre_has_no_iron_in_it(catalogue, lit):
    for lead in lit:
        sheet = sheets.build_sheet(catalogue, lead)
        assert (sheet["solder"], sheet["strip"]) == ([], [])
        assert not any(word in step for step in sheet["steps"] for word in ("Solder", "Strip", "Tin"))
        assert any(text.startswith("Never look into a fibre") for text in sheet["cautions"]), lead.id
        assert "loss of each fibre" in sheets.ordering_sheet(catalogue, lead)


def test_every_fibre_is_told_with_where_it_comes_out(catalogue, lit):
    for lead in lit:
        told = sheets.test_sheet(catalogue, lead)["light"]
        for join in fibres(lead, catalogue.connectors):
            assert f"{' to '.join(join.nodes)}: light" in told


def test_wires_beside_fibres_are_measured(catalogue):
    lead = catalogue.leads["camera-hybrid-to-camera-hybrid"]
    assert not only_light(lead, catalogue.connectors)
    between = [row["between"] for row in sheets.test_sheet(catalogue, lead)["rows"]]
    assert between == ["a.1-b.1", "a.2-b.2", "a.3-b.3", "a.4-b.4", "a.shell-b.shell"]


def test_leads_of_wire_have_nothing_to_shine_a_torch_into(catalogue):
    assert sheets.test_sheet(catalogue, catalogue.leads["xlr-f-to-xlr-m-3m"])["light"] == []


def verdict(catalogue, start, lead, target):
    return judge(catalogue, start, (lead,), target)


@pytest.mark.parametrize(
    ("start", "lead", "target"),
    [
        ("optical-out-square", "optical-square-to-optical-square-1m", "optical-in-square"),
        ("optical-out-square-eight", "optical-square-to-optical-square-5m", "optical-in-square-eight"),
        ("madi-fibre-lc", "lc-duplex-to-sc-duplex", "stage-box-madi-fibre-sc"),
        ("network-fibre-lc", "lc-duplex-to-lc-duplex-single-mode", "stage-box-network-fibre-lc"),
        ("tri-level-out-bnc", "bnc-to-bnc-75-ohm", "genlock-in-bnc"),
        ("black-burst-out-bnc", "bnc-to-bnc-75-ohm", "genlock-in-bnc"),
        ("madi-out-bnc", "bnc-to-bnc-75-ohm", "madi-in-bnc"),
        ("control-unit-fibre", "camera-hybrid-to-camera-hybrid", "camera-fibre"),
    ],
)
def test_what_is_plugged_every_day_works(catalogue, start, lead, target):
    found = verdict(catalogue, start, lead, target)
    assert found.verdict == "safe"
    assert "not-for-data" not in {finding.id for finding in found.findings}


def test_madi_asks_for_its_cable_however_short(catalogue):
    """125 Mbit/s, some twenty times as fast as stereo digital sound (from memory): no length is short."""
    found = verdict(catalogue, "madi-out-bnc", "bnc-to-bnc-50-ohm", "madi-in-bnc")
    assert found.verdict == "lossy"
    [why] = [finding for finding in found.findings if finding.id == "not-for-data"]
    assert why.says.endswith("the MADI input may lock or may not.")


def test_transmit_on_transmit_is_no_signal(catalogue):
    """A patch lead crosses, A to B (the standards' order); a straight one joins light to light."""
    found = verdict(
        catalogue, "network-fibre-lc", "lc-duplex-to-lc-duplex-straight", "stage-box-network-fibre-lc"
    )
    assert found.verdict == "no signal"
    assert "open-path" in {finding.id for finding in found.findings}


@pytest.mark.parametrize(
    ("start", "lead", "target", "sends", "expects"),
    [
        (
            "word-clock-out-bnc",
            "bnc-to-bnc-75-ohm",
            "genlock-in-bnc",
            "clock",
            "tri-level sync or black burst",
        ),
        ("tri-level-out-bnc", "bnc-to-bnc-75-ohm", "word-clock-in-bnc", "tri-level sync", "clock"),
        ("digital-out-bnc", "bnc-to-bnc-75-ohm", "madi-in-bnc", "digital", "MADI"),
        (
            "optical-out-square-eight",
            "optical-square-to-optical-square-1m",
            "optical-in-square",
            "eight channels on light",
            "S/PDIF",
        ),
        ("network-fibre-lc", "lc-duplex-to-lc-duplex", "madi-fibre-lc", "network", "MADI"),
    ],
)
def test_another_form_is_not_the_same_kind_of_signal(catalogue, start, lead, target, sends, expects):
    found = verdict(catalogue, start, lead, target)
    assert found.verdict == "no signal"
    [why] = [finding.says for finding in found.findings if finding.id == "other-kind"]
    assert f"sends {sends} and" in why and f"expects {expects}: not the same kind of signal" in why


def test_a_round_optical_plug_touches_nothing_in_an_ordinary_socket(catalogue):
    """from memory: its barrel is plastic, and its light ends where no spring is."""
    plug = catalogue.connectors["optical-round-35"], "plug"
    jacks = [
        catalogue.connectors[id]
        for id in ("phone-35-ts", "phone-35-trs", "phone-35-trrs", "combo-optical-35")
    ]
    touched = {jack.id: mate((jack, "jack"), plug).home for jack in jacks}
    assert touched.pop("combo-optical-35") == (frozenset({("light", "light")}),)
    assert set(touched.values()) == {(frozenset(),)}


def test_a_mini_jack_in_a_combined_socket_is_sent_to_its_other_half(catalogue):
    """What a metal plug meets there is another device port: this one says so wherever it does not work."""
    ports = [port for port in catalogue.ports.values() if port.connector == "combo-optical-35"]
    assert len(ports) == 2
    for port in ports:
        assert port.cautions[0].when == ("not-safe",) and port.cautions[0].says.startswith(
            "A mini-jack in this hole gets"
        )
    for id in ("phone-35-ts", "phone-35-trs", "phone-35-trrs"):
        assert (
            mate((catalogue.connectors["combo-optical-35"], "jack"), (catalogue.connectors[id], "plug"))
            is None
        )


def test_what_is_light_alone_has_no_pins_and_no_solder_side(catalogue):
    for connector in catalogue.connectors.values():
        if set(connector.light) != set(connector.contacts):
            continue
        assert "solder" not in views(connector)
        for half in connector.halves:
            words = draw(catalogue, connector.id, half=half)
            assert not any(one in words for one in ("pins", "holes", "solder", "spring"))
    assert "looking at the ends of the fibres" in draw(catalogue, "sc-duplex", half="male")
    assert "looking into the opening for the" in draw(catalogue, "optical-square", half="female")


def test_no_decibels_are_told_of_light(ask):
    _, printed, _ = ask(
        "judge", "optical-out-square", "--through", "optical-square-to-optical-square-1m", "optical-in-square"
    )
    assert printed.startswith("SAFE") and "dB" not in printed
    _, printed, _ = ask(
        "judge", "camera-fibre", "--through", "camera-hybrid-to-camera-hybrid", "control-unit-fibre"
    )
    assert "gets 140 V" in printed and "dB" not in printed
