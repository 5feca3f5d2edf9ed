"""Questions: one right answer each, derived again from the data by a reader of its own; wrong answers
that are listed mistakes."""

from collections import Counter
from itertools import islice

import pytest
import reader

from generator.catalogue.records import GRADES
from generator.lessons import KINDS, LEVELS, NoQuestion, core, drawn, question
from generator.lessons.bank import known_kind, known_level
from generator.lessons.export import qti
from generator.lessons.facts import subject
from generator.lessons.question import Choice, Question, Target
from generator.lessons.tables import table

COUNT = 5000


@pytest.fixture(scope="module")
def many(facts):
    return list(islice(drawn(facts, list(KINDS), "five thousand"), COUNT))


def test_there_are_five_thousand_of_many_kinds(many):
    assert len({one.id for one in many}) == COUNT
    assert set(reader.CHECKS) == set(KINDS) and len(KINDS) >= 12
    assert min(Counter(one.kind for one in many).values()) >= 30
    assert set(Counter(one.level for one in many)) == set(LEVELS)


def test_the_right_answer_is_right_and_no_other_is(many):
    wrong = [f"{one.id}: {fault}" for one in many if (fault := reader.CHECKS[one.kind](one))]
    assert wrong == []


def test_choices_differ_and_are_neither_few_nor_many(many):
    for one in many:
        texts = [choice.text.lower() for choice in one.choices]
        assert len(set(texts)) == len(texts), one.id
        assert one.form == "number" or 3 <= len(texts) <= 8 or one.kind == "contact", one.id
        assert all(texts), one.id


def test_the_explanation_names_the_deciding_number(many):
    for one in many:
        assert one.because and one.number in one.because, one.id
    numbered = [
        one
        for one in many
        if one.kind in ("verdict", "lost", "danger", "silence")
        and reader.number(reader.lines()[one.subject][2])
    ]
    assert len(numbered) > 300
    for one in numbered:
        assert reader.lines()[one.subject][2].split(" / ")[0] in one.because, one.id


def test_what_rests_on_memory_says_so(many):
    for one in many:
        assert one.evidence in GRADES and bool(one.note) == (one.evidence == "from memory"), one.id
        assert not one.note or "from memory" in one.note.lower(), one.id


def test_the_working_and_the_drawings_are_there(many, catalogue):
    pages = {
        f"{kind}/{id}/"
        for kind in ("connectors", "assignments", "ports", "leads")
        for id in getattr(catalogue, kind)
    } | {f"workshop/{id}/" for id in catalogue.leads}
    for one in many:
        assert one.works in pages or one.works.startswith(("check/#from=", "guides/")), one.id
        assert one.pictures or one.form in ("number", "order"), one.id


def test_a_seed_gives_the_same_again_and_another_others(facts):
    first, again, other = (
        [one.as_data() for one in islice(drawn(facts, list(KINDS), seed), 40)] for seed in ("a", "a", "b")
    )
    assert first == again
    assert len({one["id"] for one in first} & {one["id"] for one in other}) < 20


def test_the_place_of_the_right_answer_is_drawn_by_lot(many):
    places = Counter(
        [choice.id for choice in one.choices].index(one.answer[0])
        for one in many
        if one.form == "choice" and one.kind != "verdict" and len(one.choices) == 4
    )
    assert min(places[place] for place in range(4)) > sum(places.values()) / 6


def test_the_reviewed_core_stands(facts):
    """Every address of the core answers, its answer holds against the reader, and it is broad."""
    found = [question(facts, id) for id in core()]
    assert len(found) == len(set(core())) == 300
    assert [f"{one.id}: {fault}" for one in found if (fault := reader.CHECKS[one.kind](one))] == []
    assert set(Counter(one.kind for one in found)) == set(KINDS)


def test_switches_are_asked_about_in_every_way_they_decide(facts):
    """Off while plugging, only on, either: every connection with one switch for which the ledger proves it,
    by the reader that shares no code."""
    found = []
    for row in facts.sensible:
        try:
            found.append(question(facts, f"switch:{subject(row)}"))
        except NoQuestion:
            continue
    tally = Counter(one.answer[0] for one in found)
    assert set(tally) == {"off-on", "on", "either"} and min(tally.values()) >= 60, tally
    assert [f"{one.id}: {fault}" for one in found if (fault := reader.switch(one))] == []


