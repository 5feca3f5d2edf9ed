"""Routes: what is offered has been judged, and is the best there is."""

from dataclasses import replace

import pytest
from everyday import ASKED, with_every

from generator.engine import memory
from generator.engine.glance import glance, plainly
from generator.engine.judge import judge
from generator.engine.mate import fits
from generator.engine.missing import missing
from generator.engine.route import WORTH_OFFERING, chains, cost, remedies, routes
from generator.engine.verdict import RANK, Finding, Verdict


@pytest.fixture
def few(catalogue):
    """The catalogue with every eighth lead: enough to search two in a row."""
    return with_every(8, catalogue)


class Watched:
    """A judge that remembers what it said."""

    def __init__(self, judge=judge):
        self.judge, self.said = judge, {}

    def __call__(self, catalogue, start, through, target):
        self.said[through] = self.judge(catalogue, start, through, target)
        return self.said[through]


@pytest.mark.parametrize("start, target", ASKED)
def test_every_remedy_judged_again_gives_what_it_promised(catalogue, start, target):
    found = routes(catalogue, start, target, most=1)
    assert found, "each of these can be done"
    memory._remembered.clear()  # solve anew
    for offer in found:
        again = judge(catalogue, start, offer.through, target)
        assert (again.verdict, again.findings, again.settings) == (
            offer.verdict,
            offer.findings,
            offer.settings,
        )
        assert again.verdict in ("safe", "lossy") or again.offer


@pytest.mark.parametrize("start, target", ASKED)
def test_nothing_is_offered_that_was_not_judged(few, start, target):
    watched = Watched()
    found = routes(few, start, target, most=2, judge=watched)
    assert all(watched.said[offer.through] is offer for offer in found)
    every = [
        judge(few, start, chain, target)
        for length in (0, 1, 2)
        for chain in chains(few, start, target, length)
    ]
    best = min((cost(few, v) for v in every if v.rank <= WORTH_OFFERING), default=None)
    assert best[:4] == cost(few, found[0])[:4] if found else best is None


@pytest.mark.parametrize("start, target", ASKED)
def test_a_first_look_is_never_worse_than_the_verdict(few, start, target):
    """Else the search would throw away what it should offer."""
    plain, compared = plainly(few), 0
    for chain in [chain for length in (0, 1, 2) for chain in chains(few, start, target, length)][:60]:
        verdict = judge(few, start, chain, target)
        assert glance(plain, start, chain, target) <= (verdict.rank, cost(few, verdict)[2]), chain
        compared += 1
    assert compared


@pytest.mark.parametrize("start, target", ASKED)
def test_adding_leads_never_makes_the_best_route_worse(catalogue, start, target):
    before = None
    for share in (4, 2, 1):  # up to three leads in a row
        fewer = with_every(8 * share, catalogue)
        found = routes(fewer, start, target)
        now = cost(fewer, found[0])[:4] if found else (RANK["does not fit"],)
        assert before is None or now <= before
        before = now


@pytest.mark.parametrize("start, target", ASKED)
def test_every_chain_goes_together(few, start, target):
    """Each half goes into the next, and no lead stands twice in a chain."""

    def goes(one, two):
        return fits((few.connectors[one[0]], one[1]), (few.connectors[two[0]], two[1]))

    for length in (0, 1, 2):
        for chain in chains(few, start, target, length):
            assert len(set(chain)) == len(chain) == length
            open_halves = {(few.ports[start].connector, few.ports[start].half)}
            for name in chain:
                ends = few.leads[name].ends.values()
                open_halves = {
                    (far.connector, far.half)
                    for near in ends
                    for far in ends
                    if far is not near
                    and any(goes(half, (near.connector, near.half)) for half in open_halves)
                }
            assert any(
                goes(half, (few.ports[target].connector, few.ports[target].half)) for half in open_halves
            )


