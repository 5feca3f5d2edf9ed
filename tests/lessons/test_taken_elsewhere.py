"""Questions taken elsewhere: QTI, SCORM, CSV, paper. Packages are held against rules written from the
specifications; see packages.py."""

import csv
from io import StringIO
from itertools import islice

import packages
import pytest

from generator.lessons import KINDS, drawn
from generator.lessons.command import ENDINGS
from generator.lessons.export import page, qti, scorm, table
from generator.lessons.question import Choice, Question


@pytest.fixture(scope="module")
def some(facts):
    """Three of every kind."""
    return list(islice(drawn(facts, list(KINDS), "elsewhere"), 3 * len(KINDS)))


@pytest.fixture(scope="module")
def hostile():
    """A question whose words would break markup, a spreadsheet or a script."""
    words = '=1+1</script><b>"&\n'
    return Question(
        "x",
        "y,z",
        words,
        ("a",),
        words,
        "check/",
        "operator",
        "derived",
        choices=(Choice("a", words), Choice("b", "@plain"), Choice("c", "]]>")),
        given=((words, words),),
    )


def test_a_qti_package_keeps_the_rules(catalogue, some, hostile):
    files = packages.unzipped(qti.package(catalogue, [*some, hostile], "A & B"))
    assert packages.qti_faults(files) == []
    assert sum(path.startswith("items/") for path in files) == len(some) + 1


def test_the_rules_see_a_broken_item(some):
    whole = qti._bytes(qti.item(next(one for one in some if one.form == "choice")))
    assert packages.item_faults(whole) == []
    for broken, told in (
        (whole.replace(b"<value>C", b"<value>X"), "choices are"),
        (whole.replace(b"timeDependent", b"timedependent"), "lacks timeDependent"),
        (whole.replace(b'identifier="C2"', b'identifier="C1"'), "two choices"),
        (whole.replace(b'maxChoices="1"', b""), "lacks maxChoices"),
    ):
        assert broken != whole and any(told in fault for fault in packages.item_faults(broken)), told


def test_a_scorm_package_keeps_the_rules(catalogue, some, hostile):
    files = packages.unzipped(scorm.package(catalogue, "one", "A & B", ["<i>words</i>"], [*some, hostile]))
    assert packages.scorm_faults(files) == []
    assert b"</script>" not in files["questions.js"] and b"<i>" not in files["index.html"]
    shorter = {path: content for path, content in files.items() if path != "scorm.js"}
    assert packages.scorm_faults(shorter) == ["listed and not there: scorm.js"]
    assert packages.scorm_faults(
        {
            **files,
            "imsmanifest.xml": files["imsmanifest.xml"].replace(
                b"<schemaversion>1.2", b"<schemaversion>2004"
            ),
        }
    ) == ["metadata ['ADL SCORM', '2004']"]


def test_the_same_questions_give_the_same_bytes(catalogue, some):
    assert qti.package(catalogue, some, "T") == qti.package(catalogue, some, "T")


def test_a_row_each_and_no_cell_that_calculates(some, hostile):
    rows = list(csv.DictReader(StringIO(table.text([*some, hostile], "https://example.org/"))))
    assert [row["id"] for row in rows] == [*(one.id for one in some), hostile.id]
    assert all(not cell.startswith(("=", "@", "+", "-")) for row in rows for cell in row.values())
    for one, row in zip(some, rows):
        assert one.form == "number" or row["right"] == one.right()
        assert row["working"] == f"https://example.org/{one.works}"


def test_paper_has_the_answers_or_not(catalogue, some, hostile):
    whole, asked = (page.text(catalogue, [*some, hostile], "T", answers) for answers in (True, False))
    assert "answers</h1>" in whole and "answers</h1>" not in asked
    assert some[0].because not in asked and "<b>" not in whole
    ids = [part.split('"')[0] for part in whole.split(' id="')[1:]]
    assert len(set(ids)) == len(ids), "the drawings of one page have ids of their own"


@pytest.mark.parametrize("format", ENDINGS)
def test_the_command_writes_every_format(ask, tmp_path, format):
    status, told, complained = ask(
        "lessons",
        "--kind",
        "contact",
        "--kind",
        "order",
        "--seed",
        "7",
        "--count",
        "4",
        "--format",
        format,
        "--out",
        tmp_path,
    )
    assert (status, complained) == (0, "")
    assert told == f"{tmp_path / f'questions-7{ENDINGS[format]}'}: 4 questions\n"
    assert [path.name for path in tmp_path.iterdir()] == [f"questions-7{ENDINGS[format]}"]


@pytest.mark.parametrize(
    "words, told",
    [
        (("--kind", "contct"), "“contct” is no kind of question; did you mean contact?"),
        (("--level", "engineers"), "“engineers” is no level; did you mean engineer?"),
        (("--format", "qit"), "“qit” is no format; did you mean qti?"),
        (("--count", "0"), "--count 0: write a number from 1 to 5000"),
        (("--lesson", "01-band"), "“01-band” is no ready lesson; did you mean 01-bands?"),
        (("--ask", "contact:xlr-3-balanced,8"), "no assignment with a known role on that contact"),
        (("--kind", "order", "--level", "engineer"), "Nothing of that kind and level was found"),
    ],
)
def test_bad_use_is_named_and_nothing_is_written(ask, tmp_path, words, told):
    status, _, complained = ask("lessons", *words, "--out", tmp_path / "new")
    assert status == 2 and told in complained
    assert not (tmp_path / "new").exists()
