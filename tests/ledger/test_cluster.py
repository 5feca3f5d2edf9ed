"""A cluster judges what this machine would, to the byte, and what stands in the way of
that is said in one line."""

import json
import sys
from importlib import import_module

import pytest
from distributed import LocalCluster

from generator import ledger
from generator.__main__ import BAD_USE, main
from generator.catalogue import default_directory, load
from generator.engine import pairings
from generator.ledger import workers
from generator.ledger.judged import told_of
from generator.ledger.memory import opened

JUDGED = import_module("generator.ledger.judged")
OUTLET, SOME = "mic-dynamic-xlr", 100


@pytest.fixture(scope="module")
def cluster():
    with LocalCluster(n_workers=2, threads_per_worker=1, dashboard_address=":0") as cluster:
        yield cluster


@pytest.fixture(scope="module")
def whole():
    return load(default_directory())


@pytest.fixture(scope="module")
def some(whole):
    return [pairing for pairing in pairings(whole) if pairing[0] == OUTLET][:SOME]


def whole_answer(answer):
    return json.dumps(answer)


def test_a_cluster_says_what_this_machine_says(cluster, whole, some, tmp_path):
    assert len(some) >= 100
    near, far = tmp_path / "near.sqlite", tmp_path / "far.sqlite"
    assert list(told_of(dict, whole, near, some)) == list(
        told_of(dict, whole, far, some, cluster.scheduler_address)
    )
    assert list(told_of(whole_answer, whole, near, some)) == list(told_of(whole_answer, whole, far, some)), (
        "and what is remembered of it is the same"
    )
    with opened(near) as one, opened(far) as other:
        assert [one.recalled(digest) for (digest,) in one._ask("SELECT digest FROM pairings")] == [
            other.recalled(digest) for (digest,) in one._ask("SELECT digest FROM pairings")
        ]
        assert len(one) == len(other) == len(some)


def test_what_is_remembered_is_not_asked_of_it(cluster, whole, some, tmp_path, monkeypatch):
    few, memory = some[:6], tmp_path / "readings.sqlite"
    first = list(told_of(dict, whole, memory, few[::2]))
    asked = []
    monkeypatch.setattr(
        JUDGED, "shares", lambda tasks: asked.append([task.pairing for task in tasks]) or [tasks]
    )
    assert list(told_of(dict, whole, memory, few, cluster.scheduler_address))[::2] == first
    assert sorted(asked) == sorted([few[::2], few[1::2]])


@pytest.fixture
def ask(capsys, pinouts):
    def ask(*words):
        status = main(["ledger", "--pinouts", str(pinouts), *words])
        said = capsys.readouterr()
        return status, said.out, said.err

    return ask


def test_a_ledger_made_by_a_cluster_is_the_same(cluster, ask, pinouts, tmp_path):
    assert ask("--cluster", cluster.scheduler_address)[:2] == (0, "- 3 pairings added\n")
    made = ledger.read(pinouts / "verdicts")
    for name in made:
        (pinouts / "verdicts" / name).unlink()
    (tmp_path / "build/readings.sqlite").unlink()
    assert ask()[0] == 0 and ledger.read(pinouts / "verdicts") == made


@pytest.mark.parametrize(
    "address, told",
    [
        ("tcp://127.0.0.1:9", "No cluster answers at tcp://127.0.0.1:9: "),
        ("no address", "No cluster answers at no address: "),
    ],
)
def test_an_address_where_nobody_answers_is_bad_use(ask, monkeypatch, pinouts, address, told):
    monkeypatch.setattr(workers, "ANSWER", 1)
    status, printed, complained = ask("--cluster", address)
    assert (status, printed, complained[: len(told)], complained.count("\n")) == (BAD_USE, "", told, 1)
    assert not (pinouts / "verdicts").exists()


def test_without_what_a_cluster_needs_it_is_bad_use(ask, monkeypatch):
    monkeypatch.setitem(sys.modules, "distributed", None)
    assert ask("--cluster", "tcp://127.0.0.1:9") == (
        BAD_USE,
        "",
        "A cluster needs what the extra has: pip install 'ringfence[cluster]'\n",
    )


def test_workers_of_another_version_are_refused(cluster, ask, monkeypatch, pinouts):
    monkeypatch.setattr(workers, "engine_digest", lambda words: "another engine")
    assert ask("--cluster", cluster.scheduler_address) == (
        BAD_USE,
        "",
        "The workers of the cluster have another version of the engine: give them this one.\n",
    )
    assert not (pinouts / "verdicts").exists()


def test_a_cluster_without_workers_is_bad_use(ask):
    with LocalCluster(n_workers=0, dashboard_address=":0") as empty:
        assert ask("--cluster", empty.scheduler_address) == (
            BAD_USE,
            "",
            f"The cluster at {empty.scheduler_address} has no workers.\n",
        )
