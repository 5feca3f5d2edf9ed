"""Whatever stands in a folder, lint names the file and goes on with the others."""

import os
from datetime import date, timedelta
from pathlib import Path

import pytest

from generator.catalogue import load, problems
from generator.catalogue.lint import lint
from generator.catalogue.plausible import ranges

OTHER = "pinouts/leads/crossed.yaml"


@pytest.fixture
def told(pinouts, replace):
    """Lints with a second, plain fault in another file, which must be reported whatever else there is."""
    replace("leads/crossed.yaml", "looks_like: straight", "looks_like: straight\nevidence: hearsay")

    def told():
        faults = [str(fault) for fault in lint(pinouts)]
        assert any(fault.startswith(OTHER) and "bad-evidence" in fault for fault in faults), (
            "the other file's fault is told too"
        )
        return [fault for fault in faults if not fault.startswith(OTHER) and "[not-mutual]" not in fault]

    return told


@pytest.mark.parametrize(
    "amount",
    ["1e999999999 m", "1e99999999999999999999 m", "1..1e999999999 m", "1 m +- 99999999 %", "-1e999999999 m"],
)
def test_a_number_no_arithmetic_can_hold(pinouts, told, amount):
    (pinouts / "leads/long.yaml").write_text(f"name: Long lead\nsame_as: straight\nlength: {amount}\n")
    assert [fault for fault in told() if fault.startswith("pinouts/leads/long.yaml:3:")] != []


@pytest.mark.parametrize("opening, closing", [("[", "]"), ("{a: ", "}")])
@pytest.mark.parametrize("closed", [True, False])
def test_maps_and_lists_very_deep_in_each_other(pinouts, told, opening, closing, closed):
    (pinouts / "leads/deep.yaml").write_text(f"x: {opening * 900}{closing * 900 if closed else ''}\n")
    assert told() == [
        (
            "pinouts/leads/deep.yaml:1:1: error[too-deep]\n"
            "    maps and lists stand more than 40 deep in each other here."
        )
    ]


@pytest.mark.parametrize("name", ["retired.yaml", "sources.yaml"])
def test_same_as_where_there_is_nobody_to_take_keys_from(pinouts, told, name):
    with (pinouts / name).open("a") as file:
        file.write("same_as: something\n")
    assert any(fault.startswith(f"pinouts/{name}:") for fault in told())


def test_what_is_named_like_a_file_and_is_none(pinouts, told):
    (pinouts / "leads/folder.yaml").mkdir()
    (pinouts / "leads/dangling.yaml").symlink_to("nowhere")
    (pinouts / "leads/endless.yaml").symlink_to("/dev/zero")
    none = "this is named like a file and is none: a folder, or a link to something that is not there."
    assert told() == [
        f"pinouts/leads/{name}.yaml:1:1: error[not-a-file]\n    {none}"
        for name in ("dangling", "endless", "folder")
    ]


@pytest.mark.parametrize("content", [b"\xff\xfe\x00", bytes(range(256)), b"\x89PNG\r\n\x1a\n" + bytes(100)])
def test_a_file_that_is_no_text(pinouts, told, content):
    (pinouts / "leads/binary.yaml").write_bytes(content)
    assert [fault.split("\n")[0].split(": ")[1] for fault in told()] == ["error[syntax]"]


def test_a_file_nobody_may_read(pinouts, told, monkeypatch):
    secret, read = pinouts / "leads/secret.yaml", Path.read_text
    secret.write_text("name: x\n")

    def refused(path, *how, **more):
        if path.name == "secret.yaml":
            raise PermissionError(13, "Permission denied")
        return read(path, *how, **more)

    monkeypatch.setattr(Path, "read_text", refused)
    assert told() == [
        "pinouts/leads/secret.yaml:1:1: error[not-a-file]\n    this cannot be read: Permission denied."
    ]


def test_a_value_of_any_length_is_cut_where_it_is_echoed(pinouts, told):
    (pinouts / "leads/long.yaml").write_text(
        f"name: Long lead\nsame_as: straight\nlength: '{'9' * 100_000}'\n"
    )
    (fault,) = told()
    assert "999..." in fault and len(fault) < 700


