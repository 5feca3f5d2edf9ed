"""The shortest way to tell look-alikes apart, followed with honest readings for every lead that has any."""

import pytest

from generator.workshop import siblings
from generator.workshop.likely import apart


@pytest.fixture(scope="module")
def families(catalogue):
    """(dictionary, way) of every lead with look-alikes."""
    found = []
    for lead in catalogue.leads.values():
        if lead.looks_like:
            known = siblings.apart(catalogue, siblings.alike(catalogue, lead))
            found.append((lead.id, known, siblings.shortest(known)))
    return found


def followed(known, way, lead):
    """The leads left, and the number of readings, for who has this lead in the hand."""
    count = 0
    while "m" in way:
        count += 1
        [way] = [
            answer["then"] for answer in way["answers"] if known.which[lead, way["m"]] in answer["classes"]
        ]
    return way["leads"], count


def test_honest_readings_end_on_the_lead(families):
    """And whoever is left with it reads the same everywhere, as far as a meter can tell."""
    for id, known, way in families:
        for lead in range(len(known.faults)):
            left, _ = followed(known, way, lead)
            assert lead in left, id
            together = {lead}
            for _ in left:  # what is alike to what is alike is alike
                together |= {
                    other
                    for other in left
                    for one in together
                    if not any(
                        apart(known.classes[a], known.classes[b])
                        for a, b in zip(known.which[one], known.which[other])
                    )
                }
            assert together == set(left), (id, left)


def test_families_of_three_take_what_three_must(families):
    """One reading where some measurement shows three different things, else one for the first
    and two for the others."""
    count = 0
    for id, known, way in families:
        ends = [followed(known, way, lead) for lead in range(len(known.faults))]
        if len(ends) != 3 or any(len(left) > 1 for left, _ in ends):
            continue
        at_once = any(
            all(
                apart(known.classes[known.which[a, m]], known.classes[known.which[b, m]])
                for a, b in ((0, 1), (0, 2), (1, 2))
            )
            for m in range(known.which.shape[1])
        )
        assert sorted(readings for _, readings in ends) == ([1, 1, 1] if at_once else [1, 2, 2]), id
        count += 1
    assert count > 5


def test_eight_pads_and_a_crossed_lead_take_two_readings(catalogue, families):
    [(_, known, way)] = [one for one in families if one[0] == "xlr-f-to-xlr-m-pad-20-db"]
    assert len(known.faults) == 9
    assert max(followed(known, way, lead)[1] for lead in range(9)) == 2