def test_nothing_is_offered_when_nothing_works(catalogue):
    """An amplifier output goes into loudspeakers and nothing else, whatever stands between."""
    assert routes(catalogue, "loudspeaker-amp-out-xlr", "mixer-mic-in-xlr", most=1) == []
    assert routes(replace(catalogue, leads={}), "mic-dynamic-xlr", "camera-mic-in-35") == []


def told(verdicts):
    """A judge that has an opinion on some chains and finds the rest silent: verdict, while plugging, and
    findings that are lost."""

    def opinion(catalogue, start, through, target):
        verdict, *rest = verdicts.get(through, ("no signal",))
        plugging, lost = (*rest, "safe", ())[:2] if not rest else (*rest, ())[:2]
        findings = tuple(
            Finding(name, "lossy", "", "", 0, "", 0, "", "", "", "derived", (), "settled") for name in lost
        )
        return Verdict(start, through, target, verdict, (), {}, plugging, findings)

    return Watched(opinion)


START, TARGET = "mic-dynamic-xlr", "mixer-mic-in-xlr"
SHORT, MIDDLE, LONG = "xlr-f-to-xlr-m-3m", "xlr-f-to-xlr-m-20m", "xlr-f-to-xlr-m-100m"
ONE, TWO, THREE = (
    "xlr-f-to-xlr-m-pad-20-db",
    "xlr-f-to-xlr-m-phantom-block",
    "xlr-f-to-xlr-m-transformer-joined",
)


@pytest.fixture
def cables(catalogue):
    """The catalogue with three plain cables."""
    return replace(catalogue, leads={name: catalogue.leads[name] for name in (SHORT, MIDDLE, LONG)})


@pytest.fixture
def boxes(catalogue):
    """The catalogue with three boxes that have something inside."""
    return replace(catalogue, leads={name: catalogue.leads[name] for name in (ONE, TWO, THREE)})


def offered(catalogue, verdicts, **more):
    opinion = told(verdicts)
    found = routes(catalogue, START, TARGET, judge=opinion, looks=[lambda *_: (0, 0)], **more)
    return [offer.through for offer in found], opinion.said


def test_safest_then_calmest_then_least_lost_then_shortest_then_name(cables):
    found, _ = offered(
        cables,
        {
            (SHORT,): ("lossy", "safe", ["reversed", "too-hot"]),
            (MIDDLE,): ("lossy", "safe", ["reversed"]),
            (LONG,): ("lossy", "lossy"),
        },
    )
    assert found == [(MIDDLE,), (SHORT,), (LONG,)]
    found, _ = offered(cables, {(): ("lossy", "safe", ["reversed"]), (LONG,): ("safe",), (SHORT,): ("safe",)})
    assert found == [(SHORT,), (LONG,), ()]


def test_much_lost_counts_more_than_many_findings(boxes):
    """common practice: a level that clips is worse than hum and polarity together."""
    found, _ = offered(
        boxes,
        {
            (ONE,): ("lossy", "safe", ["unbalanced", "reversed", "loaded-down"]),
            (TWO,): ("lossy", "safe", ["too-hot"]),
        },
    )
    assert found == [(ONE,), (TWO,)]


def test_a_danger_is_never_offered(boxes):
    found, said = offered(boxes, dict.fromkeys([(), (ONE,), (TWO,), (THREE,)], ("dangerous",)))
    assert found == []
    assert (ONE, TWO) in said and (ONE, TWO, THREE) in said, "three in a row are tried before giving up"


ON, OFF = {"power": "on"}, {"power": "off"}


def moments(lead, on, off=("no signal", "safe")):
    """A verdict on one lead by what it is, settled and while plugging, with a supply on and off."""
    settings = tuple((setting, max(moment, key=RANK.get)) for setting, moment in ((ON, on), (OFF, off)))
    return Verdict(
        START, (lead,), TARGET, settings[0][1], settings, {"power": "amplifier"}, on[1], (), moments=(on, off)
    )


