"""Of the theme's style sheets what nothing on the site can meet is left out, and nothing else."""

import pytest

from generator.site.trim import named, trimmed

NAMES = {"here", "there", "top"}


@pytest.mark.parametrize("sheet, left", [
    (".here{color:red}.gone{color:red}", ".here{color:red}"),
    (".gone,.here .there,.here .gone{color:red}", ".here .there{color:red}"),
    ("#top>a{color:red}#gone>a{color:red}", "#top>a{color:red}"),
    ("p:not(.gone){color:red}", "p:not(.gone){color:red}"),
    (":is(.gone,.here) a{color:red}", ":is(.gone,.here) a{color:red}"),
    ("a:not(:is(.gone,.other)).here{color:red}a:not(.other).gone{color:red}", "a:not(:is(.gone,.other)).here{color:red}"),
    ("@media print{.gone{color:red}.here{color:red}}", "@media print{.here{color:red}}"),
    ("@media print{.gone{color:red}}@supports (a:b){@media print{.gone{color:red}}}", ""),
    ("@charset \"utf-8\";@keyframes turn{to{top:0}}@font-face{font-family:x}", "@charset \"utf-8\";@keyframes turn{to{top:0}}@font-face{font-family:x}"),
    (r".a\:b{color:red}", r".a\:b{color:red}"),
    ("[data-x=\".gone\"]{color:red}", "[data-x=\".gone\"]{color:red}"),
    ("a{background:url(\"data:image/svg+xml,<svg viewBox='0 0 1 1'/>\")}", "a{background:url(\"data:image/svg+xml,<svg viewBox='0 0 1 1'/>\")}"),
])
def test_a_rule_that_can_be_met_stays(sheet, left):
    assert trimmed(sheet, NAMES) == left + "\n"


def test_what_pages_and_scripts_give_has_a_name(tmp_path):
    (tmp_path / "assets/js").mkdir(parents=True)
    (tmp_path / "index.html").write_text("<p class=\"one two\" id=three>four</p><b class='five'>", encoding="utf-8")
    (tmp_path / "assets/js/a.js").write_text('made.className = "six seven--eight";', encoding="utf-8")
    assert {"one", "two", "three", "five", "six", "seven--eight"} <= named(tmp_path) and "four" not in named(tmp_path)
