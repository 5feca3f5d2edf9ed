"""The Jinja environment of the pages: everything is escaped, and a name a template asks for must exist."""

from __future__ import annotations

import json
import re
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup, escape

from generator.catalogue.kinds import LIMITED
from generator.site import verdicts, words
from generator.site.page import Page

_MARKDOWN = re.compile(r"([\\`*_{}\[\]()#+\-.!|~:^=])")


class Templates:
    """Renders pages from the templates of a folder. `marks` is the sheet of verdict symbols every page carries."""

    def __init__(self, folder: Path, marks: str):
        env = Environment(loader=FileSystemLoader(folder), autoescape=True, undefined=StrictUndefined,
                          trim_blocks=True, lstrip_blocks=True, keep_trailing_newline=True)
        env.filters |= {
            "md": markdown, "yaml": lambda text: Markup(json.dumps(str(escape(text)))),
            "amount": words.amount, "level": words.level, "written": words.written, "listed": words.listed,
            "role": lambda node: words.role(node) if node else "nothing", "unit": LIMITED.__getitem__,
            "slug": verdicts.SLUGS.__getitem__, "tally": verdicts.tally, "findings": findings,
        }
        env.globals |= {"grades": words.GRADES, "marks": marks}
        self._env = env

    def page(self, page: Page) -> str:
        """The Markdown of one page."""
        return self._env.get_template(f"{page.template}.md.j2").render(page=page, **page.show)


def markdown(text: str) -> Markup:
    """Text that Markdown and HTML both leave as it stands."""
    return Markup(_MARKDOWN.sub(r"\\\1", str(escape(" ".join(text.split())))).replace("&\\#", "&#"))


def findings(ids: list[str]) -> str:
    """Finding ids as words."""
    return ", ".join(name.replace("-", " ") for name in ids)
