"""What holds for every connector and every assignment of the catalogue, whoever published it."""

from itertools import combinations
from math import hypot

from generator.drawing import faces
from generator.engine.mate import PLUGS, mate


def test_every_size_is_above_zero(catalogue):
    for connector in catalogue.connectors.values():
        for half in connector.halves.values():
            assert all(size > 0 for size in half.sizes.values()), connector.id
            assert all(low < high for low, high in half.segments.values()), connector.id
            assert all(spring.near <= spring.far and spring.width > 0 for spring in half.springs.values()), (
                connector.id
            )


def test_contacts_of_a_face_stand_apart_and_within_the_shell(catalogue):
    for connector in catalogue.connectors.values():
        spots = faces.places(connector, "male", "face")
        pin = max((half.sizes.get("pin", 0) for half in connector.halves.values()), default=0)
        for (x, y), (u, v) in combinations(spots.values(), 2):
            assert hypot(x - u, y - v) >= max(pin, 0.3), connector.id
        for half in connector.halves.values():
            if spots and "diameter" in half.sizes:
                assert max(hypot(x, y) for x, y in spots.values()) < half.sizes["diameter"] / 2, connector.id
            if spots and "width" in half.sizes:
                assert all(
                    abs(x) < half.sizes["width"] / 2 and abs(y) < half.sizes["height"] / 2
                    for x, y in spots.values()
                ), connector.id


def test_springs_of_different_contacts_never_stand_in_one_place(catalogue):
    for connector in catalogue.connectors.values():
        springs = connector.halves["jack"].springs.values() if "jack" in connector.halves else ()
        for one, two in combinations(springs, 2):
            assert one.far + one.width / 2 < two.near - two.width / 2, connector.id


def test_every_connector_can_be_recognised_by_questions(catalogue):
    for connector in catalogue.connectors.values():
        assert {"diameter", "contacts", "latch", "keyway", "shell", "outline"} <= set(connector.looks), (
            connector.id
        )
        assert connector.looks["contacts"] == len(connector.contacts), connector.id
        if connector.looks["outline"] == "rod" and connector.shape == "concentric":
            assert connector.looks["rings"] == len(connector.contacts) - 1, connector.id


def test_thick_and_thin_plugs_are_as_thick_as_published(catalogue):
    # encyclopedia-phone-connector: 6.35, 3.5 and 2.5 mm; five-pole-plug-note: 4.4 mm
    for start, diameter in (
        ("phone-635", 6.35),
        ("phone-35", 3.5),
        ("phone-25", 2.5),
        ("phone-44-five", 4.4),
    ):
        for id, connector in catalogue.connectors.items():
            if id.startswith(f"{start}-") or id == start:
                assert connector.halves["plug"].sizes["diameter"] == diameter, id


def test_every_assignment_says_what_it_is_for_and_how_to_tell_it(catalogue):
    for assignment in catalogue.assignments.values():
        assert assignment.used_for and assignment.recognise and assignment.evidence.checked, assignment.id


def test_no_two_records_are_identical(catalogue):
    for kind in (catalogue.connectors, catalogue.assignments):
        for one, two in combinations(kind.values(), 2):
            mine, its = (
                {key: value for key, value in vars(record).items() if key not in ("id", "name", "evidence")}
                for record in (one, two)
            )
            assert mine != its, f"{one.id} and {two.id}"


def test_assignments_with_equal_contacts_say_how_they_differ(catalogue):
    """Whoever finds one of them by its contacts must be led to the other, directly or over a third."""
    twins = {}
    for id, assignment in catalogue.assignments.items():
        twins.setdefault((assignment.connector, frozenset(assignment.carries.items())), []).append(id)
    for ids in twins.values():
        reached, todo = set(), [ids[0]]
        while todo:
            id = todo.pop()
            reached.add(id)
            around = {
                *catalogue.assignments[id].mistaken_for,
                *(o for o, its in catalogue.assignments.items() if id in its.mistaken_for),
            }
            todo += around - reached
        assert set(ids) <= reached, ids


def test_a_plug_and_its_own_receptacle_meet_contact_for_contact(catalogue):
    """By definition of a family: fully home, every contact can meet the one of its own name."""
    for connector in catalogue.connectors.values():
        receptacles = [half for half in connector.halves if half not in PLUGS]
        for half in receptacles if len(connector.halves) == 2 else ():
            other = next(name for name in connector.halves if name in PLUGS)
            assert (
                frozenset((c, c) for c in connector.contacts)
                in mate((connector, half), (connector, other)).home
            ), connector.id
