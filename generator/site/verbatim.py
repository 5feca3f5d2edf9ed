"""A Markdown extension: drawings, tables and folded lists hold no Markdown, so they go past its readers as
they stand. Two parsers would read every tag of them otherwise, and they are most of what a page is made of.

Named in mkdocs.yml; a builder that does not know it makes the same pages, more slowly.
"""

from __future__ import annotations

import re

from markdown import Extension, Markdown
from markdown.preprocessors import Preprocessor

ELEMENT = re.compile(r"<(details|svg|table)\b.*?</\1>", re.DOTALL)
BEFORE_THE_READERS = 25  # mkdocs reads anchors at 21, Markdown itself takes HTML apart at 20


class Verbatim(Preprocessor):
    def run(self, lines: list[str]) -> list[str]:
        """The lines of a page with a mark in the place of each such element."""
        return ELEMENT.sub(self._kept, "\n".join(lines)).split("\n")

    def _kept(self, found: re.Match) -> str:
        text, tag = found[0], found[1]
        if text.count(f"<{tag}") > 1:  # one in another: that is for a real parser
            return text
        mark = self.md.htmlStash.store(text)
        return mark if tag == "svg" else f"\n\n{mark}\n\n"  # a block stands alone


class VerbatimExtension(Extension):
    def extendMarkdown(self, md: Markdown) -> None:
        md.preprocessors.register(Verbatim(md), "verbatim", BEFORE_THE_READERS)


def makeExtension(**options) -> VerbatimExtension:
    """What Markdown asks a module of extensions for."""
    return VerbatimExtension(**options)
