"""Laws of own numbers: silent changes nothing, a stricter number is never milder, and the same number in a
file gives the same record."""

import random
from dataclasses import replace
from itertools import pairwise

import pytest

from generator.catalogue import OWN, default_directory, load
from generator.catalogue.lint import lint
from generator.engine import VERDICTS, judge
from generator.ledger import lines
from generator.own import changed, said
from generator.own.apply import parameters

from .runs import RUNS

LESS, MORE = "the less, the stricter", "the more, the stricter"
# what an answer sets -> which way it gets stricter; a supply, an output's level or a resistance has no such
# way: it takes from one and gives to another
STRICTER = {
    **{("limits", field): LESS for field in ("settled", "seconds", "momentary")},
    ("listeners", "maximum"): LESS,
    ("needs", "least"): MORE,
    ("needs", "full"): MORE,
    ("listeners", "sensitivity"): MORE,
}
CONNECTIONS = 3  # of each question with such a way, drawn from the ledger


@pytest.fixture(scope="module")
def catalogue():
    return load(default_directory())


def by_own(catalogue, run, side, answers):
    start, through, target = run
    name = start if side == "from" else target
    own = replace(
        catalogue,
        ports={**catalogue.ports, name: changed(catalogue.ports[name], answers, catalogue.questions)},
    )
    return judge(own, start, through, target)


@pytest.mark.parametrize(
    "start, through, target, side, ask, numbers", RUNS, ids=[f"{run[0]}-{run[4]}" for run in RUNS]
)
def test_a_stricter_number_is_never_milder(catalogue, start, through, target, side, ask, numbers):
    verdicts = [
        by_own(catalogue, (start, through, target), side, {ask: number}).verdict for number in numbers
    ]
    assert all(VERDICTS.index(mild) <= VERDICTS.index(strict) for mild, strict in pairwise(verdicts)), list(
        zip(numbers, verdicts)
    )
    assert verdicts[0] != verdicts[-1], "the number decides here"


def way(ask):
    """LESS or MORE where all that the answer sets gets stricter that way, None where not."""
    ways = {STRICTER.get((one.kind, one.field)) for numbers in ask.feeds.values() for one in numbers}
    return ways.pop() if len(ways) == 1 else None


def test_a_stricter_number_is_never_milder_whatever_is_asked(catalogue, record_property):
    """Every question about a rating, a need or what an input hears, each in a few connections of
    whatever port is asked it."""
    draw, at, told = random.Random(21), {}, []
    for row in lines.rows(lines.read(default_directory() / "verdicts")):
        if row["from"] != row["into"]:
            at.setdefault(row["from"], []).append((row, "from"))
            at.setdefault(row["into"], []).append((row, "into"))
    for question in catalogue.questions.values():
        places = [
            (port.id, ask)
            for port in catalogue.ports.values()
            for ask in port.asks
            if ask.question == question.id and way(ask) and port.id in at
        ]
        for port, ask in draw.choices(places, k=CONNECTIONS) if places and question.unit else ():
            row, side = draw.choice(at[port])
            numbers = [
                f"{number:.9f} {question.unit}"
                for number in (question.least, (question.least * question.most) ** 0.5, question.most)
            ]
            run = row["from"], tuple(row["through"]), row["into"]
            verdicts = [
                by_own(catalogue, run, side, {ask.id: number}).verdict
                for number in (numbers[::-1] if way(ask) == LESS else numbers)
            ]
            assert all(
                VERDICTS.index(mild) <= VERDICTS.index(strict) for mild, strict in pairwise(verdicts)
            ), (run, ask.id, verdicts)
            told.append((question.id, len(set(verdicts)) > 1))
    record_property(
        "told",
        f"{len({id for id, _ in told})} questions in {len(told)} connections, decided in "
        f"{sum(one for _, one in told)}",
    )
    assert sum(one for _, one in told) > 10, "the numbers decide often enough to tell"


def test_silent_changes_nothing(catalogue):
    for port in catalogue.ports.values():
        assert (
            changed(
                port,
                {ask.id: draw for ask, draw in zip(port.asks, ["silent", ""] * len(port.asks))},
                catalogue.questions,
            )
            == port
        )