def test_a_switch_the_ledger_proves_nothing_about_is_not_asked(facts):
    with pytest.raises(NoQuestion, match="no switch decides while it is plugged"):
        question(facts, "switch:mic-ribbon-xlr,xlr-f-to-635-ts-3-to-1,mixer-mic-in-p48-635")


def test_a_thousand_times_is_written_out(facts):
    assert (
        question(facts, "estimate:times-of-db,60").because
        == "20 dB is ten times, 6 dB twice: 60 dB is 1000 times."
    )


def test_a_wrong_answer_key_would_be_found(facts):
    """The reader is no rubber stamp: a question with another answer is caught, for
    every kind with choices."""
    for kind in set(KINDS) - {"estimate", "order"}:
        one = next(
            one
            for one in drawn(facts, [kind], "caught")
            if kind != "meter" or not reader.raw("leads", one.subject.split(",")[0]).get("parts")
        )
        other = next(choice.id for choice in one.choices if choice.id not in one.answer)
        forged = Question(
            **{**{name: getattr(one, name) for name in one.__dataclass_fields__}, "answer": (other,)}
        )
        assert reader.CHECKS[kind](forged), kind


@pytest.mark.parametrize(
    "id, told",
    [
        ("contact", "“contact” is no address of a question; write KIND:SUBJECT"),
        ("contct:xlr-3-balanced,2", "“contct” is no kind of question; did you mean contact?"),
        (
            "contact:xlr-3-balanced",
            "“xlr-3-balanced” is not a subject of this kind; write ASSIGNMENT,CONTACT",
        ),
        ("contact:xlr-3-balanced,9", "no assignment with a known role on that contact"),
        ("verdict:mic-dynamic-xlr,no-such-lead,mixer-mic-in-xlr", "the ledger has no such connection"),
        ("order:phantom-on,3-2-1", "name 3 to 5 steps, each once and in order"),
        ("order:phantom-on,x", "no procedure with steps"),
        ("estimate:phantom-left,6", "phantom-left takes one of 1, 2, 3"),
        ("name:xlr-3,plug", "no connector with a side view of that half"),
        ("fault:xlr-f-to-xlr-m-3m,melted:b.1", "no plain lead with such a fault"),
    ],
)
def test_an_address_that_leads_nowhere_is_told(facts, id, told):
    with pytest.raises(NoQuestion) as why:
        question(facts, id)
    assert told in str(why.value)


def test_names_are_corrected():
    with pytest.raises(NoQuestion, match="did you mean operator"):
        known_level("oprator")
    assert known_kind("fits") == "fits"


def test_a_question_that_contradicts_itself_is_refused():
    rest = {
        "kind": "x",
        "subject": "y",
        "asks": "?",
        "because": ".",
        "works": "check/",
        "level": "operator",
        "evidence": "derived",
    }
    with pytest.raises(ValueError, match="two choices are alike"):
        Question(answer=("a",), choices=(Choice("a", "same"), Choice("b", "same")), **rest)
    with pytest.raises(ValueError, match="not among"):
        Question(answer=("c",), choices=(Choice("a", "one"), Choice("b", "two")), **rest)
    with pytest.raises(ValueError, match="not among"):
        Question(answer=(), **rest)
    assert Question(answer=(), form="number", target=Target(-3, "dB", 1), **rest).right() == "−3 dB"


def test_every_listed_mistake_is_a_finding_with_words():
    meant = table("findings")
    for name, row in meant.items():
        assert {*row.get("mixed", ()), *row.get("like", ())} <= set(meant), name
        assert name not in (*row.get("mixed", ()), *row.get("like", ())), name
        assert not set(row.get("mixed", ())) & set(row.get("like", ())), name


def test_identifiers_do_not_meet(many):
    assert len({qti.identifier(one) for one in many}) == COUNT
