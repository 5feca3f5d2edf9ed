"""A connection judged one way of plugging after the other: the verdict is that of judging it whole, and
nothing that is told before is worse."""

from random import Random

from generator.engine.by_ways import by_ways
from generator.engine.glance import glance, plainly
from generator.engine.judge import judge
from generator.engine.least import HOPELESS, Least
from generator.engine.route import chains, cost
from generator.engine.verdict import Verdict

SEED = 4
# an outlet and an inlet with supplies of their own, and leads with like tails between
PAIRS = (
    ("mic-condenser-p48-xlr", "mixer-mic-in-p48-xlr"),
    ("mic-dynamic-xlr", "camera-mic-in-35"),
    ("mic-electret-stereo-35", "mixer-mic-in-p48-xlr"),
    ("mixer-stereo-line-out-xlr-5", "mixer-mic-in-xlr"),
)


def drawn(catalogue, start, target):
    every = [chain for length in (1, 2) for chain in chains(catalogue, start, target, length)]
    return Random(SEED).sample(every, min(len(every), 12))


def test_no_step_is_worse_than_the_verdict(catalogue):
    plain, steps = plainly(catalogue), 0
    for start, target in PAIRS:
        for chain in drawn(catalogue, start, target):
            least = glance(plain, start, chain, target)
            *before, last = by_ways(catalogue, start, chain, target, least._replace(lost=0))
            verdict = judge(catalogue, start, chain, target)
            assert last == verdict, (start, chain, target)
            assert all(isinstance(one, Least) for one in before)
            for one in before:
                reached = verdict.rank, cost(catalogue, verdict)[2]
                assert (one.rank, one.lost) <= reached, (start, chain, target)
            steps += len(before)
    assert steps > 20


def test_a_danger_is_told_before_all_is_worked_out(catalogue):
    """Nothing can be switched here, so one way of five is enough."""
    start, target = "mic-lavalier-three-wire-mini-xlr-5", "cue-transmitter-line-in-xlr"
    chain = (
        "mini-xlr-5-m-to-xlr-m-bias-from-phantom",
        "xlr-f-to-xlr-m-phantom-supply",
        "xlr-f-to-two-xlr-m-transformer",
    )
    first, *_, verdict = by_ways(catalogue, start, chain, target, Least(0, 0))
    assert first == HOPELESS
    assert verdict.verdict == "dangerous" and len(verdict.ways) == 5 and not verdict.offered


def test_what_does_not_fit_is_told_at_once(catalogue):
    [verdict] = by_ways(catalogue, "mic-dynamic-xlr", (), "camera-mic-in-35", Least(0, 0))
    assert isinstance(verdict, Verdict) and verdict.verdict == "does not fit"
