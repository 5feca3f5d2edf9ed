"""The guided search against optima worked out exhaustively, and what it says step by step. Expected
information and bounds of small tables are classic; the numbers for an XLR-3 lead come from trying
everything."""

from functools import cache
from itertools import combinations
from math import inf, log2

import numpy as np
import pytest

from generator.workshop import siblings
from generator.workshop.beyond import further
from generator.workshop.dictionary import dictionary, written
from generator.workshop.faulty import Fault
from generator.workshop.guided import guided
from generator.workshop.likely import BEEP, MOVES, SILENT, likelihood
from generator.workshop.dictionary import Window
from generator.workshop.search import Search
from generator.workshop.specimen import on_bench
from generator.workshop.tables import table

from .test_faults import LEAD, SIGNATURES

TEN = [
    Fault(id.partition(":")[0], tuple(id.partition(":")[2].split("-")) if ":" in id else ())
    for id in SIGNATURES
]


@pytest.fixture(scope="module")
def ten(catalogue):
    """The ten faults of an XLR-3 lead and the 15 pairs of its six contacts, as conducting or not: (faults,
    pairs), and the dictionary."""
    known = dictionary(on_bench(catalogue, catalogue.leads[LEAD]), TEN)
    plain = [i for i, m in enumerate(known.measurements) if "body" not in written(m)]
    conducts = np.array([window.high < inf for window in known.classes])
    return conducts[known.which[:, plain]], known, plain


def test_six_readings_are_exactly_enough(ten):
    """No fixed set of 5 of the 15 pairs separates the ten, 64 sets of 6 do; the same 64 are the smallest
    that detect every fault."""
    table_, _, _ = ten

    def separates(columns):
        return len({tuple(row) for row in table_[:, columns]}) == 10

    assert not any(separates(list(c)) for c in combinations(range(15), 5))
    six = [c for c in combinations(range(15), 6) if separates(list(c))]
    detecting = [
        c
        for c in combinations(range(15), 6)
        if all((table_[0, list(c)] != row[list(c)]).any() for row in table_[1:])
    ]
    assert len(six) == 64 and six == detecting
    assert not any(
        all((table_[0, list(c)] != row[list(c)]).any() for row in table_[1:])
        for c in combinations(range(15), 5)
    )


def best_expected(table_):
    """Fewest readings on average and at worst with the best of all adaptive orders, by dynamic programming:
    (average, worst)."""

    @cache
    def cost(left, by):
        if len(left) == 1:
            return 0
        found = []
        for column in range(table_.shape[1]):
            one = tuple(i for i in left if table_[i, column])
            two = tuple(i for i in left if not table_[i, column])
            if one and two:
                found.append(
                    len(left) + cost(one, by) + cost(two, by)
                    if by == "sum"
                    else 1 + max(cost(one, by), cost(two, by))
                )
        return min(found)

    everything = tuple(range(len(table_)))
    return cost(everything, "sum") / len(table_), cost(everything, "worst")


def test_the_best_order_takes_3_8_readings_and_6_at_worst(ten):
    assert best_expected(ten[0]) == (3.8, 6)
    assert log2(10) == pytest.approx(3.32, abs=0.01)


@pytest.fixture
def certain(monkeypatch):
    """Readings that are never wrong."""
    rows = {**table("search"), "wrong": {**table("search")["wrong"], "chance": "0"}}
    monkeypatch.setattr(
        "generator.workshop.likely.table", lambda name: rows if name == "search" else table(name)
    )


def test_information_of_the_first_reading(ten, certain):
    """0.8813 bit straight through, 0.7219 across, 0.4690 within an end."""
    _, known, plain = ten
    gains = dict(zip(map(written, known.measurements), Search(known, np.ones(10)).gains(np.full(10, 0.1))))
    for pair, bits in {
        "a.1-b.1": 0.8813,
        "a.2-b.2": 0.8813,
        "a.1-b.2": 0.7219,
        "a.2-b.3": 0.7219,
        "a.1-a.2": 0.4690,
        "b.2-b.3": 0.4690,
    }.items():
        assert gains[pair] == pytest.approx(bits, abs=2e-3), pair


