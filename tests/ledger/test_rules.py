"""What a change of the rulebook does is known from remembered readings: the same rows and numbers as if all
were judged from nothing."""

from importlib import import_module
from random import Random

import numpy as np
import pytest
import yaml

from generator import ledger
from generator.catalogue import default_directory, load
from generator.engine import judge, pairings, rulebook
from generator.engine.findings import UNRATED, findings_of
from generator.engine.readings import Reading
from generator.ledger import fingerprint, kept, numbers, rules
from generator.ledger.recorded import recorded, replayed

JUDGED = import_module("generator.ledger.judged")
SOME, DRAWN = 16, 4
CACHED = (
    rulebook.rules,
    rulebook.rules_about,
    rulebook._weights,
    rulebook.lower_is_worse,
    fingerprint.engine_digest,
)
TEXT, LOAD = rulebook.PATH.read_text("utf-8"), yaml.safe_load
WRITTEN = LOAD(TEXT)


def by(factor):
    """A limit or its like taken times a number, where it is one."""

    def changed(name):
        return lambda row: (
            {**row, name: row[name] * factor}
            if isinstance(row.get(name), (int, float)) and row[name]
            else None
        )

    return changed


def without(book, number):
    return book[:number] + book[number + 1 :]


def graver(row):
    if row["severity"] in ("note", "lossy"):
        return {**{name: row[name] for name in row if name != "weighs"}, "severity": "dangerous"}
    return None


def milder(row):
    return {**row, "severity": "note"} if row["severity"] in ("dangerous", "no signal") else None


CHANGES = {
    "limit up": by(1.5)("limit"),
    "limit down": by(0.6)("limit"),
    "limit turned": by(-1)("limit"),
    "graver": graver,
    "milder": milder,
    "weighs more": by(3)("weighs"),
    "weighs less": lambda row: {**row, "weighs": 1} if row.get("weighs", 1) > 1 else None,
    "only for others": lambda row: {**row, "only": {**row.get("only", {}), "way": "back"}},
    "for all": lambda row: {**row, "only": {}} if row.get("only") else None,
    "a wide margin": lambda row: {**row, "margin": 0.5},
    "a number for its own": lambda row: {**row, "limit": 0.001} if row["limit"] == "own" else None,
    "another way round": lambda row: (
        {**row, "compare": "below" if row["compare"] == "above" else "above"}
        if row["limit"] != "own"
        else None
    ),
    "until": lambda row: {**row, "until": 1.0e-3},
    "another name": lambda row: {**row, "id": "another-name"},
    "no figure": lambda row: {**row, "severity": "note"} if row["severity"] == "figure" else None,
}


@pytest.fixture(scope="module")
def whole():
    return load(default_directory())


@pytest.fixture(scope="module")
def some(whole):
    """Pairings drawn from all there are, and what was read of them."""
    drawn = Random(SOME).sample(list(pairings(whole)), SOME)
    return {pairing: recorded(whole, *pairing)[1] for pairing in sorted(drawn)}


@pytest.fixture
def remembered(some, whole, tmp_path, monkeypatch):
    """The folder of a ledger of them and the file that remembers their readings."""
    monkeypatch.setattr(kept, "pairings", lambda catalogue: some)
    monkeypatch.setattr(
        JUDGED,
        "recorded",
        lambda catalogue, *pairing: (replayed(catalogue, *pairing, some[pairing]), some[pairing]),
    )
    folder, memory = tmp_path / "verdicts", tmp_path / "readings.sqlite"
    ledger.keep(whole, ledger.rows(whole, folder, memory), folder, memory)

    def never(*given):
        raise AssertionError("all is remembered")

    monkeypatch.setattr(JUDGED, "recorded", never)
    return folder, memory


@pytest.fixture
def written(monkeypatch):
    """Puts other rows in the place of the rulebook's."""

    def written(rows):
        monkeypatch.setattr(yaml, "safe_load", lambda text: rows if text == TEXT else LOAD(text))
        for one in CACHED:
            one.cache_clear()

    written(WRITTEN)
    yield written
    monkeypatch.undo()
    for one in CACHED:
        one.cache_clear()


def changed_books(name):
    """Rulebooks with one rule changed."""
    found = [
        WRITTEN[:number] + [new] + WRITTEN[number + 1 :]
        for number, row in enumerate(WRITTEN)
        if (new := CHANGES[name](row)) is not None and new != row
    ]
    return Random(name).sample(found, min(DRAWN, len(found)))


def as_from_nothing(whole, some):
    """Rows and the text of numbers, of every pairing judged from its readings alone."""
    answers = [replayed(whole, *pairing, some[pairing]).as_data() for pairing in some]
    rows = list(map(ledger.row, answers))
    told = {
        (row["from"], *row["through"], row["into"]): numbers.lines(answer)
        for row, answer in zip(rows, answers)
    }
    return rows, numbers.text(
        told[row["from"], *row["through"], row["into"]] for row in numbers.telling(rows)
    )


def holds(whole, some, remembered):
    folder, memory = remembered
    rows, text = as_from_nothing(whole, some)
    assert ledger.rows(whole, folder, memory) == rows
    assert list(ledger.stale(whole, rows, folder, memory)) or ledger.text(rows) == ledger.read(folder)
    assert kept._numbers(whole, rows, folder, memory) == text
    return rows, text


@pytest.mark.parametrize("name", CHANGES)
def test_a_changed_rule_gives_what_judging_all_from_nothing_gives(whole, some, written, remembered, name):
    books = changed_books(name)
    assert books
    for book in books:
        written(book)
        holds(whole, some, remembered)


