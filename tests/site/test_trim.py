"""Of the theme's style sheets what nothing on the site can meet is left out, and nothing else."""

import re
from pathlib import Path

import pytest

from generator.site import trim
from generator.site.trim import Met, met, read, trimmed

SOURCE = Path(__file__).parents[2] / "site_src/assets"
HERE = Met(
    {"here", "there", "top", "md-overlay"},
    {"a", "p"},
    {"dir": {"ltr"}, "for": {"__toc"}, "data-x": {".gone"}},
    {"video", "open"},
)


@pytest.mark.parametrize(
    "sheet, left",
    [
        (".here{color:red}.gone{color:red}", ".here{color:red}"),
        (".gone,.here .there,.here .gone{color:red}", ".here .there{color:red}"),
        ("#top>a{color:red}#gone>a{color:red}", "#top>a{color:red}"),
        ("p:not(.gone){color:red}", "p:not(.gone){color:red}"),
        (":is(.gone,.here) a{color:red}", ":is(.gone,.here) a{color:red}"),
        (
            "a:not(:is(.gone,.other)).here{color:red}a:not(.other).gone{color:red}",
            "a:not(:is(.gone,.other)).here{color:red}",
        ),
        ("@media print{.gone{color:red}.here{color:red}}", "@media print{.here{color:red}}"),
        ("@media print{.gone{color:red}}@supports (a:b){@media print{.gone{color:red}}}", ""),
        (
            '@charset "utf-8";@keyframes turn{to{top:0}}@font-face{font-family:x}',
            '@charset "utf-8";@keyframes turn{to{top:0}}@font-face{font-family:x}',
        ),
        (r".a\:b{color:red}", r".a\:b{color:red}"),
        ('[data-x=".gone"]{color:red}', '[data-x=".gone"]{color:red}'),
        ("[dir=ltr] .here{color:red}[dir=rtl] .here{color:red}", "[dir=ltr] .here{color:red}"),
        (
            "[dir^=r]{color:red}[gone]{color:red}[open]{color:red}p:not([gone]){color:red}",
            "[dir^=r]{color:red}[open]{color:red}p:not([gone]){color:red}",
        ),
        ("video,kbd,p>kbd,.here::after,a:hover{color:red}", "video,.here::after,a:hover{color:red}"),
        ("kbd{color:red}*,:after,:root{color:red}", "*,:after,:root{color:red}"),
        (
            "a{background:url(\"data:image/svg+xml,<svg viewBox='0 0 1 1'/>\")}",
            "a{background:url(\"data:image/svg+xml,<svg viewBox='0 0 1 1'/>\")}",
        ),
        (
            (
                "@media (max-width:76.234375em){.md-overlay{color:red}.here{color:red}}@media "
                "(max-width:80em){.md-overlay{color:red}}"
            ),
            "@media (max-width:76.234375em){.here{color:red}}@media (max-width:80em){.md-overlay{color:red}}",
        ),
    ],
)
def test_a_rule_that_can_be_met_stays(sheet, left):
    assert trimmed(sheet, HERE) == left + "\n"


def test_variables_that_nothing_reads_go_and_those_that_only_they_read():
    sheet = ':root{--a:var(--b);--b:1px;--c:2px;--d:3px;--e:4px;top:0}p{--a:url("x;}")}p{left:var(--c,0)}'
    assert read([sheet, "p{right:calc(1px + var( --d ))}"], ["style.getPropertyValue('--e')"]) == [
        ":root{--c:2px;--d:3px;--e:4px;top:0;}p{left:var(--c,0)}\n",
        "p{right:calc(1px + var( --d ))}\n",
    ]


def test_an_animation_that_nothing_runs_goes():
    sheet = "@keyframes turn{to{top:0}}@keyframes fade{to{top:0}}@keyframes gone{to{top:0}}"
    assert read([sheet], ["p{animation:1s turn}", "p{animation-name:none,fade}"]) == [
        "@keyframes turn{to{top:0}}@keyframes fade{to{top:0}}\n"
    ]


def test_what_pages_have_and_what_scripts_name_is_met(tmp_path):
    (tmp_path / "assets/js").mkdir(parents=True)
    (tmp_path / "index.html").write_text(
        "<p class=\"one two\" id=three title='a > b' hidden>four</p><b class='five'>", encoding="utf-8"
    )
    (tmp_path / "assets/js/a.js").write_text(
        'el("dl", { class: "rf-six md-seven--eight" }, `<em>` + "two words").setAttribute("type", "button");',
        encoding="utf-8",
    )
    here = met(tmp_path)
    assert here.names == {"one", "two", "three", "five", "rf-six", "md-seven--eight"}
    assert here.elements == {"p", "b"} and {"dl", "em", "type", "button"} <= here.quoted
    assert here.attributes == {
        "class": {"one two", "five"},
        "id": {"three"},
        "title": {"a > b"},
        "hidden": {""},
    }


def test_scripts_give_no_class_of_another_beginning():
    """What a script names is looked for by how it begins."""
    given = re.compile(
        r"""\b(?:class|className)\s*[:=]\s*["'`](?=[\w$])([^"'`]*)|\bclassList\.\w+\(["'`]([^"'`]*)"""
    )
    texts = (
        "".join(found) for path in SOURCE.glob("js/**/*.js") for found in given.findall(path.read_text())
    )
    words = {
        word for text in texts for word in re.findall(r"[A-Za-z][\w-]*", re.sub(r"\$\{[^}]*\}?", "", text))
    }
    other = {word for word in words if not trim.DRESSED.fullmatch(word)}
    assert "rf-option" in words and other == set()


def test_the_drawer_is_hidden_where_its_rules_are_left_out():
    frame = (SOURCE / "css/frame.css").read_text()
    assert re.search(
        rf"@media \(max-width: {trim.NARROW}em\) \{{\s*[^{{}}]*\.md-sidebar--primary, \.md-overlay {{ "
        r"display: none; }",
        frame,
    )