def test_asking_by_information_is_as_good_as_the_best_here(ten, certain):
    """3.8 on average, 6 at worst: greedy, and yet the optimum of this table."""
    table_, known, plain = ten
    search = Search(known, np.ones(10))
    counts = []
    for fault in range(10):
        left = np.ones(10)
        count = 0
        while np.count_nonzero(left) > 1:
            gains = search.gains(left / left.sum())
            column = max(range(15), key=lambda i: (round(gains[plain[i]], 6), -i))
            left = left * (table_[:, column] == table_[fault, column])
            count += 1
        counts.append(count)
    assert (sum(counts) / 10, max(counts)) == (3.8, 6)


@pytest.mark.parametrize("n, tests, readings", [(3, 3, 6), (4, 3, 10), (5, 4, 15), (8, 4, 36), (25, 6, 325)])
def test_how_many_tests_a_lead_takes(n, tests, readings):
    """p - 1 + ceil(log2 q) with several contacts under a probe ('Testing for faults in wiring networks',
    IEEE Trans. Computers, 1974), here p = 2, q = n; n + n(n-1)/2 with two probes."""
    from generator.workshop.counts import multi_probe_tests, two_probe_readings

    assert (multi_probe_tests(n), two_probe_readings(n)) == (tests, readings)


# -- likelihoods
# ----------------------------------------------------------------------------------------------------


def test_no_reading_is_impossible():
    """A good reading of a contact that comes and goes is weak evidence, and a wrong one never rules
    anything out."""
    wire, gone, flaky = Window(0.1, 0.3), Window(inf, inf), Window(0.1, 0.3, moves=True)
    assert likelihood(0.2, wire) == likelihood(inf, gone) == 1
    assert likelihood(inf, wire) == likelihood(0.2, gone) == pytest.approx(0.025)
    assert likelihood(0.2, flaky) == likelihood(inf, flaky) == pytest.approx(0.1)
    assert likelihood(MOVES, flaky) == 0.9 and likelihood(MOVES, wire) == pytest.approx(0.025)


def test_a_beep_alone_says_little():
    """It beeps below 50 ohm on every meter and below 100 on some: 70 ohm fits either way."""
    for window, beep, silent in (
        (Window(0.1, 0.3), 1, 0.025),
        (Window(70, 70), 1, 1),
        (Window(680, 680), 0.025, 1),
        (Window(inf, inf), 0.025, 1),
    ):
        assert likelihood(BEEP, window) == pytest.approx(beep) and likelihood(
            SILENT, window
        ) == pytest.approx(silent)


# -- as it is told
# --------------------------------------------------------------------------------------------------


def ask(catalogue, *typed, lead=LEAD, among=False):
    return guided(catalogue, catalogue.leads[lead], typed, among)


def test_step_by_step_to_an_open_contact(catalogue):
    data, _ = ask(catalogue)
    assert data["state"] == "measuring" and data["next"]["between"] in ("a.1-b.1", "a.2-b.2", "a.3-b.3")
    readings = []
    while data["next"]:
        pair = data["next"]["between"]
        readings.append(f"{pair}={'0.3ohm' if pair in ('a.1-b.1', 'a.3-b.3') else 'open'}")
        data, text = ask(catalogue, *readings)
    assert {one["id"] for one in data["named"]} == {"open:a.2", "open:b.2"}
    assert data["brief"] == ["a.2 or b.2 open"] and data["misfits"] == []
    assert "Found" in text and "a.2 or b.2 open" in text
    assert data["further"]["between"] == "a.1-a.2", "a capacitance reading tells which end"
    assert {one["id"]: one["says"] for one in data["further"]["shows"]}["open:a.2"] == "nothing"
    assert len(readings) <= 6


