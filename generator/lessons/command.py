"""The command `lessons`: questions by kind, level and seed, or a ready lesson, written to a folder
in one of four formats."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from collections.abc import Callable
from itertools import islice
from pathlib import Path

from generator.catalogue import load
from generator.ledger import rows
from generator.workshop import kept

from . import bank
from .export import page, qti, scorm, table
from .facts import Facts
from .kinds import KINDS
from .lesson import BrokenLesson, Lesson, read
from .question import LEVELS, NoQuestion, Question

FORMATS = ("html", "csv", "qti", "scorm")
LESSONS = Path(__file__).parents[2] / "site_src/lessons"
GUIDES = Path(__file__).parents[2] / "site_src/guides"
REMEMBERED = Path("build/readings.sqlite")
MOST = 5000  # questions of one file; more is a mistake in typing


def add(command: Callable[..., ArgumentParser], run: Callable) -> None:
    """Add the command; `run` gets the options, whose `answers` gives (text, is all well)."""
    made = command(
        "lessons", run, "Write questions with their verified answers, or a ready lesson, to a folder."
    )
    made.add_argument(
        "--kind",
        action="append",
        default=[],
        metavar="KIND",
        help=f"one of {', '.join(KINDS)}; again for more, all if none is named",
    )
    made.add_argument("--level", metavar="LEVEL", help=", ".join(LEVELS))
    made.add_argument("--seed", default="1", metavar="SEED", help="the same seed gives the same questions")
    made.add_argument("--count", type=int, default=20, metavar="N", help="how many questions")
    made.add_argument(
        "--ask",
        action="append",
        default=[],
        metavar="KIND:SUBJECT",
        help="this very question; again for more",
    )
    made.add_argument("--core", action="store_true", help="the reviewed core instead of questions by seed")
    made.add_argument("--lesson", metavar="ID", help="the questions of a ready lesson instead")
    made.add_argument("--format", default="html", metavar="FORMAT", help=", ".join(FORMATS))
    made.add_argument("--no-answers", action="store_true", help="html: leave the page of answers out")
    made.add_argument("--out", type=Path, required=True, metavar="DIR")
    made.set_defaults(answers=_answers)


def facts(pinouts: Path) -> Facts:
    """What questions are made of, from a catalogue's folder. CatalogueError or LedgerError
    where that is broken."""
    catalogue = load(pinouts)
    return Facts(catalogue, rows(catalogue, pinouts / "verdicts", REMEMBERED), kept.read(pinouts))


def guides() -> list[str]:
    """The names of the guides."""
    return sorted(path.name.removesuffix(".md.j2") for path in GUIDES.glob("*.md.j2"))


def _answers(options: Namespace) -> tuple[str, bool]:
    if options.format not in FORMATS:
        bank.known(options.format, FORMATS, "format")
    if not 1 <= options.count <= MOST:
        raise NoQuestion(f"--count {options.count}: write a number from 1 to {MOST}")
    kinds = [bank.known_kind(kind) for kind in dict.fromkeys(options.kind)] or list(KINDS)
    level = bank.known_level(options.level) if options.level else None
    known = facts(options.pinouts)  # takes seconds: after what was typed is known to be right
    name, title, texts, questions = _wanted(options, known, kinds, level)
    if not questions:
        raise NoQuestion(
            "Nothing of that kind and level was found; leave the level out, or name other kinds."
        )
    content = _written(options, known, name, title, texts, questions)
    options.out.mkdir(parents=True, exist_ok=True)
    path = options.out / f"{name}{ENDINGS[options.format]}"
    path.write_bytes(content)
    short = (
        f" (only {len(questions)} there are)"
        if not (options.core or options.lesson or options.ask) and len(questions) < options.count
        else ""
    )
    return f"{path}: {len(questions)} questions{short}", True


ENDINGS = {"html": ".html", "csv": ".csv", "qti": "-qti.zip", "scorm": "-scorm.zip"}


def _wanted(
    options: Namespace, known: Facts, kinds: list[str], level: str | None
) -> tuple[str, str, list[str], list[Question]]:
    """(name of the file, title, sentences before it, questions)."""
    if options.lesson:
        one = _lesson(known, options.lesson)
        return (
            one.id,
            one.title,
            [one.about, *(stop.say for stop in one.stops if stop.say)],
            [bank.question(known, id) for id in one.asked()],
        )
    if options.ask:
        return "questions", "Questions", [], [bank.question(known, id) for id in dict.fromkeys(options.ask)]
    if options.core:
        return "core", "Questions: the reviewed core", [], [bank.question(known, id) for id in bank.core()]
    found = list(islice(bank.drawn(known, kinds, options.seed, level), options.count))
    return (
        f"questions-{''.join(c if c.isalnum() else '-' for c in options.seed)[:40]}",
        f"Questions, seed {options.seed}",
        [],
        found,
    )


def _lesson(known: Facts, id: str) -> Lesson:
    try:
        lessons = {one.id: one for one in read(LESSONS, known, guides())}
    except BrokenLesson as fault:
        raise NoQuestion(str(fault)) from None
    return lessons[bank.known(id, lessons, "ready lesson")]


def _written(
    options: Namespace, known: Facts, name: str, title: str, texts: list[str], questions: list[Question]
) -> bytes:
    if options.format == "csv":
        return table.text(questions).encode()
    if options.format == "qti":
        return qti.package(known.catalogue, questions, title)
    if options.format == "scorm":
        return scorm.package(known.catalogue, name, title, texts, questions)
    return page.text(known.catalogue, questions, title, not options.no_answers).encode()
