"""Pages to learn from say so in the vocabulary of schema.org (LearningResource, Quiz, Question):
https://schema.org/Quiz."""

import json
import re

from generator.lessons import KINDS

MARKED = re.compile(r'<script type="application/ld\+json">(.*?)</script>', re.DOTALL)
TOOLS = ("class/practice.md", "class/lesson.md", "class/make.md", "class/test.md")


def found(tree):
    """path -> what its page says of itself."""
    return {
        path: [json.loads(text) for text in MARKED.findall(content.decode())]
        for path, content in tree.items()
        if path.endswith(".md") and b"ld+json" in content
    }


def test_guides_handouts_and_tools_say_that_one_learns_from_them(tree):
    marked = found(tree)
    ends = {path for path, content in tree.items() if path.endswith(".md") and b"rf-quiz" in content}
    assert ends and ends <= marked.keys() and set(TOOLS) <= marked.keys()
    assert any(path.startswith("class/lessons/") for path in marked)
    for path, said in marked.items():
        assert (
            len(said) == 1
            and said[0]["@context"] == "https://schema.org"
            and "LearningResource" in said[0]["@type"]
        ), path
        assert (
            said[0]["name"]
            and said[0]["description"]
            and ("Quiz" in said[0]["@type"]) == ("hasPart" in said[0])
        ), path


def test_a_quiz_has_one_right_answer_and_others_beside_it(tree):
    asked = [one for said in found(tree).values() for one in said[0].get("hasPart", ())]
    assert len(asked) > len(KINDS)
    for one in asked:
        wrong = [choice["text"] for choice in one["suggestedAnswer"]]
        assert one["@type"] == "Question" and one["text"] and one["acceptedAnswer"]["text"] and wrong
        assert one["acceptedAnswer"]["text"] not in wrong and len(set(wrong)) == len(wrong), one["text"]
