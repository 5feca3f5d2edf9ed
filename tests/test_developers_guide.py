"""The developers' pages cannot drift: their examples are linted in a copy of the catalogue, their lists are
held against the code."""

import re
import shutil
import tomllib
from dataclasses import fields
from pathlib import Path

import pytest
import yaml

from generator.__main__ import RUNS
from generator.catalogue import default_directory, load
from generator.catalogue.caution import WHEN
from generator.catalogue.kinds import FOLDERS, KINDS
from generator.catalogue.lint import lint
from generator.catalogue.rules import RULES
from generator.catalogue.scalars import NAME
from generator.catalogue.shapes import Either, ListOf, MapOf, Record
from generator.engine import VERDICTS, rulebook
from generator.options import parser

ROOT = Path(__file__).parents[1]
PAGES = [
    ROOT / "DEVELOPERS.md",
    ROOT / "pinouts/README.md",
    ROOT / "site_src/assets/js/README.md",
    *sorted((ROOT / "generator").rglob("*.md")),
]
GUIDE = "\n".join(page.read_text("utf-8") for page in PAGES)
LONGEST = 12_000  # bytes of what a newcomer reads first: ten minutes
BLOCKS = dict(re.findall(r"```yaml\n# (\S+)\n(.*?)```", GUIDE, re.DOTALL))
EXAMPLES = {path: text for path, text in BLOCKS.items() if path.startswith("pinouts/")}
EXAMPLE_OF = {path.split("/")[1].removesuffix(".yaml"): text for path, text in EXAMPLES.items()}
APPENDED = tuple(f"pinouts/{kind}.yaml" for kind in ("sources", "questions", "converters", "feeding"))
SHARED = (*APPENDED, "pinouts/retired.yaml")


@pytest.fixture
def copied(tmp_path):
    """The real catalogue with the guide's examples in it."""
    for kind in FOLDERS:
        shutil.copytree(default_directory() / kind, tmp_path / "pinouts" / kind)
    for path in APPENDED:
        shutil.copy(default_directory() / Path(path).name, tmp_path / "pinouts")
    for path, text in EXAMPLES.items():
        with (tmp_path / path).open("a" if path in APPENDED else "w", encoding="utf-8") as file:
            file.write(text)
    return tmp_path / "pinouts"


def test_there_is_one_example_of_each_kind():
    assert sorted(EXAMPLE_OF) == sorted(KINDS)
    assert list(BLOCKS) == [*EXAMPLES, "generator/engine/rulebook.yaml"]


def test_the_examples_are_free_of_faults(copied):
    assert "\n".join(map(str, lint(copied))) == ""
    catalogue = load(copied)
    for path in EXAMPLES:
        kind, _, name = path.removeprefix("pinouts/").removesuffix(".yaml").partition("/")
        if kind in ("connectors", "assignments", "ports", "leads"):
            assert name in getattr(catalogue, kind)
    assert catalogue.retired["example-old-socket"] == ("example-talkback-35",)


def test_the_lint_would_notice_a_bad_example(copied):
    path = copied / "ports" / "example-talkback-35.yaml"
    path.write_text(path.read_text().replace("half: jack", "half: female"))
    assert [problem.rule for problem in lint(copied)] == ["unknown-half"]


def top_level(text):
    """(key, comment) of every top-level line, whether written or commented out."""
    return re.findall(r"^(?:# )?([a-z_]+):(?: |$).*?#\s*((?:mandatory|optional).*)$", text, re.MULTILINE)


@pytest.mark.parametrize("kind", FOLDERS)
def test_every_key_is_shown_with_whether_it_must_be_there(kind):
    shown = dict(top_level(EXAMPLE_OF[kind]))
    fields = KINDS[kind].fields
    assert set(shown) == set(fields)
    for key, field in fields.items():
        if field.required:
            assert shown[key].startswith("mandatory"), key
        elif key in ("plug", "jack", "male", "female", "face", "core", "current"):  # depends on what it is
            assert shown[key].startswith("mandatory for"), key
        else:
            assert shown[key].startswith("optional"), key


def nested_keys(shape):
    """Every key of a record inside this shape."""
    if isinstance(shape, Record):
        for key, field in shape.fields.items():
            yield key
            yield from nested_keys(field.shape)
        if shape.rest:
            yield from nested_keys(shape.rest)
    elif isinstance(shape, MapOf):
        yield from nested_keys(shape.value)
    elif isinstance(shape, ListOf):
        yield from nested_keys(shape.item)
    elif isinstance(shape, Either):
        yield from nested_keys(shape.record)


@pytest.mark.parametrize("kind", FOLDERS)
def test_every_nested_key_is_shown_somewhere(kind):
    # parts: as in a circuit
    text = EXAMPLE_OF[kind] if kind != "leads" else EXAMPLE_OF["leads"] + EXAMPLE_OF["circuits"]
    assert [
        key for key in dict.fromkeys(nested_keys(KINDS[kind])) if not re.search(rf"\b{key}\b", text)
    ] == []