SWITCHED, CALM, LOSSY = (
    moments(ONE, ("safe", "dangerous")),
    moments(TWO, ("safe", "safe")),
    moments(THREE, ("lossy", "safe")),
)


def ranked(catalogue, *verdicts):
    known = {verdict.through: verdict for verdict in verdicts}
    silent = lambda through: Verdict(START, through, TARGET, "no signal", (), {}, "safe", ())
    found = routes(
        catalogue,
        START,
        TARGET,
        most=1,
        judge=lambda _, start, through, target: known.get(through, silent(through)),
        looks=[lambda *_: (0, 0)],
    )
    return [offer.through for offer in found]


def test_a_danger_that_a_switch_avoids_is_offered_below_safe_and_above_lossy(boxes):
    assert SWITCHED.offer == "Plug it with amplifier off, wait a moment, then amplifier on: then it is safe."
    assert ranked(boxes, SWITCHED, CALM, LOSSY) == [(TWO,), (ONE,), (THREE,)]


def test_one_that_loses_something_once_switched_comes_after_what_loses_it_at_once(boxes):
    assert ranked(boxes, moments(ONE, ("lossy", "dangerous")), LOSSY) == [(THREE,), (ONE,)]


def test_a_danger_that_stays_or_that_no_switch_avoids_is_not_offered(boxes):
    assert ranked(boxes, moments(ONE, ("dangerous", "dangerous"))) == []
    assert ranked(boxes, moments(ONE, ("safe", "dangerous"), ("no signal", "dangerous"))) == []


def test_what_may_still_turn_out_to_need_a_switch_is_not_thrown_away(boxes):
    """A first look sees less: a setting that looks well in itself may be one that must not be plugged, which
    makes the way an offer."""
    seen = moments(ONE, ("dangerous", "safe"), ("safe", "safe"))
    assert (seen.rank, seen.least_rank) == (RANK["dangerous"], 0.5)
    assert SWITCHED.least_rank == SWITCHED.rank == 0.5
    for hopeless in (
        (("dangerous", "safe"), ("dangerous", "dangerous")),
        (("safe", "dangerous"), ("safe", "dangerous")),
    ):
        assert moments(ONE, *hopeless).least_rank == RANK["dangerous"]


def test_a_plain_extension_is_no_help_beside_another_lead(cables):
    _, said = offered(cables, {})
    assert set(said) == {(), (SHORT,), (MIDDLE,), (LONG,)}


def test_where_the_search_ends(boxes):
    """Nothing longer is tried once something is safe; a loss is no reason to stop."""
    _, said = offered(boxes, {(): ("safe",)})
    assert set(said) == {()}
    found, said = offered(boxes, {(ONE,): ("lossy", "safe", ["reversed"]), (ONE, TWO, THREE): ("safe",)})
    assert found == [(ONE, TWO, THREE), (ONE,)]


def test_no_more_than_asked_for(boxes):
    everything = dict.fromkeys([(), (ONE,), (TWO,), (THREE,)], ("lossy",))
    assert [len(offered(boxes, everything, offered=number)[0]) for number in (1, 2, 3)] == [1, 2, 3]


def test_a_remedy_is_better_than_what_was_asked(few):
    asked = judge(few, "mixer-line-out-xlr", (), "mixer-mic-in-xlr")
    assert asked.verdict == "lossy"
    for found in remedies(few, asked):
        assert cost(few, found) < cost(few, asked)


# The lead that would do it, where none does. common practice, from memory: what a rental
# counter would be told.
def test_the_missing_lead_is_described_by_what_speaks_against_the_best_there_is(catalogue):
    said = missing(replace(catalogue, leads={}), "mixer-line-out-xlr", "mixer-mic-in-xlr")
    assert said == (
        "Nothing in the catalogue does this without loss. What would: a lead from the female of XLR, three "
        "contacts, to the male of XLR, three contacts, that has a 20 dB pad: 680 Ω in each leg, 150 Ω across "
        "the input (the output sees 1.51 kΩ, the input 136 Ω)."
    )
