"""The catalogue as a whole: wide enough to be worth carrying, no record twice, none that nothing reaches,
every part in a lead rated."""

from itertools import combinations, pairwise

import pytest

from generator.engine.mate import fits

LEAST = {"connectors": 60, "assignments": 190, "ports": 300, "leads": 400}


@pytest.mark.parametrize("kind", LEAST)
def test_it_is_wide_enough_to_be_worth_carrying(catalogue, kind):
    assert len(getattr(catalogue, kind)) >= LEAST[kind]


def half(catalogue, place) -> tuple:
    """A port or an end of a lead as something to plug."""
    return catalogue.connectors[place.connector], place.half


def test_every_port_is_reached_by_a_lead_or_another_port(catalogue):
    ends = {half(catalogue, end) for lead in catalogue.leads.values() for end in lead.ends.values()}
    # a captive plug may have no lead, only its socket
    ends |= {half(catalogue, port) for port in catalogue.ports.values()}
    for port in catalogue.ports.values():
        assert any(fits(half(catalogue, port), end) for end in ends), port.id


def test_every_end_of_a_lead_fits_a_port_or_another_lead(catalogue):
    halves = {half(catalogue, port) for port in catalogue.ports.values()}
    halves |= {half(catalogue, end) for lead in catalogue.leads.values() for end in lead.ends.values()}
    for lead in catalogue.leads.values():
        for name, end in lead.ends.items():
            assert any(fits(half(catalogue, end), other) for other in halves), f"{lead.id} {name}"


def test_no_two_ports_are_the_same(catalogue):
    """Same class of device, same socket, same circuit behind it: one record under two names."""
    kept = (
        "device",
        "connector",
        "half",
        "assignment",
        "contacts",
        "network",
        "sources",
        "listeners",
        "supplies",
        "needs",
        "earthed",
    )
    for one, two in combinations(catalogue.ports.values(), 2):
        assert any(getattr(one, key) != getattr(two, key) for key in kept), f"{one.id} and {two.id}"


def test_no_two_leads_are_the_same(catalogue):
    for one, two in combinations(catalogue.leads.values(), 2):
        if {end: (place.connector, place.half) for end, place in one.ends.items()} == {
            end: (place.connector, place.half) for end, place in two.ends.items()
        }:
            # a cable of another impedance is another lead, though sound in it is alike
            assert (one.network, one.name.split(",")[0]) != (two.network, two.name.split(",")[0]), (
                f"{one.id} and {two.id}"
            )


def test_every_capacitor_and_every_winding_in_a_lead_has_a_rating(catalogue):
    """What stops 48 V, or would burn out on it, must say what it stands."""
    for lead in catalogue.leads.values():
        rated = {(limit.quantity, limit.part) for limit in lead.network.limits}
        for part in lead.network.parts:
            if part.kind == "capacitor" and not part.id.startswith("cable."):
                assert ("volts", part.id) in rated, f"{lead.id}: {part.id}"
        coils = {part.coil for part in lead.network.parts if part.coil}
        wound = {part.coil for part in lead.network.parts if part.coil and ("amps", part.id) in rated}
        assert coils == wound, lead.id


def test_segments_of_a_plug_follow_each_other_without_overlap(catalogue):
    for connector in catalogue.connectors.values():
        segments = list(connector.halves["plug"].segments.values()) if "plug" in connector.halves else []
        assert all(one[1] < two[0] for one, two in pairwise(segments)), connector.id


def test_leads_that_look_alike_tell_how_to_tell_them(catalogue):
    for lead in catalogue.leads.values():
        assert lead.tell_apart or not lead.looks_like, lead.id


def test_assignments_that_share_a_connector_warn_of_each_other(catalogue):
    """Where one connector serves several uses, each use is warned of or warns; the valve supply stands
    alone on its connector."""
    shared = {}
    for assignment in catalogue.assignments.values():
        shared.setdefault(assignment.connector, []).append(assignment)
    for assignments in shared.values():
        for assignment in assignments if len(assignments) > 1 else ():
            assert assignment.mistaken_for or any(
                assignment.id in other.mistaken_for for other in assignments
            ), assignment.id