FORMS = (
    "write a number and a unit (6.81 kohm), a range (44..52 V), a tolerance (48 V +-4 V, 6.81 kohm +-20 %) "
    "or `unknown`."
)


@pytest.mark.parametrize(
    "written, echoed",
    [
        ("|\n  3\n\n  m\n  ", "3 m"),  # a fault is one line, so that no file can write faults of its own
        ('"' + "isn't it " * 1000 + '"', ("isn't it " * 30)[:200] + "..."),
        ("'" + "a'' " * 20_000 + "'", ("a' " * 80)[:200] + "..."),
        ('"3\\x85\\u2028m"', None),
        ("١ m", "١ m"),  # digits of other scripts are none that a reader here could read
        ("３ m", "３ m"),
    ],
)
def test_a_value_is_echoed_on_one_line_and_no_longer_than_it_must(pinouts, told, written, echoed):
    (pinouts / "leads/odd.yaml").write_text(
        f"name: Odd lead\nsame_as: straight\nlength: {written}\n", "utf-8"
    )
    wrong = (
        f"[bad-quantity]\n    '{echoed}' is not a quantity; {FORMS}"
        if echoed
        else "[hidden-character]\n    'length' holds the character U+0085, which nobody sees; take it out."
    )
    assert told() == [f"pinouts/leads/odd.yaml:3:9: error{wrong}"]


def test_a_key_of_any_length_is_cut_where_it_is_echoed(pinouts, told):
    (pinouts / "leads/odd.yaml").write_text(f"name: Odd lead\nsame_as: straight\n? {'so ' * 5000}\n: x\n")
    (fault,) = told()
    assert fault.startswith(
        "pinouts/leads/odd.yaml:3:3: error[unknown-key]\n"
        f"    '{('so ' * 70)[:200]}...' is not a key here; this lead takes name, same_as, "
    )


@pytest.mark.parametrize(
    "file, old, new, told",
    [
        (
            "connectors/round.yaml",
            "1: {angle: 270 deg,",
            "1: {LONG: 270 deg,",
            "contact '1' has ECHO; on a circular face contacts stand at angle and radius.",
        ),
        (
            "circuits/output.yaml",
            "drive: {drive: 1}",
            "drive: {drive: 1, LONG: 1}",
            "there is no part ECHO here.",
        ),
    ],
)
def test_so_it_is_wherever_a_key_that_is_none_is_met_again(pinouts, replace, file, old, new, told):
    replace(file, old, new.replace("LONG", f'"{"so " * 100}"'))
    assert told.replace("ECHO", f"'{('so ' * 70)[:200]}...'") in [fault.message for fault in lint(pinouts)]


def test_a_list_of_published_ids_that_cannot_be_read_is_a_fault(pinouts, told):
    (pinouts / "published.txt").write_bytes(b"leads/gone\n\xff")
    assert told() == [
        (
            "pinouts/published.txt:1:1: error[syntax]\n"
            "    the file is not UTF-8 text: invalid start byte at byte 11."
        )
    ]
    (pinouts / "published.txt").unlink()
    (pinouts / "published.txt").mkdir()
    assert told() == [
        (
            "pinouts/published.txt:1:1: error[not-a-file]\n"
            "    this is named like a file and is none: a folder, or a link to something that is not there."
        )
    ]


def test_a_file_name_of_any_bytes_can_be_printed(pinouts, told):
    for name in (b"\xff.yaml", b"a\nb.yaml", b"\x1b[2J.yaml"):
        (pinouts / "leads" / os.fsdecode(name)).write_text("name: Odd lead\nsame_as: straight\n")
    found = [fault for fault in told() if "bad-file-name" in fault]
    rule = "must start with a letter, be lower-case words and digits joined by hyphens, and end in .yaml."
    assert sorted(found) == sorted(
        f"pinouts/leads/{name}.yaml:1:1: error[bad-file-name]\n    '{echoed}.yaml' {rule}"
        for name, echoed in (("\ufffd", "\ufffd"), ("a\ufffdb", "a b"), ("\ufffd[2J", "\ufffd[2J"))
    )
    assert "\n".join(told()).encode("utf-8")


