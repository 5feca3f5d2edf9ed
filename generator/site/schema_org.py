"""Pages to learn from in the vocabulary of schema.org, for search engines and for those who
collect teaching material."""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any

from generator.lessons import Question

CONTEXT = "https://schema.org"


def resource(name: str, about: str, questions: Iterable[Question] = (), **more: Any) -> str:
    """JSON-LD of a learning resource, of a quiz too where there are questions that can be asked in words; for
    a script element of its own type, which no browser runs."""
    parts = [_question(one) for one in questions if not one.target and one.form != "order"]
    kinds = ["LearningResource", "Quiz"] if parts else "LearningResource"
    found = {
        "@context": CONTEXT,
        "@type": kinds,
        "name": name,
        "description": about,
        **more,
        **({"hasPart": parts} if parts else {}),
    }
    return json.dumps(found, ensure_ascii=False, separators=(",", ":"), allow_nan=False).replace("</", "<\\/")


def _question(one: Question) -> dict[str, Any]:
    return {
        "@type": "Question",
        "eduQuestionType": "Multiple choice",
        "text": one.asks,
        "acceptedAnswer": _answer(one.right()),
        "suggestedAnswer": [_answer(choice.text) for choice in one.choices if choice.id not in one.answer],
    }


def _answer(text: str) -> dict[str, str]:
    return {"@type": "Answer", "text": text}
