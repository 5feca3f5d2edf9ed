"""The theme's style sheets of a built site without what nothing on the site can meet.

The theme dresses much that is not used here (blog posts, comments, content tabs, annotations, other writing
directions and colours, a drawer). A selector that asks for a class, an id, an element or an attribute which
no page has and no script ever names is left out, and so are variables that nothing reads and animations that
nothing runs; when in doubt they stay.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Set
from pathlib import Path
from typing import NamedTuple

import tinycss2
from tinycss2.ast import AtRule, Declaration, Node, QualifiedRule

SHEETS, STYLES, SCRIPTS = "assets/stylesheets/*.css", "assets/css/*.css", "assets/js/*.js"
TAG = re.compile(r"""<([a-zA-Z][\w-]*)((?:[^"'>]|"[^"]*"|'[^']*')*)>""")
GIVEN = re.compile(r"""([^\s=>"'/]+)(?:=(?:"([^"]*)"|'([^']*)'|([^\s>]+)))?""")
# in a script: what may be the name or the value of something it makes
QUOTED = re.compile(r"""["'`]([\w-]+)["'`]|<([a-z]\w*)""")
# in a script: the classes and ids it may give begin so (a test holds that)
DRESSED = re.compile(r"\b(?:rf|md)-[\w-]+|\b(?:no-)?js\b")
GROUPED = re.compile(r":[\w-]+\([^()]*\)")  # what stands inside is one of several, or what must not be
ATTRIBUTE = re.compile(r"""\[([\w-]+)(?:([~|^$*]?)=(?:"([^"]*)"|'([^']*)'|([^\]\s]*)))?[^\]]*\]""")
ASKED = re.compile(r"[.#](-?[A-Za-z_][\w-]*)")
ELEMENT = re.compile(r"(?:^|[\s>+~])([a-z]\w*)")
READ = re.compile(r"""--[\w-]+(?=\s*[,)"'`])""")  # a variable where it is read
RUN = re.compile(r"animation[\w-]*:([^;}]*)")
WIDTH = re.compile(r"max-width:\s*([\d.]+)em")
NARROW = 76.2344  # em: on screens up to this frame.css has four doors in place of the theme's drawer
DRAWER = {"md-nav--primary", "md-nav__toggle", "md-overlay", "md-sidebar--primary"}


class Met(NamedTuple):
    """What pages hold, or may once scripts have run."""

    names: Set[str]  # classes and ids
    elements: Set[str]
    attributes: Mapping[str, Set[str]]  # name -> its values
    quoted: Set[str]  # by scripts: may be an element, an attribute or a value


def met(site: Path) -> Met:
    """What a built site's pages hold, and what its scripts name."""
    tags = {tag for path in site.rglob("*.html") for tag in TAG.findall(path.read_text(encoding="utf-8"))}
    scripts = "\n".join(path.read_text(encoding="utf-8") for path in site.glob(SCRIPTS))
    attributes: dict[str, set[str]] = {}
    for _, given in tags:
        for name, *values in GIVEN.findall(given):
            attributes.setdefault(name, set()).add("".join(values))
    names = {word for name in ("class", "id") for value in attributes.get(name, ()) for word in value.split()}
    return Met(
        names | set(DRESSED.findall(scripts)),
        {element.lower() for element, _ in tags},
        attributes,
        {one or other for one, other in QUOTED.findall(scripts)},
    )


def trimmed(sheet: str, here: Met) -> str:
    """The style sheet without selectors that ask for what is not `here`."""
    return tinycss2.serialize(_kept(_rules(sheet), here)) + "\n"


def read(sheets: Iterable[str], others: Iterable[str] = ()) -> list[str]:
    """The style sheets without variables and animations that neither they nor `others` (styles and
    scripts) read or run."""
    sheets, others = list(sheets), "\n".join(others)
    while True:
        text = "\n".join((others, *sheets))
        used = set(READ.findall(text)) | {
            word for run in RUN.findall(text) for word in re.split(r"[\s,]+", run)
        }
        left = [tinycss2.serialize(_used(_rules(sheet), used)) + "\n" for sheet in sheets]
        if left == sheets:
            return left
        sheets = left


def _rules(sheet: str) -> list[Node]:
    return tinycss2.parse_stylesheet(sheet, skip_comments=True, skip_whitespace=True)


def _within(rule: Node) -> list[Node] | None:
    """The rules inside of an at-rule that only says when they hold."""
    holds = (
        isinstance(rule, AtRule)
        and rule.lower_at_keyword in {"media", "supports"}
        and rule.content is not None
    )
    return tinycss2.parse_rule_list(rule.content, skip_comments=True, skip_whitespace=True) if holds else None


def _kept(rules: Iterable[Node], here: Met) -> list[Node]:
    kept = []
    for rule in rules:
        if isinstance(rule, QualifiedRule):
            rule.prelude = _alive(rule.prelude, here)
        elif (inner := _within(rule)) is not None:
            width = WIDTH.search(tinycss2.serialize(rule.prelude))
            rule.content = _kept(
                inner,
                here._replace(names=here.names - DRAWER) if width and float(width[1]) <= NARROW else here,
            )
            if not rule.content:
                continue
        if not isinstance(rule, QualifiedRule) or rule.prelude:
            kept.append(rule)
    return kept


def _alive(prelude: list[Node], here: Met) -> list[Node]:
    """Of a list of selectors those that something can meet."""
    selectors: list[list[Node]] = [[]]
    for token in prelude:
        if token.type == "literal" and token.value == ",":
            selectors.append([])
        else:
            selectors[-1].append(token)
    alive = [one for one in selectors if _can_be_met(tinycss2.serialize(one), here)]
    comma = tinycss2.parse_component_value_list(",")
    return [token for place, one in enumerate(alive) for token in ([*comma, *one] if place else one)]


def _can_be_met(selector: str, here: Met) -> bool:
    if "\\" in selector:  # an escaped name is not looked at
        return True
    while (plain := GROUPED.sub("", selector)) != selector:
        selector = plain
    for name, how, *values in ATTRIBUTE.findall(selector):
        value = "".join(values)
        if name not in here.attributes and name not in here.quoted:
            return False
        if value and not how and value not in here.attributes.get(name, ()) and value not in here.quoted:
            return False
    plain = ATTRIBUTE.sub("", selector)
    return here.names.issuperset(ASKED.findall(plain)) and (here.elements | here.quoted).issuperset(
        ELEMENT.findall(plain)
    )


def _used(rules: Iterable[Node], used: Set[str]) -> list[Node]:
    kept = []
    for rule in rules:
        inner = _within(rule)
        if inner is not None:
            rule.content = _used(inner, used)
        elif isinstance(rule, QualifiedRule):
            said = tinycss2.parse_blocks_contents(rule.content, skip_comments=True, skip_whitespace=True)
            left = [
                one
                for one in said
                if not (isinstance(one, Declaration) and one.name.startswith("--") and one.name not in used)
            ]
            if len(left) < len(said):
                rule.content = left
        elif rule.lower_at_keyword == "keyframes" and tinycss2.serialize(rule.prelude).strip() not in used:
            continue
        if rule.content is None or rule.content:
            kept.append(rule)
    return kept


def write(site: Path) -> None:
    """Write the styles of a built site anew, without what no page uses."""
    here, paths = met(site), sorted(site.glob(SHEETS))
    others = (
        path.read_text(encoding="utf-8") for pattern in (STYLES, SCRIPTS) for path in site.glob(pattern)
    )
    for path, sheet in zip(
        paths, read((trimmed(path.read_text(encoding="utf-8"), here) for path in paths), others)
    ):
        path.write_text(sheet, encoding="utf-8")
