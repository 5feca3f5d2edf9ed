"""What the verdicts hang on, weighted by how many hang on it."""

from collections import Counter
from dataclasses import replace

import once
import pytest

from generator.engine import judge
from generator.ledger.rows import row as in_short
from generator.site.facts import DECIDED, Facts, by_grade, share, unsourced


def row(
    verdict,
    finding,
    subject,
    start="mic-condenser-p48-xlr",
    through=("xlr-f-to-xlr-m-3m",),
    target="mixer-mic-in-p48-xlr",
):
    return {
        "from": start,
        "through": list(through),
        "into": target,
        "verdict": verdict,
        "findings": [finding],
        "subject": subject,
    }


def graded(catalogue, id, grade):
    """The catalogue with every limit and need of a port graded anew."""
    port = catalogue.ports[id]
    known = lambda parts: tuple(
        replace(part, evidence=replace(part.evidence, grade=grade, note="A manual.")) for part in parts
    )
    changed = replace(
        port, network=replace(port.network, limits=known(port.network.limits)), needs=known(port.needs)
    )
    return replace(catalogue, ports={**catalogue.ports, id: changed})


def test_a_need_is_a_fact_of_its_device(catalogue):
    """common practice: a phantom condenser on an input without phantom hangs on the
    volts its maker asks for."""
    one = in_short(
        judge(catalogue, "mic-condenser-p48-xlr", ("xlr-f-to-xlr-m-3m",), "mixer-mic-in-xlr").as_data()
    )
    assert one["findings"] == ["not-powered"]
    fact = Facts(graded(catalogue, "mic-condenser-p48-xlr", "standard")).of(one)
    assert (fact.path, fact.grade, fact.note) == ("ports/mic-condenser-p48-xlr/", "standard", "A manual.")
    assert (
        fact.says == f"What the microphone electronics needs: {catalogue.ports['mic-condenser-p48-xlr'].name}"
    )


def test_a_rating_is_a_fact_of_the_part_that_is_passed(catalogue):
    judged = judge(
        catalogue, "battery-tap-out", ("battery-tap-to-xlr-4-f-reversed",), "camera-dc-in-xlr-4"
    ).as_data()
    over = next(finding for finding in judged["findings"] if finding["id"] == "over-current")
    fact = Facts(graded(catalogue, "battery-tap-out", "published")).of(
        row(
            "dangerous",
            over["id"],
            over["subject"],
            "battery-tap-out",
            ("battery-tap-to-xlr-4-f-reversed",),
            "camera-dc-in-xlr-4",
        )
    )
    assert (fact.path, fact.grade) == ("ports/battery-tap-out/", "published") and fact.says.startswith(
        "What the battery or its fuse stands: "
    )


@pytest.mark.parametrize(
    "finding, subject",
    [
        ("too-hot", "from/main>into/main"),
        ("rating-not-known", "into/main.couple"),
        ("over-volts", "extra1/main.supply"),
    ],
)
def test_what_hangs_on_no_number_of_the_catalogue_hangs_on_the_rule(catalogue, finding, subject):
    """A level against another, a rating nobody knows, and what a partner in a spare end stands, which
    the row does not name."""
    fact = Facts(catalogue).of(row("dangerous", finding, subject))
    assert (fact.says, fact.path) == (f"The limit of “{finding.replace('-', ' ')}”", "methods/")


@pytest.mark.parametrize(
    "number, grade",
    [("12 mA / 2 mA", "published"), ("45 mA / 30 mA", "from memory"), ("12 mA", "from memory")],
)
def test_rules_of_one_name_are_told_apart_by_their_limits(catalogue, number, grade):
    """What flows back into a supply that is on may be less than into one that is off; where the row does not
    tell, the weaker counts."""
    assert (
        Facts(catalogue)
        .of({**row("dangerous", "supply-against-supply", "from/main.rail"), "number": number})
        .grade
        == grade
    )


@pytest.mark.parametrize(
    "one",
    [
        row("safe", "", ""),
        row("does not fit", "does-not-mate", ""),
        row("dangerous", "not-solved", "connection"),
        {**row("lossy", "", ""), "findings": []},
    ],
)
def test_some_hang_on_no_number(catalogue, one):
    assert Facts(catalogue).of(one) is None


def test_what_most_dangers_hang_on_comes_first(catalogue):
    rows = (
        3 * [row("lossy", "too-hot", "")]
        + 2 * [row("dangerous", "rating-not-known", "into/main.x")]
        + [row("dangerous", "uneven-phantom", "from/main.coil")]
    )
    weighed = Facts(catalogue).weighed(rows)
    assert [(fact.says, dict(counts)) for fact, counts in weighed.items()] == [
        ("The limit of “rating not known”", {"dangerous": 2}),
        ("The limit of “uneven phantom”", {"dangerous": 1}),
        ("The limit of “too hot”", {"lossy": 3}),
    ]
    grades = by_grade(weighed)
    assert (
        set(grades) == set(DECIDED)
        and sum(grades["dangerous"].values()) == 3
        and sum(grades["lossy"].values()) == 3
    )
    assert all(fact.grade in ("common practice", "from memory") for fact, _ in unsourced(weighed))


def test_the_share_that_has_a_source():
    assert share({"standard": 1, "published": 2, "from memory": 3}) == 0.5 and share({}) == 0


def test_almost_every_verdict_of_the_ledger_hangs_on_a_fact(catalogue):
    facts, rows = Facts(catalogue), once.rows(catalogue)
    without = [one for one in rows if one["verdict"] in DECIDED and facts.of(one) is None]
    assert len(without) < len(rows) / 1000, without[:3]
    grades = by_grade(facts.weighed(rows))
    assert share(grades["dangerous"]) > 0.5, (
        "half of what is called dangerous rests on what somebody has read"
    )
    assert share(sum(grades.values(), Counter())) > 0.65


def test_the_page_tells_them(catalogue, rows, tree):
    page, weighed = tree["coverage.md"].decode(), Facts(catalogue).weighed(rows)
    for counts in by_grade(weighed).values():
        assert f"<td>{100 * share(counts):.0f} %</td>" in page
    assert f"They hang on {len(weighed)} different facts" in page
    for fact, counts in list(unsourced(weighed))[:5]:
        assert (
            f"{fact.says}</a>" in page
            and f"{counts['dangerous']} dangerous of {sum(counts.values())} verdicts" in page
        )
