"""What people type, and what they must get: attempts at the search, and whole questions, with the share that
comes out right, printed.

The words and what they mean stand in tests/data/*.yaml: the trade's, from memory, none a proprietary name."""

import json
import re
from pathlib import Path

import once
import pytest
import yaml
from front import run, scripts

from generator.catalogue.published import as_data
from generator.engine import rulebook
from generator.engine.tables import tables
from generator.site import data, guides, mated, sought, verdicts

SOURCE = Path(__file__).parents[2] / "site_src"
WORDS = Path(__file__).parents[1] / "data"
LEAST_FIRST, LEAST_FIVE = 0.95, 0.99  # of the attempts at the search: at place 1, among the first five
LEAST_RIGHT = 0.95  # of the questions: understood, first sentence and lead


def read(name):
    return yaml.load((WORDS / name).read_text(), Loader=yaml.BaseLoader)


ATTEMPTS = {
    words: [meant] if isinstance(meant, str) else meant
    for words, meant in read("search_attempts.yaml").items()
}
QUESTIONS = [
    [words, *([one] if isinstance(one, str) else one for one in ends), says, leads]
    for words, *ends, says, leads in read("questions_in_words.yaml")
]


@pytest.fixture(scope="module")
def given(catalogue, tmp_path_factory):
    file = tmp_path_factory.mktemp("words") / "given.json"
    ranked = sorted(once.rows(catalogue), key=lambda row: (row["from"], row["into"], verdicts.rank(row)))
    terms = guides.read(SOURCE / "guides/glossary.yaml") | rulebook.words()
    file.write_text(
        json.dumps(
            {
                "data": as_data(catalogue),
                **tables(),
                "mated": mated.table(catalogue),
                "table": data.table(ranked),
                "sought": sought.files(catalogue, SOURCE, terms),
            }
        )
    )
    return file


def asked(expression, given):
    page = (
        "globalThis.document = { querySelector: () => null, addEventListener() {} }; "
        'globalThis.window.addEventListener = () => {}; globalThis.location = { href: "file:///" };'
    )
    return run(expression, scripts("seek", "engine", "ui", "check/judged.js", "ways"), given, before=page)


def test_there_are_enough_attempts_and_questions():
    assert len(ATTEMPTS) >= 250 and len(QUESTIONS) >= 100


def test_the_search_finds_what_is_meant(given, capsys):
    found = asked(
        f"{json.dumps(list(ATTEMPTS))}.map((words) => Ringfence.seek.find(words).slice(0, "
        "5).map(({ id }) => id))",
        given,
    )
    places = {
        words: next(
            (at for at, id in enumerate(ids) if any(id.startswith(one) for one in ATTEMPTS[words])), None
        )
        for words, ids in zip(ATTEMPTS, found)
    }
    first, five = (
        sum(at is not None and at < most for at in places.values()) / len(places) for most in (1, 5)
    )
    with capsys.disabled():
        print(f"\nsearch: {len(places)} attempts, {first:.1%} at place 1, {five:.1%} in the first 5")
        for (words, at), ids in zip(places.items(), found):
            if at != 0:
                print(
                    f"    {words}: {'not in the first 5' if at is None else f'place {at + 1}'}; first "
                    f"{ids[:1]}"
                )
    assert first >= LEAST_FIRST and five >= LEAST_FIVE


def told(end):
    """What one end of a question is taken for: the one id, or the first five that are offered."""
    return {end["id"]} if end["id"] else set(end["others"][:5])


def test_questions_are_answered_right_at_first_reading(catalogue, given, capsys):
    """Understood means: both ends filled in rightly, or the right one among the first five that are
    offered for its words."""
    program = """%s.map(([words, from, into]) => { const { seek, ways } = Ringfence, understood = seek.understand(words), [first] = ways.of(from, into);
      return { understood, first: first && ui.works(first) ? first.through : null, says: ways.sentence({ from, into }, ways.of(from, into)) }; })"""
    answers = asked(
        program % json.dumps([[words, start[0], into[0]] for words, start, into, *_ in QUESTIONS]), given
    )
    wrong, filled, understood_right = [], 0, 0
    for (words, start, into, says, leads), answer in zip(QUESTIONS, answers):
        ends = answer["understood"]
        both = all(
            port.sources and port.listeners for port in (catalogue.ports[start[0]], catalogue.ports[into[0]])
        )
        meant = bool(ends) and any(
            all(told(ends[side]) & set(ids) for side, ids in zip(("from", "into"), pair))
            for pair in [(start, into)] + [(into, start)] * both
        )
        filled += meant and bool(ends["from"]["id"] and ends["into"]["id"])
        understood_right += meant
        through = answer["first"]
        name = "chain never" if through is None else "none" if not through else through[0]
        lead = any(name.startswith(one) or one in name.split() for one in leads)
        if not (meant and lead and re.search(says, answer["says"])):
            got = ends and [end["id"] or end["others"][:3] for end in (ends["from"], ends["into"])]
            wrong.append(
                f"    {words}: "
                f"{'' if meant else f'understood as {got}; '}{'' if lead else f'{name} first, not {leads}; '}“{answer['says']}”"
            )
    right = 1 - len(wrong) / len(QUESTIONS)
    with capsys.disabled():
        print(
            "\n"
            f"questions: {len(QUESTIONS)}, {right:.1%} right at first reading; "
            f"{understood_right / len(QUESTIONS):.1%} understood, {filled / len(QUESTIONS):.1%} without "
            "a further tap",
            *wrong,
            sep="\n",
        )
    assert right >= LEAST_RIGHT
