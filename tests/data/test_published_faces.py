"""How the faces stand and which families meet, held against published drawings; the id of the source in
pinouts/sources.yaml stands beside each."""

from itertools import pairwise

import pytest

from generator.drawing import faces
from generator.engine.mate import fits, mate

# cad-footprints-xlr, looking at the male mating face: contacts from left to right, and the
# one that stands lowest
MALE_FACES = {
    "xlr-3": (["1", "3", "2"], "3"),
    "xlr-4": (["1", "2", "3", "4"], None),
    "xlr-5": (["1", "2", "3", "4", "5"], "3"),
}


@pytest.mark.parametrize("id", MALE_FACES)
def test_the_face_has_its_contacts_in_the_published_order(catalogue, id):
    connector, (order, lowest) = catalogue.connectors[id], MALE_FACES[id]
    male, female = (faces.places(connector, half, "face") for half in ("male", "female"))
    assert sorted(male, key=lambda contact: male[contact][0]) == order
    # three-pin-mic-howto: the mirror
    assert sorted(female, key=lambda contact: female[contact][0]) == order[::-1]
    if lowest:
        assert max(male, key=lambda contact: male[contact][1]) == lowest


def test_the_five_contact_female_agrees_with_its_own_footprint(catalogue):
    # cad-footprints-xlr gives this female for itself; it is good to 8 degrees and 0.5 mm
    published = {"1": (81, 3.86), "2": (129, 4.07), "3": (180, 4.45), "4": (231, 4.07), "5": (288, 4.02)}
    for contact, (angle, radius) in published.items():
        spot = catalogue.connectors["xlr-5"].face[contact]
        assert (360 - spot.angle) % 360 == pytest.approx(angle, abs=8)
        assert spot.radius == pytest.approx(radius, abs=0.7)  # 0.5 mm each, both to be allowed for


def test_din_is_numbered_1_4_2_5_3_from_right_to_left_on_the_plug(catalogue):
    # din-connector-page: male face read right to left with the pins up; din-plug-page: a circle of 7 mm
    # in steps of 45 degrees
    connector = catalogue.connectors["din-5-180"]
    male = faces.places(connector, "male", "face")
    assert sorted(male, key=lambda contact: -male[contact][0]) == ["1", "4", "2", "5", "3"]
    assert {spot.radius for spot in connector.face.values()} == {3.5}
    angles = [connector.face[contact].angle for contact in ("1", "4", "2", "5", "3")]
    assert [(one - two) % 360 for one, two in pairwise(angles)] == [45] * 4


def test_the_male_face_is_the_female_solder_side(catalogue):
    # three-pin-mic-howto, for every connector with a face and both halves
    for connector in catalogue.connectors.values():
        if connector.face and len(connector.halves) == 2:
            assert faces.places(connector, "male", "face") == faces.places(connector, "female", "solder"), (
                connector.id
            )


def test_a_three_contact_din_plug_meets_the_left_channel(catalogue):
    # din-connector-page: mono in a stereo socket
    three, five = catalogue.connectors["din-3"], catalogue.connectors["din-5-180"]
    assert mate((five, "female"), (three, "male")).home == (frozenset((c, c) for c in "123"),)
    assert mate((three, "female"), (five, "male")) is None  # pins 4 and 5 meet no hole
    assert catalogue.assignments["din-5-180-audio"].carries["3"] == "left"


def test_what_can_be_plugged_either_way_round_is_judged_both_ways(catalogue):
    # plain mechanics: posts and bare wire know no side; usb-c-analogue-page: microphone and
    # ground swap with orientation
    posts, wire = catalogue.connectors["binding-post-pair"], catalogue.connectors["bare-wire-pair"]
    straight, crossed = (
        frozenset({("plus", "plus"), ("minus", "minus")}),
        frozenset({("plus", "minus"), ("minus", "plus")}),
    )
    assert set(mate((posts, "female"), (wire, "male")).home) == {straight, crossed}
    usb = catalogue.connectors["usb-c"]
    turned = [state for state in mate((usb, "female"), (usb, "male")).home if ("a8", "b8") in state]
    assert len(turned) == 1 and ("a5", "b5") in turned[0] and ("a6", "b6") in turned[0]
    assert set(usb.turned) == set(usb.turned.values()) == set(usb.contacts)


@pytest.mark.parametrize(
    ("receptacle", "plug"),
    [
        ("phone-635-trs", "phone-635-b-gauge-trs"),  # b-gauge-glossary: not interchangeable
        ("phone-635-b-gauge-trs", "phone-635-trs"),
        ("phone-44-five", "phone-44-patch-trs"),  # from memory: another product of the same thickness
        ("phone-35-trrs-video-15", "phone-35-trrs-video-17"),  # phone-plug-mating: can do damage
        ("phone-35-trrs", "phone-35-trrs-video-17"),
        ("xlr-6-ring", "xlr-6-centre"),  # from memory: two inserts that do not mate
        (
            "loudspeaker-4",
            "loudspeaker-2",
        ),  # from memory: the ring of a four-contact cable plug is in the way
        ("dc-barrel-55-25", "dc-barrel-55-21"),  # the bore is too narrow for the pin
        # from memory: it slides over the thinner pin and its contact comes and goes, no
        # connection to call safe
        ("dc-barrel-55-21", "dc-barrel-55-25"),
    ],
)
def test_families_that_must_not_meet(catalogue, receptacle, plug):
    one, two = catalogue.connectors[receptacle], catalogue.connectors[plug]
    half, other = ("jack", "plug") if "jack" in one.halves else ("female", "male")
    assert not fits((one, half), (two, other))


@pytest.mark.parametrize(
    ("receptacle", "plug"),
    [
        ("combo-xlr-3", "xlr-3"),
        ("combo-635-trs", "phone-635-ts"),
        ("combo-635-trs", "phone-635-trs"),
        ("phone-35-trs", "phone-35-trs-locking"),
        ("phone-35-trs-locking", "phone-35-trrs"),
        ("loudspeaker-2", "loudspeaker-4"),
        ("binding-post-pair", "banana-4-pair"),
    ],
)
def test_families_that_do_meet(catalogue, receptacle, plug):
    # plain mechanics, from memory except the phone plugs (encyclopedia-phone-connector)
    one, two = catalogue.connectors[receptacle], catalogue.connectors[plug]
    half, other = ("jack", "plug") if "jack" in one.halves else ("female", "male")
    assert fits((one, half), (two, other)) and mate((one, half), (two, other)).home
