"""Modules written as classic scripts: what one exports another takes, whatever stands beside it keeps to
itself, and what cannot be is named."""

import re

import pytest
from front import in_node, run, scripts

from generator.site import bundles, modules

LU, SOLVE, PAGE = "engine/lu.js", "engine/solve.js", "check/page.js"
GOOD = {
    LU: (
        b"/* First. */\n"
        b"const size = 3; // its own\n"
        b"export const FOUND = [size],\n"
        b"  AGAIN = 2;\n"
        b"export function* counted() { yield size; }\n"
        b"function two() { return 2; }\n"
        b"export { two as pair };\n"
    ),
    SOLVE: (
        b'import { counted, FOUND as found, pair } from "./lu.js";\n\n'
        b"const size = 5;\n"
        b"export const solve = () => [...counted(), ...found, pair(), size];\n"
    ),
    PAGE: (
        b'import { solve } from "../engine/solve.js";\n'
        b"export class Page { solved = solve(); }\n"
        b"export async function later() { return 1; }\n"
    ),
}


def source(path, text):
    return GOOD | {path: text.encode()}


def joined(sources, *paths):
    known = modules.read(sources)
    return modules.classic(known, paths or list(known)).decode()


def test_what_is_imported_is_what_was_exported_and_names_do_not_meet():
    assert in_node(
        joined(GOOD)
        + (
            "process.stdout.write(JSON.stringify([new Ringfence.check.Page().solved, Ringfence.engine.AGAIN, "
            "Object.keys(Ringfence.engine)]));"
        )
    ) == [[3, 3, 2, 5], 2, ["FOUND", "AGAIN", "counted", "pair", "solve"]]


def test_a_script_is_strict_classic_and_may_follow_or_precede_others():
    engine, page = joined(GOOD, LU, SOLVE), joined(GOOD, PAGE)
    assert not re.search(r"^\s*(import|export)\b", engine + page, re.MULTILINE)
    assert engine.startswith('"use strict";\n') and page.startswith('"use strict";\n')
    assert in_node(
        "globalThis.Ringfence = { data: 1 };\n"
        f"{engine}{page}process.stdout.write(JSON.stringify([Ringfence.data, "
        "new Ringfence.check.Page().solved.length]));"
    ) == [1, 4]


def test_modules_run_after_what_they_import_else_by_name():
    known = modules.read(
        {
            "b/z.js": b"export const z = 1;\n",
            "a/a.js": b'import { z } from "../b/z.js";\n',
            "a/b.js": b"",
            "b/a.js": b"",
        }
    )
    assert modules.ordered(known, known) == ["b/z.js", "a/a.js", "a/b.js", "b/a.js"]
    assert modules.ordered(known, ["a/a.js"]) == ["b/z.js", "a/a.js"]


@pytest.mark.parametrize(
    "path, text, fault",
    [
        (
            PAGE,
            'import { solve } from "../engine/solved.js";',
            "check/page.js imports engine/solved.js, which is not there.",
        ),
        (
            PAGE,
            'import { solved } from "../engine/solve.js";',
            "check/page.js imports solved from engine/solve.js, which exports no such name.",
        ),
        (
            LU,
            'import { solve } from "./solve.js"; export const FOUND = [], counted = 1, pair = 1;',
            "Imports go in a circle: engine/solve.js -> engine/lu.js -> engine/solve.js.",
        ),
        (
            "engine/other.js",
            "export const solve = 1;",
            (
                "engine/other.js and engine/solve.js both export solve, and the object of their folder has "
                "room for one."
            ),
        ),
        (PAGE, "const ;", "check/page.js is not JavaScript."),
    ],
)
def test_what_does_not_fit_together_is_named(path, text, fault):
    with pytest.raises(ValueError) as error:
        modules.read(source(path, text))
    assert str(error.value) == fault


@pytest.mark.parametrize(
    "text",
    [
        'import "../engine/lu.js";',
        'import all from "../engine/lu.js";',
        'import * as all from "../engine/lu.js";',
        'import all, { FOUND } from "../engine/lu.js";',
        'export { FOUND } from "../engine/lu.js";',
        'export * from "../engine/lu.js";',
        "export default 1;",
        "export let changing = 1;",
        "export var old = 1;",
        "export const { a, b } = {};",
    ],
)
def test_a_form_that_is_not_joined_is_named_with_its_line(text):
    with pytest.raises(ValueError) as error:
        modules.read(source(PAGE, f"const a = 1;\n{text}\n"))
    assert str(error.value) == (
        "check/page.js:2: only `import { name } from`, and `export` before const, function or class or with "
        "braces, can be joined."
    )


def test_a_script_takes_nothing_from_one_that_need_not_be_there():
    assets = {
        f"{bundles.SCRIPTS}{path}": text
        for path, text in source("check/page.js", 'import { solve } from "../engine/solve.js";').items()
    }
    with pytest.raises(
        ValueError,
        match=(
            r"^check/page\.js imports engine/solve\.js, of engine\.js, which need not be there when "
            r"check\.js runs\.$"
        ),
    ):
        bundles.joined(assets)


def test_a_page_that_loads_a_script_without_what_it_needs_is_refused():
    assert bundles.scripts_of("data", "ui", "check") == [
        "assets/js/data.js",
        "assets/js/ui.js",
        "assets/js/check.js",
    ]
    with pytest.raises(ValueError, match=r"^check\.js is loaded without ui\.js before it\.$"):
        bundles.scripts_of("data", "check", "ui")


def test_numbers_of_the_engine_are_a_module():
    assert modules.read({"engine/constants.js": bundles.as_module({"ONE": 1e-9, "LIST": [1, 2.5]})})[
        "engine/constants.js"
    ].exports == {"ONE": "ONE", "LIST": "LIST"}


PAGE_OF_DATA = """const ran = []; globalThis.location = { href: "https://example.org/check/" };
const element = () => ({ append() {}, remove() {}, setAttribute(name, value) { this[name] = value; },
  addEventListener(name, act) { this[name] = act; } });
globalThis.document = { scripts: [{ src: "https://example.org/check/data.js" }], createElement: element,
  head: { append(one) { const name = one.src.split("/").pop(); ran.push(name);
    setTimeout(name === "REFUSED" ? one.error : one.load); } } };"""


@pytest.mark.parametrize(
    "refused, came, asked",
    [("none", True, ["check.js", "ways.js", "kit.js"]), ("ways.js", False, ["check.js", "ways.js"])],
)
def test_a_script_that_comes_later_brings_what_it_needs(tmp_path, refused, came, asked):
    """All it needs in turn, in that order, and what is there already not again."""
    file = tmp_path / "data.json"
    file.write_text("{}")
    page = PAGE_OF_DATA.replace("REFUSED", refused)
    told = run(
        "Ringfence.ui.later('kit').then((came) => [came, ran])", scripts("ui/later.js"), file, before=page
    )
    assert told == [came, asked]
