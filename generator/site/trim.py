"""A mkdocs hook: the theme's style sheets without the rules that nothing on the site can meet.

The theme dresses much that is not used here (blog posts, comments, content tabs, annotations). A selector that asks for a class or an id which no
page and no script ever names is left out; when in doubt it stays.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from pathlib import Path

import tinycss2
from tinycss2.ast import AtRule, Node, QualifiedRule

SHEETS = "assets/stylesheets/*.css"
GIVEN = re.compile(r"""\b(?:class|id)=(?:"([^"]*)"|'([^']*)'|([^\s>]+))""")
WORD = re.compile(r"[\w-]+")
ATTRIBUTE = re.compile(r"\[[^\]]*\]")
GROUPED = re.compile(r":[\w-]+\([^()]*\)")  # what stands inside is one of several, or what must not be
ASKED = re.compile(r"[.#](-?[A-Za-z_][\w-]*)")


def trimmed(sheet: str, names: frozenset[str] | set[str]) -> str:
    """The style sheet without selectors that ask for a class or an id outside `names`."""
    rules = tinycss2.parse_stylesheet(sheet, skip_comments=True, skip_whitespace=True)
    return tinycss2.serialize(_kept(rules, names)) + "\n"


def _kept(rules: Iterable[Node], names: frozenset[str] | set[str]) -> list[Node]:
    kept = []
    for rule in rules:
        if isinstance(rule, QualifiedRule):
            rule.prelude = _alive(rule.prelude, names)
        elif isinstance(rule, AtRule) and rule.lower_at_keyword in {"media", "supports"} and rule.content is not None:
            rule.content = _kept(tinycss2.parse_rule_list(rule.content, skip_comments=True, skip_whitespace=True), names)
            if not rule.content:
                continue
        if not isinstance(rule, QualifiedRule) or rule.prelude:
            kept.append(rule)
    return kept


def _alive(prelude: list[Node], names: frozenset[str] | set[str]) -> list[Node]:
    """Of a list of selectors those that something can meet."""
    selectors: list[list[Node]] = [[]]
    for token in prelude:
        if token.type == "literal" and token.value == ",":
            selectors.append([])
        else:
            selectors[-1].append(token)
    alive = [one for one in selectors if _can_be_met(tinycss2.serialize(one), names)]
    comma = tinycss2.parse_component_value_list(",")
    return [token for place, one in enumerate(alive) for token in ([*comma, *one] if place else one)]


def _can_be_met(selector: str, names: frozenset[str] | set[str]) -> bool:
    if "\\" in selector:  # an escaped name is not looked at
        return True
    selector = ATTRIBUTE.sub("", selector)
    while (plain := GROUPED.sub("", selector)) != selector:
        selector = plain
    return names.issuperset(ASKED.findall(selector))


def named(site: Path) -> set[str]:
    """Every class and id that a built site's pages give, and every word of its scripts, which may give it later."""
    pages = (" ".join("".join(one) for one in GIVEN.findall(path.read_text(encoding="utf-8"))) for path in site.rglob("*.html"))
    scripts = (path.read_text(encoding="utf-8") for path in site.glob("assets/js/*.js"))
    return {word for text in (*pages, *scripts) for word in WORD.findall(text)}


def on_post_build(config, **_) -> None:
    """mkdocs: the site is built."""
    site = Path(config["site_dir"])
    names = named(site)
    for path in site.glob(SHEETS):
        path.write_text(trimmed(path.read_text(encoding="utf-8"), names), encoding="utf-8")
