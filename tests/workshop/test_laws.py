"""Laws over every lead and every fault: honest readings, noisy by 10 % and 0.3 ohm, end on the fault or on
those no meter tells from it; and with one reading that is simply wrong the search still ends there, or says
that it cannot tell, nine times in ten.

The readings come from `oracle.py`, which shares nothing with the search but the dictionary it is played
against.
"""

import json
from collections import Counter
from random import Random

import numpy as np
import once
import pytest
from filelock import FileLock

from generator.catalogue import default_directory, load
from generator.workshop.dictionary import dictionary
from generator.workshop.faulty import faults
from generator.workshop.likely import likelihoods
from generator.workshop.search import Search
from generator.workshop.specimen import on_bench

from .oracle import Bench, honest

LEADS = sorted(load(default_directory()).leads)
SHARDS = 12  # the leads are shared out so that several processes can work; every one is in one of them
MANY = 400  # faults; above it a fault is not followed one by one with a wrong reading in it


def shard(number):
    return LEADS[number::SHARDS]


def follow(known, rng):
    """Readings until the search ends, for all faults at once: those that read alike so far share their
    readings. Fault -> (count, named at)."""
    search, found = Search(known), {}

    def walk(left, likely, read, named):
        following = search.best(likely, read)
        ending = search.ending(likely, bool(read), following)
        if ending.state in ("named", "found"):
            named = {**{fault: len(read) for fault in left if fault in ending.named}, **named}
        if ending.state in ("found", "cannot tell"):
            lost = [known.faults[fault].id for fault in left if fault not in ending.named]
            assert not lost, (lost, ending.state, [known.faults[i].id for i in ending.named][:5])
            for fault in left:
                found[fault] = (len(read), named.get(fault, len(read)))
            return
        alike = {}
        for fault in left:
            alike.setdefault(int(known.which[fault, following]), []).append(fault)
        for number, together in alike.items():
            answer = honest(known.classes[number], rng)
            fits = likelihoods(answer, known.edges)
            after = likely * fits[known.which[:, following]]
            walk(together, after / after.sum(), [*read, (following, answer)], named)

    walk(list(range(len(known.faults))), search.prior, [], {})
    return found


def followed(catalogue, number, folder):
    """[readings in all, readings until named, how common, share of its lead] of every fault of a shard's
    leads; worked out by the first process that asks."""
    kept = folder / f"workshop-{number}.json"
    with FileLock(kept.with_suffix(".lock")):
        if not kept.exists():
            rows = []
            for id in shard(number):
                known = dictionary(on_bench(catalogue, catalogue.leads[id]))
                found = follow(known, Random(id))
                assert len(found) == len(known.faults), id
                if len(known.faults) <= MANY:
                    share = 1 / len(known.faults)
                    rows += [[*found[i], fault.weight, share] for i, fault in enumerate(known.faults)]
            kept.write_text(json.dumps(rows))
        return json.loads(kept.read_text())


@pytest.fixture(scope="session")
def folder(tmp_path_factory):
    return once.common(tmp_path_factory)


@pytest.mark.parametrize("number", range(SHARDS))
def test_honest_readings_end_on_every_fault_of_every_lead(catalogue, number, folder):
    assert followed(catalogue, number, folder)


def test_few_readings_do(catalogue, folder, record_property):
    """Median at most four over all leads and single faults until the fault is named; one more proves it.
    Every lead counts alike: one of nine wires has many times the faults of one of two.

    Leads with more than MANY faults (25 contacts and as many at the other end) are left out of the count:
    they take a jig, not two probes.
    """
    rows = np.array([row for number in range(SHARDS) for row in followed(catalogue, number, folder)])
    counts, named, common, share = rows.T
    as_met, alike, proved = median(named, common), median(named, share), median(counts, share)
    record_property(
        "told",
        f"workshop, {len(rows)} faults: readings until named {spread(named)} (faults as common as they are: "
        f"median {as_met:g}; every lead alike: {alike:g}); until proved {spread(counts)} (every lead alike: "
        f"{proved:g})",
    )
    assert alike <= 4 and as_met <= 4 and proved <= 5


def median(values, weights):
    """The value that half of the weight lies at or below."""
    order = np.argsort(values)
    share = np.cumsum(weights[order])
    return values[order][np.searchsorted(share, share[-1] / 2)]


def spread(counts):
    """The distribution in a line."""
    below = {most: sum(count <= most for count in counts) / len(counts) for most in (2, 3, 4, 6, 10, 20)}
    return f"median {np.median(counts):g}, mean {np.mean(counts):.1f}, " + ", ".join(
        f"{share:.0%} by {most}" for most, share in below.items()
    )


@pytest.mark.parametrize("number", range(SHARDS))
def test_one_wrong_reading_in_six_is_survived(catalogue, number, record_property):
    """Ends on the fault, or says that it cannot tell, in nine of ten; counted over every fault of the leads
    in the shard."""
    ends = Counter()
    for id in shard(number):
        specimen = on_bench(catalogue, catalogue.leads[id])
        if len(faults(specimen)) > MANY:
            continue
        bench, rng = Bench(dictionary(specimen)), Random(id)
        for fault in range(len(bench.dictionary.faults)):
            run = bench.run(fault, rng, lie=rng.randrange(6))
            ends["right" if fault in run.ending.named else run.ending.state] += 1
    share = 1 - ends["found"] / ends.total()
    record_property("told", f"workshop, one wrong reading: {dict(ends)}, {share:.1%} right or undecided")
    assert share >= 0.9


def test_every_lead_is_in_a_shard(catalogue):
    assert sorted(id for number in range(SHARDS) for id in shard(number)) == sorted(catalogue.leads)


def test_a_search_that_ends_elsewhere_would_be_found(catalogue):
    """The law can fail: what is named for one core is not what is named for the other."""
    known = dictionary(on_bench(catalogue, catalogue.leads["xlr-f-to-xlr-m-3m"]))
    ending = Bench(known).run(known.place("open:a.2"), Random(1)).ending
    assert known.place("open:a.3") not in ending.named
