"""One question: what is asked, what may be answered, which answer is right and why, and
where the working is."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

LEVELS = ("first day", "operator", "engineer")
# tap: the choices are contacts of the drawing; order: all of them, in order
FORMS = ("choice", "tap", "order", "number")


class NoQuestion(ValueError):
    """Nothing can be asked about this; the message says why and what is near."""


@dataclass(frozen=True)
class Choice:
    """`id` is unique within its question; `why` says what is wrong with it, or what it
    would have been right for."""

    id: str
    text: str
    why: str = ""


@dataclass(frozen=True)
class Target:
    """A number to come close to: within `near` of `value` counts as right; `unit` as the trade writes it."""

    value: float
    unit: str
    near: float


@dataclass(frozen=True)
class Question:
    """`answer` holds choice ids: one, or all of them in order. `given` are labelled facts. `pictures` and
    `shown` are names of files under /draw/ without the ending, before and after the answer. `works` is the
    site's address of the working. `evidence` is the weakest grade anything here rests on, with `note` where
    that is memory. `blind`: can it be answered without seeing?"""

    kind: str
    subject: str
    asks: str
    answer: tuple[str, ...]
    because: str
    works: str
    level: str
    evidence: str
    form: str = "choice"
    choices: tuple[Choice, ...] = ()
    target: Target | None = None
    given: tuple[tuple[str, str], ...] = ()
    number: str = ""
    pictures: tuple[str, ...] = ()
    shown: tuple[str, ...] = ()
    note: str = ""
    blind: bool = True
    # a drawing made for this question: its name and SVG
    drawn: tuple[str, str] = field(default=("", ""), repr=False)

    def __post_init__(self) -> None:
        ids = [choice.id for choice in self.choices]
        texts = [choice.text for choice in self.choices]
        if len(set(ids)) != len(ids) or len(set(texts)) != len(texts):
            raise ValueError(f"{self.id}: two choices are alike: {texts}")
        if not set(self.answer) <= set(ids) or bool(self.target) == bool(self.answer):
            raise ValueError(f"{self.id}: the answer {self.answer} is not among {ids}")
        if self.form == "order" and sorted(self.answer) != sorted(ids):
            raise ValueError(f"{self.id}: an order names every step once")
        if self.form not in FORMS or self.level not in LEVELS:
            raise ValueError(f"{self.id}: no such form or level: {self.form}, {self.level}")

    @property
    def id(self) -> str:
        """Its address: it stays the same while the catalogue holds what it is about."""
        return f"{self.kind}:{self.subject}"

    @property
    def address(self) -> str:
        """Its id as folders of an address."""
        return self.id.replace(":", "/")

    def right(self) -> str:
        """The right answer in words."""
        if self.target:
            return f"{self.target.value:g} {self.target.unit}".replace("-", "−")
        return ", then ".join(self.steps())

    def steps(self) -> list[str]:
        """The texts of the answer's choices, in order."""
        texts = {choice.id: choice.text for choice in self.choices}
        return [texts[id] for id in self.answer]

    def seen(self) -> str:
        """What its drawing shows, for those who do not see it: never the answer."""
        return (
            "; ".join(f"{name}: {value}" for name, value in self.given)
            or "The drawing this question is about"
        )

    def as_data(self) -> dict[str, Any]:
        """JSON-ready, without what is empty."""
        target = [self.target.value, self.target.unit, self.target.near] if self.target else None
        every = {
            "id": self.id,
            "kind": self.kind,
            "form": self.form,
            "level": self.level,
            "asks": self.asks,
            "given": [list(one) for one in self.given],
            "target": target,
            "choices": [[one.id, one.text, one.why] for one in self.choices],
            "answer": list(self.answer),
            "because": self.because,
            "number": self.number,
            "works": self.works,
            "pictures": list(self.pictures),
            "shown": list(self.shown),
            "evidence": self.evidence,
            "note": self.note,
            "blind": self.blind,
        }
        return {name: value for name, value in every.items() if value not in ("", [], None)}