def test_a_rule_more_and_a_rule_less(whole, some, written, remembered):
    before, chance = as_from_nothing(whole, some), Random(0)
    others = 0
    for number in chance.sample(range(len(WRITTEN)), 2 * DRAWN):
        written(without(WRITTEN, number))
        others += holds(whole, some, remembered) != before
    more = {
        "id": "more",
        "quantity": "path-gain",
        "compare": "below",
        "limit": 1000.0,
        "severity": "dangerous",
        "says": "So.",
        "reason": "So.",
        "evidence": "derived",
    }
    for at in (0, len(WRITTEN)):
        written([*WRITTEN[:at], more, *WRITTEN[at:]])
        others += holds(whole, some, remembered) != before
    assert others > 2, "some of this is to be seen"


def test_a_change_is_written_and_stands(whole, some, written, remembered):
    folder, memory = remembered
    more = {
        "id": "more",
        "quantity": "path-gain",
        "compare": "below",
        "limit": 1000.0,
        "severity": "dangerous",
        "says": "So.",
        "reason": "So.",
        "evidence": "derived",
    }
    written([*WRITTEN, more])
    rows, _ = holds(whole, some, remembered)
    ledger.keep(whole, rows, folder, memory)
    assert list(ledger.stale(whole, rows, folder, memory)) == []
    written(WRITTEN)
    rows, _ = holds(whole, some, remembered)
    assert list(ledger.stale(whole, rows, folder, memory))


@pytest.fixture
def looked_at(monkeypatch):
    """The pairings that are judged from their readings."""
    calls = []
    monkeypatch.setattr(
        JUDGED, "replayed", lambda catalogue, *given: calls.append(given[:3]) or replayed(catalogue, *given)
    )
    return calls


def test_a_sentence_looks_at_nothing_and_a_limit_at_what_it_bears_on(
    whole, some, written, remembered, looked_at
):
    folder, memory = remembered
    written([{**row, "says": f"Well: {row['says']}", "reason": "So it is."} for row in WRITTEN])
    ledger.rows(whole, folder, memory)
    assert not looked_at
    written(
        [
            {**row, "limit": row["limit"] * 1.0001}
            if isinstance(row["limit"], float) and row["limit"]
            else row
            for row in WRITTEN
            if row["severity"] != "figure"
        ]
    )
    ledger.rows(whole, folder, memory)
    told = {pairing for pairing in looked_at}
    assert told != set(some), "not all"
    looked_at.clear()
    written(
        [
            {**row, "limit": row["limit"] * 2}
            if row["severity"] == "figure" and row["limit"] != "own"
            else row
            for row in WRITTEN
        ]
    )
    ledger.rows(whole, folder, memory)
    assert not looked_at, "no row has a figure"


@pytest.mark.parametrize(
    "spoil",
    [
        "DELETE FROM rulebooks",
        "DELETE FROM outlines",
        "UPDATE outlines SET text = substr(text, 1, length(text) - 5)",
        "UPDATE pairings SET readings = x'00'",
        "DELETE FROM pairings",
    ],
)
def test_what_is_not_remembered_is_judged(whole, some, written, remembered, monkeypatch, capsys, spoil):
    folder, memory = remembered
    monkeypatch.setattr(
        JUDGED,
        "recorded",
        lambda catalogue, *pairing: (replayed(catalogue, *pairing, some[pairing]), some[pairing]),
    )
    file = import_module("sqlite3").connect(memory)
    with file:
        file.execute(spoil)
    file.close()
    written(changed_books("limit up")[0])
    holds(whole, some, remembered)


def test_rules_are_met_as_the_engine_has_it():
    """The same rules for many numbers at once: every rule, at its limit, about it and far from it."""
    chance = Random(1)
    for quantity, about in rules.book().items():
        limits = (
            [float(rule["limit"]) for rule in about if rule["limit"] != "own"]
            + [rule["until"] for rule in about if rule["until"] is not None]
            + [1.0, -3.0, 0.0]
        )
        values = [
            limit * (1 + step) + more
            for limit in limits
            for step in (0, 1e-10, -1e-10, 3e-9, -3e-9, 0.04, -0.04, 1, -3)
            for more in (0.0, 1e-15)
        ]
        kinds = [dict(rule["only"]) for rule in about] + [{}, {"way": "back"}]
        for flags in kinds:
            for setting in (0, 1):
                own = [chance.choice(limits) for _ in values]
                met = rules._met(about, flags, bool(setting), np.array(values), np.array(own))
                for value, limit, told in zip(values, own, met.T):
                    reading = Reading(
                        quantity,
                        "into/part",
                        "part",
                        value,
                        "V",
                        "settled",
                        setting,
                        limit,
                        flags=flags,
                        words=WORDS,
                    )
                    found = [(finding.id, finding.limit) for finding in findings_of(reading, ("", ""), {})]
                    wanted = [
                        (
                            rule["id"],
                            None
                            if rule["id"] in UNRATED
                            else limit
                            if rule["limit"] == "own"
                            else float(rule["limit"]),
                        )
                        for rule, one in zip(about, told)
                        if one
                    ]
                    assert found == wanted, (quantity, value, limit, flags, setting)


class Any(dict):
    """A word for every name."""

    def items(self):
        return [(name, "it") for name in NAMES]


NAMES = {
    name
    for row in WRITTEN
    for field in ("says", "remedy", "mend")
    for name in import_module("re").findall(r"\{(\w+)\}", row.get(field, ""))
} - {"value", "limit", "loss"}
WORDS = Any()


def test_every_answer_is_judged_alike_with_readings_written_down(whole, some):
    for pairing, written in some.items():
        assert replayed(whole, *pairing, written) == judge(whole, *pairing)
