"""What goes past Markdown's readers comes out as it would have, had they read it."""

import re

import pytest
from markdown import markdown

from generator.site.policy import tight

GIVEN = (
    "# A plug\n\n<div><svg id='a'><g><path d='M 0 0'/></g></svg></div>\n\n**bold** after",
    "Text <svg><circle r='1'/></svg> *inside* a line",
    "<details>\n<summary>One</summary>\n<ul><li>a *b* c</li></ul>\n</details>\n"
    "<details>\n<summary>Two</summary>\n</details>\n\nAfter",
    "<div class='frame'><table><tr><td>*as it is*</td></tr></table></div>\n\nAfter",
    "<p>Before</p>\n\n<table>\n<tr><td><svg><path d='M 1 1'/></svg></td></tr>\n\n</table>\n## Next",
    "<table><tr><td><table><tr><td>in a table</td></tr></table></td></tr></table>\n\nAfter",
    "<details><summary>Outer</summary><details><summary>Inner</summary></details></details>\n\n*After*",
)


def shown(text: str, *more: str) -> str:
    """The page, but for blanks between tags, which nobody sees."""
    return re.sub(r">\s+<", "><", tight(markdown(text, extensions=["attr_list", "tables", *more])))


@pytest.mark.parametrize("text", GIVEN)
def test_a_page_is_the_same_with_it_and_without(text):
    assert shown(text, "generator.site.verbatim") == shown(text)


def test_a_readers_own_elements_are_still_read():
    assert "<strong>bold</strong>" in shown(GIVEN[0], "generator.site.verbatim")
