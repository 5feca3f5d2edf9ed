"""A lesson: an ordered list of stops, read from YAML or handed over as data, checked
against what is there."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path
from typing import Any

import yaml

from generator.catalogue.records import Catalogue

from .bank import question
from .facts import Facts
from .question import LEVELS, NoQuestion

# own text, a drawing, a connection, a page of a guide, a question
KINDS = ("say", "draw", "check", "guide", "ask")
TEXT = 600  # characters of own text


class BrokenLesson(ValueError):
    """A lesson that cannot be taught; the message has every fault, a line each."""


@dataclass(frozen=True)
class Stop:
    """`kind` is one of KINDS; `of` what it shows: an id, a connection FROM,LEAD,INTO (`-` for no lead), a
    guide's name, a question's address; `say` is own text, the stop itself or a sentence with it."""

    kind: str
    of: str
    say: str = ""


@dataclass(frozen=True)
class Lesson:
    """`id` is its file's name."""

    id: str
    title: str
    about: str
    level: str
    minutes: int
    stops: tuple[Stop, ...]

    def asked(self) -> Iterator[str]:
        """The addresses of its questions."""
        return (stop.of for stop in self.stops if stop.kind == "ask")


def read(folder: Path, facts: Facts, guides: Iterable[str]) -> list[Lesson]:
    """Every lesson of a folder, in the order of their file names. BrokenLesson with all
    faults of all of them."""
    found, faults = readable(folder, facts, guides)
    if faults:
        raise BrokenLesson("\n".join(faults))
    return found


def readable(folder: Path, facts: Facts, guides: Iterable[str]) -> tuple[list[Lesson], list[str]]:
    """The whole lessons of a folder, and what is wrong with the others: of a catalogue that lacks
    what they are about, say."""
    found, faults = [], []
    for path in sorted(folder.glob("*.yaml")):
        try:
            found.append(
                lesson(path.stem, yaml.load(path.read_text("utf-8"), Loader=yaml.BaseLoader), facts, guides)
            )
        except (BrokenLesson, yaml.YAMLError) as fault:
            faults.append(f"{path.name}: {fault}")
    return found, faults


def lesson(id: str, data: Any, facts: Facts, guides: Iterable[str]) -> Lesson:
    """A lesson from what a file holds. BrokenLesson with all its faults."""
    if not isinstance(data, Mapping) or not isinstance(data.get("stops"), list):
        raise BrokenLesson("a lesson has a title, about, level, minutes and a list of stops")
    faults = [
        f"'{name}' is missing"
        for name in ("title", "about", "level", "minutes")
        if not isinstance(data.get(name), str)
    ]
    faults += (
        [f"level '{data['level']}' is none of {', '.join(LEVELS)}"]
        if isinstance(data.get("level"), str) and data["level"] not in LEVELS
        else []
    )
    faults += [] if str(data.get("minutes")).isdigit() else ["minutes is no whole number"]
    stops = []
    for number, given in enumerate(data["stops"], 1):
        try:
            stops.append(_stop(given, facts, list(guides)))
        except (NoQuestion, ValueError) as fault:
            faults.append(f"stop {number}: {fault}")
    if faults:
        raise BrokenLesson("; ".join(faults))
    return Lesson(id, data["title"], data["about"], data["level"], int(data["minutes"]), tuple(stops))


def _stop(given: Any, facts: Facts, guides: list[str]) -> Stop:
    kinds = [kind for kind in KINDS if kind in given] if isinstance(given, Mapping) else []
    if not kinds or set(given) - {"say", kinds[-1]}:
        raise ValueError(f"a stop is one of {', '.join(KINDS)}, with a sentence `say` if you like")
    kind, say = kinds[-1], given.get("say", "")
    if len(say) > TEXT:
        raise ValueError(
            f"own text has {len(say)} characters; {TEXT} at most, for it is read from the last row"
        )
    of = "" if kind == "say" else given[kind]
    if kind == "draw":
        _known(of, drawable(facts.catalogue), "nothing to draw")
    if kind == "check" and of not in facts.by_subject:
        raise ValueError(f"'{of}' is no judged connection; write FROM,LEAD,INTO")
    if kind == "guide":
        _known(of, guides, "no guide")
    if kind == "ask":
        question(facts, of)
    return Stop(kind, of, say)


def drawable(catalogue: Catalogue) -> dict[str, str]:
    """Id -> the name of its drawing: connectors, assignments, ports and leads."""
    kinds = ("connectors", "assignments", "ports", "leads")
    return {id: f"{kind[:-1]}-{id}" for kind in kinds for id in getattr(catalogue, kind)}


def _known(name: str, known: Iterable[str], what: str) -> None:
    if name not in known:
        near = get_close_matches(name, list(known), n=1)
        raise ValueError(f"'{name}': {what} of that name" + (f"; did you mean '{near[0]}'?" if near else ""))