def test_the_catalogues_own_number_changes_no_number(catalogue):
    """Typed back as it stands, a value changes what is known of it and nothing else; answers yes and no
    have no value to type."""
    for port in catalogue.ports.values():
        for ask in port.asks:
            if ask.value in ("", "unknown") or "+-" in ask.value:
                continue
            made = changed(
                port,
                {
                    ask.id: f"{ask.value.replace(' V', '').strip()} V"
                    if ask.value.endswith(" V")
                    else ask.value
                },
                catalogue.questions,
            )
            for one in (
                ours
                for numbers in ask.feeds.values()
                for ours in numbers
                if ours.kind == "limits" and ours.field == "settled"
            ):
                before, after = (
                    next(limit for limit in record.network.limits if limit.id == one.id)
                    for record in (port, made)
                )
                assert len(ask.feeds) > 1 or (after.settled, after.seconds, after.momentary) == (
                    before.settled,
                    before.seconds,
                    before.momentary,
                ), (port.id, ask.id)
                assert after.evidence.grade == OWN


def test_yes_to_phantom_is_whole(catalogue):
    """Volts, seconds and way round at once: nothing about fed-back phantom is left over. No is never
    milder than not knowing."""
    run = "wireless-receiver-out-xlr", ("xlr-f-to-xlr-m-3m",), "mixer-mic-in-p48-xlr"
    yes, no, silent = (
        by_own(catalogue, run, "from", {"main.may-meet-phantom": answer})
        for answer in ("yes", "no", "silent")
    )
    assert not {"over-volts", "reversed-capacitor", "rating-not-known"} & {
        finding.id for finding in yes.findings
    }
    assert yes.verdict != "dangerous" and no.verdict == silent.verdict == "dangerous"
    assert {finding.evidence for finding in no.findings if finding.id == "over-volts"} == {OWN}


def test_a_number_settles_only_what_it_is_about(catalogue):
    start, through, target, *_ = RUNS[2]
    verdict = by_own(catalogue, (start, through, target), "from", {"main.maximum-output-level": "-20 dBu"})
    assert verdict.verdict == "dangerous"
    assert OWN not in {finding.evidence for finding in verdict.findings if finding.severity == "dangerous"}


def written(port, answers, catalogue):
    """The file that says the same: what the page of devices exports."""
    set_by = {}
    asks = {ask.id: ask for ask in port.asks}
    for id, typed in sorted(answers.items(), key=lambda one: not asks[one[0]].answers):
        ask = asks[id]
        text = said(typed, ask, catalogue.questions[ask.question])
        for name, value in (
            ask.answers[text].items() if ask.answers else dict.fromkeys(ask.feeds, text).items()
        ):
            for instance in ask.instances:
                set_by.setdefault(instance, {})[name] = value
    lines = [f"name: Own {port.id}", f"same_as: {port.id}", "circuit:"]
    for instance, values in set_by.items():
        lines += [
            f"  {instance}:",
            *(f"    {name}: {{value: {value}, evidence: {OWN}}}" for name, value in values.items()),
        ]
    return "\n".join(lines) + "\n"


def test_a_file_gives_the_same_record(catalogue, tmp_path):
    """One of every class, with what the catalogue says where it says something, lints as it is and reads
    as the changed record."""
    draw, made = random.Random(3), {}
    for port in catalogue.ports.values():
        asks = [ask for ask in port.asks if ask.answers or (ask.value != "unknown" and "+-" not in ask.value)]
        if asks:
            ask = draw.choice(asks)
            answers = {ask.id: draw.choice(["yes", "no"]) if ask.answers else ask.value}
            made[f"own-{port.id}"] = changed(port, answers, catalogue.questions)
            (tmp_path / f"own-{port.id}.yaml").write_text(written(port, answers, catalogue), encoding="utf-8")
    assert lint(default_directory(), [tmp_path]) == []
    read = load(default_directory(), [tmp_path])
    assert set(read.local) == set(made)
    for name, port in made.items():
        theirs = read.ports[name]
        assert (theirs.network, theirs.sources, theirs.listeners, theirs.needs) == (
            port.network,
            port.sources,
            port.listeners,
            port.needs,
        ), name
        assert theirs.same_as == port.id


def test_the_catalogue_itself_has_none(catalogue):
    """A manual that only one person has read is no evidence for everybody."""
    assert OWN not in {ask.evidence.grade for port in catalogue.ports.values() for ask in port.asks}
    assert catalogue.local == ()


def test_an_ask_that_is_not_there_is_named(catalogue):
    with pytest.raises(KeyError, match=r"main\.colour"):
        parameters(catalogue.ports["mixer-line-out-xlr"], {"main.colour": "red"}, catalogue.questions)
