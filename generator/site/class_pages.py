"""The class: practice, lessons, a test, handouts; and the data its scripts read,
loaded on these pages only."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from hashlib import sha256
from pathlib import Path
from typing import Any

from generator.catalogue.records import Catalogue
from generator.ledger.rows import Row
from generator.lessons import KINDS, LEVELS, Facts, NoQuestion, Question, core, question
from generator.lessons.facts import check
from generator.lessons.kinds.outcomes import because
from generator.lessons.lesson import Lesson, Stop, drawable, readable
from generator.lessons.pictures import picture
from generator.lessons.spots import spots
from generator.site.bundles import SCRIPTS, scripts_of
from generator.site.page import Page
from generator.site.schema_org import resource

STYLES = ["assets/css/class.css"]
# address below class/ -> template, title, the bundles its page loads besides ui, questions and class
TOOLS = {
    "practice/": ("class_practice", "Practice", ()),
    "lesson/": ("class_lesson", "Lesson", ("data", "circuits", "table")),
    "make/": ("class_make", "Make a lesson", ("data", "circuits", "table")),
    "test/": ("class_test", "Test", ()),
}
ABOUT = {
    "practice/": (
        "Ten questions at a time on plugs, leads and what happens when they meet; what one keeps getting "
        "wrong comes again."
    ),
    "lesson/": "A lesson, one stop at a time, on a wall, a phone or paper.",
    "make/": "Put a lesson together from drawings, answers, guides and questions.",
    "test/": "A test of the class: every learner gets questions of their own, equally hard.",
}


class Class:
    """What the class of one site is made of. A question or a lesson about what this
    catalogue lacks is left out."""

    def __init__(
        self, catalogue: Catalogue, rows: list[Row], symptoms: Any, folder: Path, guides: Mapping[str, str]
    ):
        self._catalogue, self._facts, self._guides = catalogue, Facts(catalogue, rows, symptoms), guides
        self.lessons, _ = readable(folder, self._facts, guides)
        asked = dict.fromkeys((*core(), *(id for one in self.lessons for id in one.asked())))
        self.questions = {id: one for id, one in ((id, _asked(self._facts, id)) for id in asked) if one}
        self._core = [id for id in core() if id in self.questions]

    def files(self) -> dict[str, bytes]:
        """The data script, and a drawing for each question about a lead with a fault in it."""
        data = {
            "kinds": {name: kind.about for name, kind in KINDS.items()},
            "levels": LEVELS,
            "version": self.version(),
            "core": len(self._core),
            "questions": [self._data(one) for one in self.questions.values()],
            "lessons": [self.lesson(one) for one in self.lessons],
        }
        script = (
            b'"use strict";\nwindow.Ringfence = window.Ringfence || {};\nRingfence.lessons = '
            + _json(data).encode()
            + b";\n"
        )
        drawn = {
            f"draw/{name}.svg": svg.encode()
            for name, svg in (one.drawn for one in self.questions.values())
            if name
        }
        return {f"{SCRIPTS}questions.js": script, **drawn}

    def version(self) -> str:
        """A short digest of every question as it is asked: codes of a test hold for one version."""
        return sha256(_json([one.as_data() for one in self.questions.values()]).encode()).hexdigest()[:8]

    def _data(self, one: Question) -> dict[str, Any]:
        found = one.as_data()
        if one.form == "tap" and one.pictures:
            found["spots"] = spots(picture(self._catalogue, one.pictures[0]))
        return found

    def lesson(self, one: Lesson) -> dict[str, Any]:
        """A lesson for the player: every stop with all its words."""
        return {
            "id": one.id,
            "title": one.title,
            "about": one.about,
            "level": one.level,
            "minutes": one.minutes,
            "stops": [self.stop(stop) for stop in one.stops],
        }

    def stop(self, stop: Stop) -> dict[str, Any]:
        """A stop with what it shows, JSON-ready."""
        told: dict[str, Any] = {"kind": stop.kind, "of": stop.of, "say": stop.say}
        if stop.kind == "draw":
            told |= {"picture": drawable(self._catalogue)[stop.of], "name": self._name(stop.of)}
        if stop.kind == "check":
            row = self._facts.by_subject[stop.of]
            told |= {
                "given": self._facts.given(row),
                "verdict": row["verdict"],
                "offer": row["offer"],
                "because": because(row)[0],
                "works": check(row),
            }
        return told

    def _name(self, id: str) -> str:
        return next(
            getattr(self._catalogue, kind)[id].name
            for kind in ("connectors", "assignments", "ports", "leads")
            if id in getattr(self._catalogue, kind)
        )

    def pages(self) -> Iterator[Page]:
        """The entrance, the tools, and a handout for every ready lesson."""
        yield Page(
            "class/",
            "class",
            "Class",
            self._catalogue,
            {"lessons": self.lessons, "kinds": KINDS, "count": len(self._core), "styles": STYLES},
        )
        for address, (template, title, more) in TOOLS.items():
            show = {
                "scripts": scripts_of(*more, "ui", "questions", "class"),
                "styles": STYLES,
                "guides": self._guides,
                "marked": resource(title, ABOUT[address]),
            }
            yield Page(f"class/{address}", template, title, self._catalogue, show)
        for one in self.lessons:
            show = {
                "lesson": self.lesson(one),
                "asked": self.questions,
                "styles": STYLES,
                "guides": self._guides,
                "marked": self._marked(one),
                "qr": f"qr/class/{one.id}.svg",
            }
            yield Page(f"class/lessons/{one.id}/", "class_handout", one.title, self._catalogue, show)

    def _marked(self, one: Lesson) -> str:
        return resource(
            one.title,
            one.about,
            [self.questions[id] for id in one.asked()],
            educationalLevel=one.level,
            timeRequired=f"PT{one.minutes}M",
        )

    def codes(self) -> dict[str, str]:
        """What the QR codes of the handouts lead to: file -> address from the site's root."""
        return {f"qr/class/{one.id}.svg": f"class/lesson/#lesson={one.id}" for one in self.lessons}


def _asked(facts: Facts, id: str) -> Question | None:
    try:
        return question(facts, id)
    except NoQuestion:
        return None


def _json(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"), allow_nan=False).replace("</", "<\\/")
