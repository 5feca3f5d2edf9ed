"""The guides: pages of plain prose whose drawings, verdicts and sources come from the
catalogue and the engine.

A guide is a template in `site_src/guides/`. It asks its page for an example by the name it has in
`examples.yaml`, for pictures, and for numbered notes; the words it prints for a verdict are the engine's own.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from functools import cache
from pathlib import Path
from types import MappingProxyType

import yaml

from generator.catalogue.records import OWN, Catalogue
from generator.drawing import draw, draw_mated, draw_scene
from generator.engine import judge
from generator.engine.rulebook import rules
from generator.lessons import Question
from generator.own import changed
from generator.site import teaching, told_numbers
from generator.site.page import KINDS, Page
from generator.site.schema_org import resource
from generator.ledger.rows import Row, row

GUIDES = {  # name of the page -> title, what it is about; in the order of the index
    "plugs": ("Reading a plug", "Size, bands, pins: what the eye can tell, and what it cannot."),
    "balance": ("Balanced and unbalanced", "What the third contact is for, and what it costs to lose it."),
    "powering": (
        "Phantom and other powering",
        "48 V, plug-in power, T-power and the rest, and why they are mixed up.",
    ),
    "adapters": ("Before you buy an adapter", "What to ask, because the outside does not tell."),
    "headsets": (
        "Headsets and phones",
        "Four contacts, two orders, and what a phone takes for a microphone.",
    ),
    "cables": ("Cables and screens", "Length, capacitance, the screen and its two ends."),
    "levels": ("Levels", "Too hot, too quiet, and what loads what."),
    "manual": (
        "Your device, by its manual",
        "One microphone and its data sheet: from dangerous to safe, and back.",
    ),
    "order": ("Plugging in the right order", "What to switch and turn down, before and after."),
    "hum": (
        "Why a run hums",
        "Finding the cause without making anything unsafe, and the cures in order of cost.",
    ),
    "fields": ("Near mains", "Three fields and who stops what: distance, dimmers, coils and drums."),
    "radio": ("Radio on a run", "Phones, two-way radios, stations: how far is far enough, and what helps."),
    "buying": (
        "Buying cable",
        "What the words on the packet mean, which numbers to ask for, what ten years cost.",
    ),
    "myths": (
        "Myths, with their numbers",
        "What they say about cables and hum, each with the number that kills it.",
    ),
    "meter": ("With a meter", "Telling leads and sockets apart in a minute."),
    "making": ("Making a lead", "Stripping, soldering, strain relief, and what makes a lead fail."),
    "testing": ("Testing leads", "Five habits, what a meter does not find, and faults by what you hear."),
    "trainers": (
        "For trainers",
        "A class with real leads: what to show, what to ask, which faults to solder in.",
    ),
    "glossary": ("Words", "Every word this site uses, said once."),
}
STYLES = ["assets/css/question.css"]
MISFIT = "does-not-mate"  # the one finding that needs no rule


def read(path: Path):
    """A YAML file of words, every scalar as text: a bare `on` or `no` stays what it says."""
    return yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)


def pages(
    catalogue: Catalogue,
    folder: Path,
    terms: Mapping[str, Mapping],
    questions: Mapping[str, Question] = MappingProxyType({}),
) -> Iterator[Page]:
    """The index of the guides and every guide. `folder` holds the templates, examples.yaml and asked.yaml;
    `questions` are those of this catalogue by their addresses: one that it lacks is left out."""
    yield Page("guides/", "guides", "Guides", catalogue, {"guides": GUIDES})
    example, asked = examples(catalogue, read(folder / "examples.yaml")), read(folder / "asked.yaml")
    findings = {rule.id for rule in rules()} | {MISFIT}
    for name, (title, about) in GUIDES.items():
        ends = [questions[id] for id in asked.get(name, ()) if id in questions]
        show = {
            "about": about,
            "example": example,
            "picture": Pictures(catalogue),
            "notes": Notes(),
            "terms": terms,
            "findings": findings,
            "number": told_numbers.told,
            "styles": STYLES,
            "asked": ends,
            "marked": resource(title, about, ends),
        }
        yield Page(f"guides/{name}/", f"guides/{name}", title, catalogue, show)


def examples(catalogue: Catalogue, asked: Mapping[str, Mapping]) -> Callable[[str], Row | None]:
    """Name -> the judged row of that example, with its `conditions` and `says`, the sentence of the finding
    its text leans on; None where this catalogue lacks a record."""

    @cache
    def example(name: str) -> Row | None:
        start, through, target = chain(asked[name])
        if {start, target} - set(catalogue.ports) or set(through) - set(catalogue.leads):
            return None
        own = asked[name].get("own", {})
        judged = judge(
            _by_own(catalogue, {"from": start, "into": target}, own), start, through, target
        ).as_data()
        deciding = [f for f in judged["findings"] if f["severity"] == judged["verdict"]]
        telling = [f for f in judged["findings"] if f["id"] in asked[name].get("because", ())] or deciding
        typed = [(side, ask, text) for side, answers in own.items() for ask, text in answers.items()]
        return {
            **row(judged),
            "own": ",".join(f"{side}.{ask}:{text.replace(' ', '_')}" for side, ask, text in typed),
            "numbers": ", ".join(text for _, _, text in typed),
            "ours": bool(own) and all(f["evidence"] == OWN for f in deciding),
            "conditions": judged["conditions"],
            "says": telling[0]["says"] if telling else "",
        }

    return example


def _by_own(catalogue: Catalogue, ends: Mapping[str, str], own: Mapping[str, Mapping[str, str]]) -> Catalogue:
    """The catalogue with the numbers of a manual at one end of an example, or at both."""
    ports = {
        ends[side]: changed(catalogue.ports[ends[side]], answers, catalogue.questions)
        for side, answers in own.items()
    }
    return replace(catalogue, ports={**catalogue.ports, **ports}) if ports else catalogue


def chain(asked: Mapping) -> tuple[str, tuple[str, ...], str]:
    """From, through and into of an example, which is written `from > lead > lead > into`."""
    start, *through, target = asked["run"].split(" > ")
    return start, tuple(through), target


class Pictures:
    """Draws for one page. Each picture has ids of its own; what is not in the catalogue gives no picture."""

    def __init__(self, catalogue: Catalogue):
        self._catalogue = catalogue

    def of(self, id: str, half: str | None = None, view: str | None = None) -> str:
        """A connector, assignment, port or lead."""
        if not any(id in getattr(self._catalogue, kind) for kind in KINDS):
            return ""
        return draw(
            self._catalogue, id, view=view, half=half, prefix=f"guide-{id}-{half}-{view}", standalone=False
        )

    def mated(self, plug: str, jack: str) -> str:
        """A phone plug home in a jack."""
        if {plug, jack} - set(self._catalogue.connectors):
            return ""
        return draw_mated(self._catalogue, plug, jack, prefix=f"guide-{plug}-in-{jack}", standalone=False)

    def idea(self, name: str) -> str:
        """A teaching picture, by its name in teaching.PICTURES."""
        scene = teaching.picture(self._catalogue, name)
        return draw_scene(scene, prefix=f"guide-idea-{name}", standalone=False) if scene else ""

    def sliding(self, plug: str, jack: str, assignment: str) -> list[str]:
        """A phone plug on its way in, a picture for each step."""
        frames = enumerate(teaching.sliding(self._catalogue, plug, jack, assignment), 1)
        return [
            draw_scene(scene, prefix=f"guide-{plug}-step-{number}", standalone=False)
            for number, scene in frames
        ]


class Notes:
    """The numbered notes of one page: how each claim is known. Equal notes share a number."""

    def __init__(self):
        self._numbers: dict[tuple[str, tuple[str, ...]], int] = {}

    def number(self, grade: str, cite: tuple[str, ...]) -> int:
        """The number of a note, given on its first mention."""
        return self._numbers.setdefault((grade, tuple(cite)), len(self._numbers) + 1)

    @property
    def all(self) -> dict[int, tuple[str, tuple[str, ...]]]:
        """Number -> grade and source ids."""
        return {number: note for note, number in self._numbers.items()}
