"""The glossary: one entry a word, and the links that lead to it from the first use of a word in a text."""

from __future__ import annotations

import re
from collections.abc import Mapping

from markupsafe import Markup, escape

from generator.site.page import Page

ADDRESS = "guides/glossary/"


class Glossary:
    """`terms` maps the anchor of each entry to its `term`, and perhaps `also` and `forms`: other
    words that lead there."""

    def __init__(self, terms: Mapping[str, Mapping]):
        self._anchors = {word.lower(): anchor for anchor, entry in terms.items() for word in words(entry)}
        longest_first = sorted(self._anchors, key=lambda word: (-len(word), word))
        self._pattern = re.compile(
            rf"(?<![\w-])({'|'.join(map(re.escape, longest_first))})(?![\w-])", re.IGNORECASE
        )

    def link(self, text: str, page: Page) -> Markup:
        """HTML of a plain text, with the first use of every word of the glossary leading there."""
        seen: set[str] = set()

        def linked(match: re.Match) -> str:
            anchor = self._anchors[match[0].lower()]
            if anchor in seen:
                return match[0]
            seen.add(anchor)
            return f'<a class="rf-term" href="{page.to(ADDRESS)}#{anchor}">{match[0]}</a>'

        return Markup(self._pattern.sub(linked, str(escape(text))))


def words(entry: Mapping) -> list[str]:
    """The words of an entry that a text may use for it. `linked: no` marks one too
    common to lead anywhere."""
    return (
        []
        if entry.get("linked") == "no"
        else [entry["term"], *entry.get("also", ()), *entry.get("forms", ())]
    )
