"""Lessons: the ready ones are whole, and one that is not is told what is wrong, all of it at once."""

import pytest

from generator.lessons.command import LESSONS, guides
from generator.lessons.lesson import BrokenLesson, lesson, read, readable
from generator.lessons.tables import table

GOOD = {"title": "A", "about": "B.", "level": "operator", "minutes": "5"}


def test_ten_ready_lessons_are_whole(facts):
    found = read(LESSONS, facts, guides())
    assert len(found) >= 10
    for one in found:
        assert len(one.stops) >= 8 and len(list(one.asked())) >= 2, one.id
        assert one.stops[0].say or one.stops[0].kind == "guide", (
            f"{one.id}: a lesson begins with something said"
        )


@pytest.mark.parametrize(
    "stop, told",
    [
        (
            {"draw": "xlr-3-balancd"},
            "stop 1: 'xlr-3-balancd': nothing to draw of that name; did you mean 'xlr-3-balanced'?",
        ),
        ({"check": "a,b,c"}, "stop 1: 'a,b,c' is no judged connection; write FROM,LEAD,INTO"),
        ({"guide": "humm"}, "stop 1: 'humm': no guide of that name; did you mean 'hum'?"),
        ({"ask": "contact:x,1"}, "stop 1: “x,1”: no assignment with a known role on that contact"),
        (
            {"film": "x"},
            "stop 1: a stop is one of say, draw, check, guide, ask, with a sentence `say` if you like",
        ),
        (
            {"say": "x" * 601},
            "stop 1: own text has 601 characters; 600 at most, for it is read from the last row",
        ),
        ("text", "stop 1: a stop is one of say, draw, check, guide, ask, with a sentence `say` if you like"),
    ],
)
def test_a_stop_that_leads_nowhere(facts, stop, told):
    with pytest.raises(BrokenLesson) as why:
        lesson("x", {**GOOD, "stops": [stop]}, facts, guides())
    assert str(why.value) == told


def test_all_faults_are_told_at_once(facts):
    with pytest.raises(
        BrokenLesson,
        match=(
            "'title' is missing; level 'hard' is none of first day, operator, engineer; minutes is no whole "
            "number; stop 2: "
        ),
    ):
        lesson(
            "x",
            {"about": "B", "level": "hard", "minutes": "some", "stops": [{"say": "a"}, {"draw": "nothing"}]},
            facts,
            guides(),
        )
    with pytest.raises(BrokenLesson, match="a lesson has a title"):
        lesson("x", ["no map"], facts, guides())


def test_a_broken_file_leaves_the_others(facts, tmp_path):
    (tmp_path / "a.yaml").write_text(
        "title: A\nabout: B\nlevel: operator\nminutes: 5\nstops:\n  - {say: hello}\n"
    )
    (tmp_path / "b.yaml").write_text("title: [")
    found, faults = readable(tmp_path, facts, guides())
    assert [one.id for one in found] == ["a"] and len(faults) == 1 and faults[0].startswith("b.yaml: ")


def test_no_two_steps_of_a_procedure_are_alike():
    for name, procedure in table("orders").items():
        steps = [step["do"] for step in procedure["steps"]]
        assert len(set(steps)) == len(steps) >= 3, name
        assert all(step["why"] for step in procedure["steps"]), name
