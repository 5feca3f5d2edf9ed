"""The Jinja environment of the pages: everything is escaped, and a name a template asks for must exist."""

from __future__ import annotations

import json
import re
from collections.abc import Sequence
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup, escape

from generator.catalogue.kinds_circuits import LIMITED
from generator.site import sides, verdicts, words
from generator.site.address import Address
from generator.site.glossary import Glossary
from generator.site.page import Page
from generator.site.stamp import Stamp

_MARKDOWN = re.compile(r"([\\`*_{}\[\]()#+\-.!|~:^=])")


class Templates:
    """Renders pages from the templates of some folders. `marks` is the sheet of verdict symbols
    every page carries, `stamp` the state of the data its footer tells, `address` where the site
    stands, if that is known."""

    def __init__(
        self,
        folders: Sequence[Path],
        marks: str,
        glossary: Glossary,
        stamp: Stamp,
        address: Address = Address(),
    ):
        env = Environment(
            loader=FileSystemLoader(folders),
            autoescape=True,
            undefined=StrictUndefined,
            trim_blocks=True,
            lstrip_blocks=True,
            keep_trailing_newline=True,
        )
        env.filters |= {
            "md": markdown,
            "yaml": lambda text: Markup(json.dumps(str(escape(text)))),
            "amount": words.amount,
            "level": words.level,
            "written": words.written,
            "listed": words.listed,
            "constant": words.constant,
            "role": lambda node: words.role(node) if node else "nothing",
            "unit": LIMITED.__getitem__,
            "slug": verdicts.SLUGS.__getitem__,
            "tally": verdicts.tally,
            "best": verdicts.best,
            "findings": findings,
            "terms": glossary.link,
            "source": lambda text: escape(str(escape(text))),
        }
        env.globals |= {
            "grades": words.GRADES,
            "marks": marks,
            "state_of_data": stamp,
            "stands": address,
            "side": sides.image,
        }
        self._env = env
        self._stamp = stamp

    def page(self, page: Page) -> str:
        """The Markdown of one page."""
        text = self._env.get_template(f"{page.template}.md.j2").render(page=page, **page.show)
        start, head, body = text.partition("---\n")  # the front matter of every page also tells the footer
        told = {"stamp": str(self._stamp), "edition": self._stamp.edition, "date": self._stamp.date}
        # the search is our own (assets/js/seek); an index of the theme's would read all pages for nobody
        told["search"] = {"exclude": True}
        lines = "".join(f"{key}: {json.dumps(value, ensure_ascii=False)}\n" for key, value in told.items())
        return f"{start}{head}{lines}{body}"

    def bare(self, name: str, **show) -> bytes:
        """A whole page of HTML that mkdocs takes as it is."""
        return self._env.get_template(f"{name}.html.j2").render(**show).encode()


def markdown(text: str) -> Markup:
    """Text that Markdown and HTML both leave as it stands."""
    return Markup(_MARKDOWN.sub(r"\\\1", str(escape(" ".join(text.split())))).replace("&\\#", "&#"))


def findings(ids: list[str]) -> str:
    """Finding ids as words."""
    return ", ".join(name.replace("-", " ") for name in ids)