def test_a_record_without_a_name_hides_no_other_of_the_same_name(pinouts, told, replace):
    replace("leads/block.yaml", "name: Jack to round with a capacitor", "name: []")
    (pinouts / "leads/twin.yaml").write_text("name: Jack to round\nsame_as: straight\n")
    assert told() == [
        "pinouts/leads/block.yaml:1:7: error[wrong-type]\n    'name' must be text, not a list.",
        (
            "pinouts/leads/twin.yaml:1:1: error[same-name]\n"
            "    'Jack to round' is the name of 'straight' too; readers choose by name.\n"
            "    defined at pinouts/leads/straight.yaml:1"
        ),
    ]


def test_after_some_hundred_faults_it_is_no_longer_sought_what_was_meant(pinouts, told):
    """Seeking takes longer than all the rest: a file of a million slips would keep lint busy for an hour."""
    (pinouts / "leads/odd.yaml").write_text(
        "name: Odd lead\n"
        "same_as: straight\n"
        f"looks_like: [{', '.join(f'straigt{number}' for number in range(2000))}]\n"
    )
    found = [fault for fault in told() if "unknown-lead" in fault]
    assert (
        len(found) == 2000
        and 400 < sum("Did you mean 'straight'?" in fault for fault in found) <= problems.MANY
    )


def test_a_long_value_with_an_apostrophe_in_a_word_is_cut_too_and_a_list_of_what_would_be_right_is_not():
    """What stands between two quoted words is ours, and wanted whole."""
    names = ", ".join(f"name-{number}" for number in range(60))
    assert len(problems.not_one_of(f"it isn't {'so ' * 500}", "a name", [])) < 260
    assert (
        problems._cut(f"'nam' is not a name; it has {names}. Did you mean 'name-1'?")
        == f"'nam' is not a name; it has {names}. Did you mean 'name-1'?"
    )


@pytest.mark.parametrize(
    "hidden, code",
    [
        ("\u202e", "202E"),
        ("\u200b", "200B"),
        ("\u2066", "2066"),
        ("\\x07", "0007"),
        ("\ufeff", "FEFF"),
        ("\U000e0041", "E0041"),
    ],
)
def test_a_character_nobody_sees_is_a_fault(pinouts, told, hidden, code):
    (pinouts / "leads/odd.yaml").write_text(f'name: "Odd{hidden} lead"\nsame_as: straight\n', "utf-8")
    (fault,) = told()
    assert fault == (
        "pinouts/leads/odd.yaml:1:7: error[hidden-character]\n"
        f"    'name' holds the character U+{code}, which nobody sees; take it out."
    )


def test_a_day_that_is_still_to_come_is_a_fault(pinouts, told):
    later = (date.today() + timedelta(days=3)).isoformat()
    (pinouts / "leads/odd.yaml").write_text(
        f"name: Odd lead\nsame_as: straight\nevidence: from memory\nchecked: {later}\n"
    )
    assert told() == [
        (
            "pinouts/leads/odd.yaml:4:10: error[bad-date]\n"
            f"    '{later}' is still to come; write the day it was checked."
        )
    ]


@pytest.mark.parametrize("length", ["3 mm", "3e9 m", "3 Mm"])
def test_a_length_no_lead_has_is_a_fault_until_it_is_confirmed(pinouts, told, length):
    file = pinouts / "leads/odd.yaml"
    file.write_text(f"name: Odd lead\nsame_as: straight\nlength: {length}\n")
    assert told() == [
        "pinouts/leads/odd.yaml:3:9: error[implausible]\n"
        f"    '{length}' is not likely here: 'length' has 0.02 m to 500 m. An adapter has some centimetres, "
        "a multicore on a large stage some hundred metres. A slip of the prefix? If it is right, add "
        "`confirmed:` with the reason."
    ]
    file.write_text(f"name: Odd lead\nsame_as: straight\nlength: {length}\nconfirmed: It spans a strait.\n")
    assert told() == []


def test_the_ranges_have_their_ends_in_order_and_a_reason():
    assert all(0 < row.low < row.high and row.reason.endswith(".") for row in ranges())


def test_nothing_of_this_is_a_fault_in_the_tiny_catalogue(pinouts):
    assert load(pinouts)
