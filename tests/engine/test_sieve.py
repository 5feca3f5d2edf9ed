"""The sieve: every chain is in it, it never says worse of one than its verdict does, and what a search finds
through it is what judging every chain finds."""

from dataclasses import replace
from random import Random

import numpy as np
import pytest

from generator.engine.judge import judge
from generator.engine.kinds import same_kind
from generator.engine.reduced import reduced
from generator.engine.route import WORTH_OFFERING, Search, _extension, chains, cost, settled
from generator.engine.sieve import Sieve
from generator.engine.socket import Socket
from generator.engine.steps import DIRECT, Steps

SEED, PAIRS, CHAINS = 20, 24, 4


def drawn(catalogue, seed, count):
    """Pairs of an outlet and an inlet that hears it."""
    ports = catalogue.ports.values()
    hears = lambda one, two: any(same_kind(a, b) for a in one.sources for b in two.listeners)
    every = [(one.id, two.id) for one in ports for two in ports if one is not two and hears(one, two)]
    simple = [pair for pair in every if not any("d-sub" in catalogue.ports[id].connector for id in pair)]
    return Random(seed).sample(simple, count)


def useful(catalogue):
    return {lead.id: not _extension(catalogue, lead) for lead in catalogue.leads.values()}


def half(port):
    return port.connector, port.half


@pytest.fixture(scope="module")
def few(catalogue):
    """The catalogue with every fifth lead."""
    return replace(catalogue, leads=dict(list(catalogue.leads.items())[::5]))


def test_the_rows_are_the_chains(few):
    """No chain is missed and none is invented, with up to three leads."""
    steps, helps = Steps(few), list(useful(few).values())
    compared = 0
    for start, target in drawn(few, SEED, PAIRS):
        for length in range(4):
            halves = half(few.ports[start]), half(few.ports[target])
            rows = steps.rows(*halves, length, helps if length > 1 else [True] * len(helps))
            found = {tuple(steps.leads[i].id for i in row) for some in rows for row in some.leads}
            assert found == set(chains(few, start, target, length)), (start, target)
            compared += len(found)
    assert compared > 150


def test_what_is_to_be_in_every_chain_is(few):
    among = frozenset(list(few.leads)[::7])
    steps, helps = Steps(few, among), list(useful(few).values())
    for start, target in drawn(few, SEED, 10):
        for length in (2, 3):
            rows = steps.rows(half(few.ports[start]), half(few.ports[target]), length, helps)
            found = {tuple(steps.leads[i].id for i in row) for some in rows for row in some.leads}
            assert found == {chain for chain in chains(few, start, target, length) if among & set(chain)}


def test_it_never_says_worse_of_a_chain_than_its_verdict(catalogue):
    """Else a search would throw away what it should offer."""
    sieve, draw, compared = Sieve(catalogue, useful(catalogue)), Random(SEED), 0
    for start, target in drawn(catalogue, SEED, PAIRS):
        for length in (0, 1, 2):
            least = sieve.least(start, target, length)
            every = list(chains(catalogue, start, target, length))
            for chain in draw.sample(every, min(CHAINS, len(every))):
                verdict = judge(catalogue, start, chain, target)
                if verdict.rank <= WORTH_OFFERING:
                    assert chain in least, (start, chain, target)
                    assert least[chain] <= (verdict.rank, cost(catalogue, verdict)[2]), (start, chain, target)
                    compared += 1
    assert compared > 20


def test_a_search_finds_what_judging_every_chain_finds(few):
    search, found_any = Search(few), 0
    for start, target in drawn(few, SEED + 1, 8):
        every = [
            judge(few, start, chain, target)
            for length in (0, 1, 2)
            for chain in chains(few, start, target, length)
        ]
        offers = sorted(
            (verdict for verdict in every if verdict.rank <= WORTH_OFFERING),
            key=lambda verdict: cost(few, verdict),
        )
        found = search.routes(start, target, most=2)
        assert [one.through for one in found] == [one.through for one in settled(offers)[:3]], (start, target)
        assert [one.findings for one in found] == [one.findings for one in settled(offers)[:3]]
        found_any += bool(found)
    assert found_any


def test_what_only_comes_back_is_no_way(catalogue):
    """A loudspeaker's amplifier goes into loudspeakers alone; two inputs have nothing to say."""
    sieve = Sieve(catalogue, useful(catalogue))
    assert sieve.least("loudspeaker-amp-out-635", "mixer-line-in-635", 1) == {}
    assert Search(catalogue).routes("camera-mic-in-35", "mixer-mic-in-p48-xlr") == []


def test_a_divider_on_paper(catalogue):
    """From first principles: 10 V behind 1 kohm at a contact is 10 mA into a short, and 1/1000 S."""
    mic = catalogue.ports["mixer-mic-in-p48-xlr"]
    rail = replace(mic.network.parts[0], id="e", kind="emf", a="up", b="chassis")
    value = replace(rail.value, nominal=1000.0)
    ohms = replace(rail, id="r", kind="resistor", a="up", b="hot", value=value)
    found = reduced([rail, ohms], [], ["hot", "chassis"], (0.0,), [{"e": 10.0}], ["e", ("hot", "chassis")])
    assert np.allclose(found.admittance[0], [[1e-3, -1e-3], [-1e-3, 1e-3]], rtol=1e-4)
    assert np.allclose(found.pushed[0, 0], [1e-2, -1e-2], rtol=1e-4)
    assert np.allclose(found.shown[0, 1], [1, -1])
    assert np.isclose(abs(found.own[0, 0, 0]), 1e-2, rtol=1e-4)


def test_phantom_stands_open_at_both_legs(catalogue):
    """IEC 61938: 48 V through 6.8 kohm at either leg."""
    mixer = Socket(catalogue, catalogue.ports["mixer-mic-in-p48-xlr"])
    supplies = len(mixer.drives) - 2
    kept = list(dict.fromkeys((*(mixer.port.contacts.values()), "chassis")))
    matrix = mixer.sees.admittance[DIRECT].copy()
    ground = kept.index("chassis")
    others = [n for n in range(mixer.size) if n != ground]
    volts = np.linalg.solve(matrix[np.ix_(others, others)], mixer.sees.pushed[DIRECT, supplies][others])
    assert np.allclose(
        [volts[others.index(kept.index(leg))].real for leg in ("hot", "cold")], 48.0, rtol=1e-3
    )
