from itertools import combinations
from math import hypot

import pytest

from generator.catalogue.records import Catalogue
from generator.drawing import draw, faces

from . import seen
from .conftest import ROUND, circular

CONTACTS = ("1", "2", "3")


def centres(source, roles=None):
    return {c: seen.circles(source, f"contact {c} ({roles[c]})" if roles else f"contact {c}")[0][:2] for c in CONTACTS}


def test_xlr_contacts_stand_where_the_published_footprints_have_them(catalogue):
    # cad-footprints-xlr: male mating face 1 left, 2 right, 3 bottom; the female is its mirror
    male = centres(draw(catalogue, "xlr-3", "face", "male"))
    assert male["1"][0] < male["3"][0] < male["2"][0] and male["3"][1] > male["1"][1] == male["2"][1]
    female = centres(draw(catalogue, "xlr-3", "face", "female"))
    assert female["2"][0] < female["3"][0] < female["1"][0] and female["3"][1] > female["1"][1]


@pytest.mark.parametrize("view", faces.VIEWS)
def test_the_other_half_is_the_mirror(view):
    male, female = faces.places(ROUND, "male", view), faces.places(ROUND, "female", view)
    for contact, (x, y) in male.items():
        assert female[contact] == pytest.approx((-x, y))


def test_male_face_is_female_solder_side_and_the_other_way_round():
    assert faces.places(ROUND, "male", "face") == faces.places(ROUND, "female", "solder")
    assert faces.places(ROUND, "female", "face") == faces.places(ROUND, "male", "solder")
    assert faces.places(ROUND, "male", "face") != faces.places(ROUND, "male", "solder")


def from_first(source, contact, first):
    """A contact's place as seen from the first one."""
    (x, y, _), (x1, y1, _) = (seen.circles(source, f"contact {which}")[0] for which in (contact, first))
    return x - x1, y - y1


def test_every_connector_with_a_face_keeps_the_mirror_rule_as_drawn(catalogue):
    for connector in (c for c in catalogue.connectors.values() if c.shape in ("circular", "rectangular") and len(c.halves) == 2):
        face, solder, mirror = (draw(catalogue, connector.id, view, half) for view, half in
                                (("face", "male"), ("solder", "female"), ("face", "female")))
        first = connector.contacts[0]
        for contact in connector.contacts:
            x, y = from_first(face, contact, first)
            assert from_first(solder, contact, first) == pytest.approx((x, y), abs=0.21)
            assert from_first(mirror, contact, first) == pytest.approx((-x, y), abs=0.21)


def test_pins_are_filled_sockets_open_and_cups_half_filled(small):
    assert seen.classes(draw(small, "round", "face", "male"))["rf-pin"] == 3
    assert seen.classes(draw(small, "round", "face", "female"))["rf-socket"] == 3
    assert seen.classes(draw(small, "round", "solder", "male"))["rf-cup"] == 3


def test_the_title_says_side_and_half(small):
    assert seen.titles(draw(small, "round", "solder", "female"))[0] == "Circular round: Female half, seen from the solder side"
    assert seen.titles(draw(small, "round", "face", "male"))[0] == "Circular round: Male half, mating face"


def test_an_assignment_names_what_each_contact_carries(small):
    drawn = draw(small, "round-audio")
    assert seen.titles(drawn)[0] == "Audio on round: Circular round: male half, mating face"
    assert {"screen", "hot", "cold"} <= {words.words for words in seen.all_words(drawn)}
    assert seen.described(drawn).endswith("Contacts from left to right: 1 (screen), 3 (cold) and 2 (hot).")


def test_a_line_to_a_role_does_not_cross_the_key_beside_it(catalogue):
    drawn = draw(catalogue, "xlr-3-balanced")  # its key stands beside contact 2
    hot = next(words for words in seen.all_words(drawn) if words.words == "hot")
    _, y, _ = seen.circles(drawn, "contact 2 (hot)")[0]
    assert hot.top > y


def test_pins_of_a_crowded_insert_keep_apart():
    crowded = circular("crowded", {str(n): 60 * n for n in range(1, 7)})
    small = Catalogue({"crowded": crowded}, {}, {}, {}, {}, {})
    drawn = [seen.circles(draw(small, "crowded", "face", "male"), f"contact {n}")[0] for n in range(1, 7)]
    for (x, y, r), (u, v, s) in combinations(drawn, 2):
        assert hypot(x - u, y - v) > r + s + 3


def test_a_d_sub_has_its_long_row_above_and_its_numbers_at_the_contacts(catalogue):
    drawn = draw(catalogue, "d-sub-25", "face", "male")
    upper, lower = ([seen.circles(drawn, f"contact {n}")[0][:2] for n in numbers] for numbers in (range(1, 14), range(14, 26)))
    assert upper == sorted(upper) and lower == sorted(lower)  # from memory: male face, contact 1 at the upper left
    assert max(y for _, y in upper) < min(y for _, y in lower)
    numbers = {words.words: words for words in seen.all_words(drawn) if words.words.isdecimal()}
    for number, (x, _) in zip(range(1, 14), upper):
        assert numbers[str(number)].left < x < numbers[str(number)].right


def test_a_rectangular_face_lists_what_its_contacts_carry(catalogue):
    drawn = draw(catalogue, "d-sub-25-aes59-analogue", "face", "female")
    said = {words.words for words in seen.all_words(drawn)}
    assert {"hot 1", "cold 8", "screen 4"} <= {" ".join(words.split(" ")[-2:]) for words in said}
    assert "contact 24 (hot 1)" in seen.titles(drawn)
    assert seen.described(drawn).count(";") == 1  # two rows


def test_a_socket_without_a_plug_of_its_own_is_drawn(catalogue):
    drawn = draw(catalogue, "combo-635-trs")
    assert seen.titles(drawn)[0] == "Combination socket, 6.35 mm phone part: Jack, cut open"
    with pytest.raises(ValueError, match="'combo-635-trs' .* has no half 'plug'; it has jack"):
        draw(catalogue, "combo-635-trs", "plug", "plug")