def test_the_example_rule_is_a_rule():
    [row] = yaml.safe_load(BLOCKS["generator/engine/rulebook.yaml"])
    rule = rulebook._rule(row)
    assert rule.quantity in {other.quantity for other in rulebook.rules()}
    assert rule.id not in {other.id for other in rulebook.rules()}
    assert set(row) == {field.name for field in fields(rulebook.Rule)} - {"weighs"}, (
        "what a lossy rule needs besides stands in a comment"
    )


def test_every_lint_rule_is_an_anchor_with_its_line():
    expected = "".join(f'- <a id="{rule}"></a>`{rule}`: {asks}\n' for rule, asks in RULES.items())
    found = re.search(r"<!-- lint rules: begin -->\n(.*?)<!-- lint rules: end -->", GUIDE, re.DOTALL)[1]
    assert found == expected


def test_every_condition_of_cautions_is_told():
    expected = "".join(f"- `{name}`: {means}\n" for name, means in WHEN.items())
    assert (
        re.search(r"<!-- conditions: begin -->\n(.*?)<!-- conditions: end -->", GUIDE, re.DOTALL)[1]
        == expected
    )


def test_what_the_guide_names_is_there():
    """Files, folders and commands that the map speaks of."""
    for name in re.findall(r"^    {0,2}(\S+/) ", GUIDE, re.MULTILINE):
        assert (ROOT / name).is_dir(), name
    for name in re.findall(r"`((?:generator|tests|pinouts|site_src)/[\w./-]+)`", GUIDE):
        assert (ROOT / name).exists(), name
    for name in re.findall(r"`(\w+\.py)`", GUIDE):
        assert list((ROOT / "generator").rglob(name)) or list((ROOT / "tests").rglob(name)), name


def test_the_first_page_is_read_in_ten_minutes():
    assert (ROOT / "DEVELOPERS.md").stat().st_size <= LONGEST


@pytest.mark.parametrize("page", [*PAGES, ROOT / "README.md"], ids=lambda page: str(page.relative_to(ROOT)))
def test_links_between_the_pages_lead_somewhere(page):
    """A file that is there, and in it a heading or an anchor of that name."""
    for target, anchor in re.findall(r"\]\((?!https?:)([^)#]*)(?:#([^)]*))?\)", page.read_text("utf-8")):
        there = (page.parent / target).resolve() if target else page
        assert there.exists(), target
        if anchor:
            text = there.read_text("utf-8")
            headings = [
                re.sub(r"[^\w -]", "", heading.lower()).replace(" ", "-")
                for heading in re.findall(r"^#+ (.*)$", text, re.MULTILINE)
            ]
            assert anchor in headings or f'id="{anchor}"' in text, anchor


def test_every_page_is_reached_from_the_first():
    linked = set(re.findall(r"\]\(([^)#]+)", (ROOT / "DEVELOPERS.md").read_text("utf-8")))
    assert {str(page.relative_to(ROOT)) for page in PAGES[1:]} <= linked


def test_the_readme_names_every_command_and_no_other():
    readme = (ROOT / "README.md").read_text("utf-8")
    [commands] = [action.choices for action in parser(RUNS)._actions if isinstance(action.choices, dict)]
    assert re.findall(r"^    python -m generator (\w+)", readme, re.MULTILINE) == [
        "lint",
        "judge",
        "route",
        "ways",
        "matrix",
        "draw",
        "sheets",
        "docs",
        "finish",
        "bundle",
        "publish",
        "served",
        "rename",
        "list",
        "ledger",
        "interfere",
        "meter",
        "faults",
        "diagnose",
        "build",
        "trace",
        "symptoms",
        "pad",
        "blocker",
        "lessons",
    ]
    assert set(commands) == set(re.findall(r"^    python -m generator (\w+)", readme, re.MULTILINE))
    for script in re.findall(r"^    (\.ci/\w+)", readme, re.MULTILINE):
        assert (ROOT / script).stat().st_mode & 0o111, f"{script} can be run"


def test_the_readme_tells_every_verdict():
    readme = (ROOT / "README.md").read_text("utf-8")
    assert re.findall(r"^\| `([a-z ]+)` \|", readme, re.MULTILINE) == list(VERDICTS)


def test_the_licence_is_named_alike_everywhere():
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    assert project["license"] == "MIT"
    assert (ROOT / "LICENSE").read_text("utf-8").startswith("MIT License\n")
    assert "\nMIT, for code and data alike" in (ROOT / "README.md").read_text("utf-8")


def test_ids_in_the_examples_are_legal():
    assert all(re.fullmatch(rf"({NAME}|sources|retired)\.yaml", path.rpartition("/")[2]) for path in EXAMPLES)


def test_findings_named_in_the_guide_exist():
    named = ("not-powered", "part-unpowered", "not-for-data", "level-not-known")
    assert set(named) <= {rule.id for rule in rulebook.rules()}
    assert all(f"`{name}`" in GUIDE for name in named)