def test_a_reading_that_does_not_fit_is_named(catalogue):
    data, text = ask(
        catalogue,
        "a.2-b.2=open",
        "a.2-b.3=0.3ohm",
        "a.3-b.2=0.3ohm",
        "a.3-b.3=0.3ohm",
        "a.2-b.2=open",
        "a.2-b.3=0.3ohm",
    )
    assert data["brief"] == ["a.2 and a.3 or b.2 and b.3 changed over"]
    assert data["misfits"] == ["a.3-b.3=0.3ohm"]
    assert "a.3-b.3=0.3ohm does not fit what you read before. Read it again." in text


def test_what_no_ohmmeter_tells_and_what_would(catalogue):
    """Screen and core changed over at both ends read as a good lead does; the capacitance does not (more
    than 25 %)."""
    specimen = on_bench(catalogue, catalogue.leads[LEAD])
    known = dictionary(specimen)
    good = known.place("good")
    alike = {known.faults[i].id for i in np.flatnonzero(known.alike[good])}
    assert alike == {"good", "crossed-both:a.1-a.2-b.1-b.2", "crossed-both:a.1-a.3-b.1-b.3"}
    found = further(specimen, [known.faults[i] for i in np.flatnonzero(known.alike[good])])
    spans = dict((fault.id, span) for fault, span in found.shows)
    assert len({tuple(round(bound * 1e12) for bound in span) for span in spans.values()}) == 2
    middles = sorted(sum(span) for span in spans.values())
    assert middles[-1] / middles[0] > 1.25


@pytest.mark.parametrize(
    "typed, complaint",
    [
        (
            "a.1-b.9=0.2ohm",
            "'a.1-b.9' is not a pair of contacts of this lead. Nearest: a.1-b.3, a.1-b.2, a.1-b.1.",
        ),
        ("%%%=1ohm", "'%%%' is not a pair of contacts of this lead."),
        (
            "a.1-b.1=opn",
            (
                "'opn' is not a reading; write a resistance (0.3ohm, 2.2kohm), open, beep, silent or moves. "
                "Did you mean open?"
            ),
        ),
        (
            "a.1-b.1=3V",
            "'3V' is not a reading; write a resistance (0.3ohm, 2.2kohm), open, beep, silent or moves.",
        ),
        (
            "a.1-b.1=-2ohm",
            "'-2ohm' is not a reading; write a resistance (0.3ohm, 2.2kohm), open, beep, silent or moves.",
        ),
        (
            "a.1-b.1",
            (
                "'a.1-b.1' tells no reading; write a.1-b.1= and a resistance (0.3ohm, 2.2kohm), open, beep, "
                "silent or moves."
            ),
        ),
    ],
)
def test_bad_readings_are_refused(catalogue, typed, complaint):
    from generator.workshop.safety import Misuse

    with pytest.raises(Misuse) as found:
        ask(catalogue, typed)
    assert str(found.value) == complaint


def test_pairs_may_be_typed_either_way_round(catalogue):
    assert ask(catalogue, "b.2-a.2=open")[0]["likely"] == ask(catalogue, "a.2-b.2=open")[0]["likely"]


# -- look-alikes
# ----------------------------------------------------------------------------------------------------


def test_which_pad_is_in_the_hand(catalogue):
    data, _ = ask(
        catalogue, "a.2-b.2=1.2kohm", "a.2-a.3=2.5kohm", lead="xlr-f-to-xlr-m-pad-20-db", among=True
    )
    assert data["state"] == "found" and data["brief"] == ["xlr-f-to-xlr-m-pad-25-db"]


def test_look_alikes_are_told_apart_or_said_to_be_alike(catalogue):
    """For every family of look-alikes and each of its leads: honest readings end on that lead or on those
    no ohmmeter tells from it."""
    from random import Random

    from .oracle import Bench

    seen = 0
    for lead in catalogue.leads.values():
        if lead.looks_like:
            known = siblings.apart(catalogue, siblings.alike(catalogue, lead))
            run = Bench(known).run(0, Random(lead.id))
            assert 0 in run.ending.named, lead.id
            assert run.count <= 8, lead.id
            seen += 1
    assert seen > 60
