"""The sieve of a search: never worse than the closer look it spares."""

import pytest
from everyday import ASKED, with_every

from generator.engine.glance import glance, plainly
from generator.engine.route import WORTH_OFFERING, chains, routes
from generator.engine.sieve import sieve


@pytest.fixture
def few(catalogue):
    """The catalogue with every eighth lead: enough to search two in a row."""
    return with_every(8, catalogue)


@pytest.mark.parametrize("start, target", ASKED)
def test_what_is_sieved_is_never_worse_than_a_glance(few, start, target):
    plain, compared, stopped = plainly(few), 0, 0
    for chain in [chain for length in (1, 2) for chain in chains(few, start, target, length)][:60]:
        first, then = sieve(plain, start, chain, target), glance(plain, start, chain, target)
        assert first <= then, chain
        compared, stopped = compared + 1, stopped + (first[0] > WORTH_OFFERING)
    assert compared and stopped, "some are looked at no further"


def searched(few, start, target, *before):
    """What a search finds that looks so `before` it glances, and how many chains it glances at."""
    glanced = []

    def watched(*asked):
        glanced.append(asked)
        return glance(*asked)

    return routes(few, start, target, most=2, looks=[*before, watched]), len(glanced)


def test_the_sieve_spares_glances_and_changes_no_answer(few):
    """Where the straight way is safe there is nothing to spare."""
    spared = 0
    for start, target in ASKED:
        (found, every), (sieved, some) = searched(few, start, target), searched(few, start, target, sieve)
        assert sieved == found
        spared += every - some
    assert spared > 0
