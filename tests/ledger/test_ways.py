"""The table of ways is believed where it still holds, and searched again nowhere else."""

from dataclasses import replace
from importlib import import_module

import pytest

from generator.__main__ import main
from generator.engine.judge import judge
from generator.engine.route import Search, routes
from generator.ledger import LedgerError, ways

PORTS = ("mic-dynamic-xlr", "mixer-mic-in-p48-xlr", "camera-mic-in-35", "mixer-line-out-xlr")
LEADS = (
    "xlr-f-to-xlr-m-3m",
    "xlr-f-to-xlr-m-pad-20-db",
    "xlr-f-to-35-trs-both-3-to-1",
    "xlr-f-to-35-trs-attenuator",
    "xlr-f-to-xlr-m-phantom-block",
)
CHANGED = "xlr-f-to-35-trs-attenuator"


@pytest.fixture(scope="module")
def small(catalogue):
    """A few ports and leads."""
    chosen = lambda records, names: {name: records[name] for name in names}
    return replace(catalogue, ports=chosen(catalogue.ports, PORTS), leads=chosen(catalogue.leads, LEADS))


@pytest.fixture
def longer(small):
    """The same with another length of one lead."""
    lead = small.leads[CHANGED]
    return replace(small, leads=small.leads | {CHANGED: replace(lead, length=(lead.length or 1) + 1)})


@pytest.fixture
def asked(monkeypatch):
    """The pairs that are searched, and among which leads."""
    calls = []
    searched = ways._searched

    def counting(catalogue, task):
        calls.append((task.pair, task.among))
        return searched(catalogue, task)

    monkeypatch.setattr(ways, "_searched", counting)
    monkeypatch.setattr(ways, "FEW", 100)  # in this very process
    return calls


@pytest.fixture
def kept(small, tmp_path):
    """The folder of a whole table, and what is in it."""
    directory = tmp_path / "ways"
    found = ways.ways(small, directory)
    ways.keep(small, found, directory)
    return directory, found


def through(found):
    return {pair: [row["through"] for row in rows] for pair, rows in found.items()}


def test_every_pair_that_hears_has_what_a_search_finds(small, kept):
    _, found = kept
    assert through(found) == {
        pair: [list(one.through) for one in routes(small, *pair)] for pair in ways.hearable(small)
    }
    assert any(found.values())


def test_a_whole_table_searches_nothing(small, kept, asked):
    directory, found = kept
    assert ways.ways(small, directory) == found
    assert not asked
    assert not list(ways.stale(small, found, directory))


def test_a_lead_that_is_another_is_searched_where_it_may_serve(longer, kept, asked):
    directory, before = kept
    found = ways.ways(longer, directory)
    had = {pair for pair, rows in before.items() if any(CHANGED in row["through"] for row in rows)}
    assert asked and {pair for pair, among in asked if not among} == had
    assert {among for _, among in asked} - {frozenset()} <= {frozenset({CHANGED})}
    assert through(found) == {pair: [list(one.through) for one in routes(longer, *pair)] for pair in found}


def test_a_lead_that_comes_and_one_that_goes(small, kept, tmp_path):
    """Whatever was known before, the table says what a search from nothing says."""
    directory, whole = kept
    for name in small.leads:
        fewer = replace(small, leads={id: lead for id, lead in small.leads.items() if id != name})
        assert through(ways.ways(fewer, directory)) == {
            pair: [list(one.through) for one in routes(fewer, *pair)] for pair in whole
        }
        less = tmp_path / name
        ways.keep(fewer, ways.ways(fewer, less), less)
        assert ways.ways(small, less) == whole


def test_a_search_that_was_stopped_goes_on(small, tmp_path, asked):
    begun = tmp_path / "ways.jsonl"
    found = ways.ways(small, tmp_path / "none", begun)
    count = len(asked)
    begun.write_text(begun.read_text()[:-5])  # cut short in its last line
    assert ways.ways(small, tmp_path / "none", begun) == found
    assert len(asked) == count + 1
    begun.write_text("another question\n" + begun.read_text())
    ways.ways(small, tmp_path / "none", begun)
    assert len(asked) == 2 * count + 1


def test_a_file_that_is_not_as_it_was_written_is_named(small, kept):
    directory, found = kept
    path = next(path for path in sorted(directory.glob("*.txt")) if path.read_text().count("\n") > 1)
    written = path.read_text()
    mended = "; `python -m generator ledger --ways` writes it anew"
    for content, what in (
        (written.replace("safe", "fine").replace("lossy", "fine"), ", line 2: no row of a ledger: '"),
        (written[:-3], ": cut short"),
        (
            written + written.split("\n")[1] + "\n",
            ": not as it was written, edited by hand or from another version",
        ),
    ):
        path.write_text(content)
        with pytest.raises(LedgerError) as fault:
            ways.ways(small, directory)
        assert str(fault.value).startswith(f"verdicts/ways/{path.name}") and what in str(fault.value)
        assert str(fault.value).endswith(mended)
        assert str(next(ways.stale(small, found, directory))).endswith(
            f"not what a search finds today{mended}"
        )
    path.unlink()
    with pytest.raises(LedgerError, match=f"^verdicts/ways/{path.name}: missing; "):
        ways.ways(small, directory)
    assert ways.ways(small, directory, mend=True) == found


def test_the_command_writes_checks_and_is_read(pinouts, capsys, monkeypatch):
    """The tiny catalogue's one pair, which has no way."""
    say = lambda *words: (main([*words, "--pinouts", str(pinouts)]), capsys.readouterr())
    status, _ = say("ledger", "--ways", "--check")
    assert status == 1
    assert say("ledger", "--ways")[0] == 0
    assert say("ledger", "--ways", "--check")[0] == 0
    searched = say("ways", "player-out", "desk-in")[1].out
    monkeypatch.setattr(import_module("generator.__main__"), "routes", None)  # nothing is left to search
    assert say("ways", "player-out", "desk-in")[1].out == searched


def test_known_ways_hold_only_with_these_leads(small, longer, kept):
    directory, found = kept
    pair = next(pair for pair, rows in found.items() if rows)
    assert ways.known(small, directory, pair) == [tuple(row["through"]) for row in found[pair]]
    assert ways.known(longer, directory, pair) is None
    assert ways.known(small, directory / "none", pair) is None


def test_a_search_looks_no_further_than_what_is_known(small):
    """What is worse than all that is known is not judged."""
    judged = []
    search = Search(small, judge=lambda *asked: judged.append(asked[2]) or judge(*asked))
    pair = "mic-dynamic-xlr", "camera-mic-in-35"
    best = search.routes(*pair)
    every = judged[:]
    judged.clear()
    assert search.routes(*pair, offered=1, known=best[:1]) in ([], best[:1])
    assert len(judged) < len(every)
