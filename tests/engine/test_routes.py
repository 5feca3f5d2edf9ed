"""Routes: what is offered has been judged, and is the best there is."""

from dataclasses import replace

import pytest

from generator.engine import memory
from generator.engine.judge import RANK, Finding, Verdict, judge
from generator.engine.mate import fits
from generator.engine.route import chains, cost, routes

# The everyday questions of a location recordist: one that needs nothing, one with a dozen leads, one that needs an adapter.
ASKED = [
    ("mic-dynamic-xlr", "mixer-mic-in-p48-xlr"),
    ("mixer-line-out-xlr", "camera-mic-in-35"),
    ("mic-condenser-p48-xlr", "camera-mic-in-p48-xlr"),
    ("player-line-out-rca", "amplifier-line-in-rca"),
    ("wireless-receiver-out-35", "camera-mic-in-35"),
]


@pytest.fixture
def few(catalogue):
    """The catalogue with every eighth lead: enough to search two in a row."""
    return replace(catalogue, leads=dict(list(catalogue.leads.items())[::8]))


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
        assert (again.verdict, again.findings, again.settings) == (offer.verdict, offer.findings, offer.settings)
        assert again.verdict in ("safe", "lossy")


@pytest.mark.parametrize("start, target", ASKED)
def test_nothing_is_offered_that_was_not_judged(few, start, target):
    watched = Watched()
    found = routes(few, start, target, most=2, judge=watched)
    assert all(watched.said[offer.through] is offer for offer in found)
    best = min((cost(v) for v in watched.said.values() if RANK[v.verdict] <= RANK["lossy"]), default=None)
    assert best == (cost(found[0]) if found else None)


@pytest.mark.parametrize("start, target", ASKED)
def test_adding_leads_never_makes_the_best_route_worse(catalogue, start, target):
    leads, before = list(catalogue.leads.items()), None
    for share in (4, 2, 1):
        found = routes(replace(catalogue, leads=dict(leads[::share])), start, target, most=1)
        now = cost(found[0])[:3] if found else (RANK["does not fit"],)
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
                open_halves = {(far.connector, far.half) for near in ends for far in ends
                               if far is not near and any(goes(half, (near.connector, near.half)) for half in open_halves)}
            assert any(goes(half, (few.ports[target].connector, few.ports[target].half)) for half in open_halves)


def test_nothing_is_offered_when_nothing_works(catalogue):
    """An amplifier output goes into loudspeakers and nothing else, whatever stands between."""
    assert routes(catalogue, "loudspeaker-amp-out-xlr", "mixer-mic-in-xlr", most=1) == []
    assert routes(replace(catalogue, leads={}), "mic-dynamic-xlr", "camera-mic-in-35") == []


def told(verdicts):
    """A judge that has an opinion on some chains and finds the rest silent."""
    def opinion(catalogue, start, through, target):
        verdict, plugging, lost = (*verdicts.get(through, ("no signal",)), "safe", 0)[:3]
        finding = Finding("x", "lossy", "", "", 0, "", 0, "", "", "", "derived", (), "settled")
        return Verdict(start, through, target, verdict, (), {}, plugging, (finding,) * lost)

    return Watched(opinion)


START, TARGET = "mic-dynamic-xlr", "mixer-mic-in-xlr"
ONE, TWO, THREE = "xlr-f-to-xlr-m-3m", "xlr-f-to-xlr-m-20m", "xlr-f-to-xlr-m-100m"


@pytest.fixture
def three(catalogue):
    """The catalogue with three leads."""
    return replace(catalogue, leads={name: catalogue.leads[name] for name in (ONE, TWO, THREE)})


def offered(catalogue, verdicts, **more):
    opinion = told(verdicts)
    return [offer.through for offer in routes(catalogue, START, TARGET, judge=opinion, **more)], opinion.said


def test_safest_then_calmest_then_least_lost_then_shortest_then_name(three):
    found, _ = offered(three, {(ONE,): ("lossy", "safe", 2), (TWO,): ("lossy", "safe", 1), (THREE,): ("lossy", "lossy", 0)})
    assert found == [(TWO,), (ONE,), (THREE,)]
    found, _ = offered(three, {(): ("lossy", "safe", 1), (THREE,): ("safe", "safe", 0), (TWO,): ("safe", "safe", 0)})
    assert found == [(THREE,), (TWO,), ()], "100m stands before 20m in the alphabet"


def test_a_danger_is_never_offered(three):
    found, said = offered(three, dict.fromkeys([(), (ONE,), (TWO,), (THREE,)], ("dangerous",)))
    assert found == []
    assert (ONE, TWO) in said
    assert (ONE, TWO, THREE) not in said, "three leads of one form in a row help nobody"


def test_where_the_search_ends(three):
    """Nothing longer is tried once something is safe; where something works, one lead more than it needs is tried."""
    _, said = offered(three, {(): ("safe",)})
    assert set(said) == {()}
    _, said = offered(three, {(ONE,): ("lossy",)})
    assert max(map(len, said)) == 2
    found, said = offered(three, {(ONE,): ("lossy",), (ONE, TWO): ("safe",)})
    assert found == [(ONE, TWO), (ONE,)]


def test_no_more_than_asked_for(three):
    everything = dict.fromkeys([(), (ONE,), (TWO,), (THREE,)], ("lossy",))
    assert [len(offered(three, everything, offered=number)[0]) for number in (1, 2, 3)] == [1, 2, 3]
