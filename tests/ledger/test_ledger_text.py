"""The ledger's text is read by people in diffs: its form is held here to the letter, and what is no ledger is
named by file and line."""

import pytest

from generator import ledger
from generator.ledger.lines import HEAD, rows, write


def finding(id, severity, value=1.0, unit="V", limit=2.0, subject="into/stage"):
    return {"id": id, "severity": severity, "subject": subject, "value": value, "unit": unit, "limit": limit}


def verdict(through, verdict, *findings, start="mic", target="desk", offered="", offer=""):
    return ledger.row(
        {
            "from": start,
            "through": through,
            "into": target,
            "verdict": verdict,
            "findings": findings,
            "offered": offered,
            "offer": offer,
        }
    )


LINES = [
    (verdict([], "safe"), "-\tdesk\tsafe\t-\t-\t-"),
    (verdict(["lead"], "safe", finding("wait", "note")), "lead\tdesk\tsafe\t-\t-\t-"),
    (
        verdict(["one", "two"], "lossy", finding("dull", "lossy", -7.94, "dB", -3.0, "from/main>into/main")),
        "one+two\tdesk\tlossy\tdull\t−7.9 dB / −3.0 dB\tfrom/main>into/main",
    ),
    (
        verdict(
            ["lead"],
            "dangerous",
            finding("over-volts", "dangerous", 44.6, "V", 10.0),
            finding("over-volts", "dangerous", subject="from/stage"),
            finding("dull", "lossy"),
        ),
        "lead\tdesk\tdangerous\tover-volts | dull\t44.6 V / 10 V\tinto/stage",
    ),
    (
        verdict(["lead"], "dangerous", finding("rating-not-known", "dangerous", 0.00705, "A", None)),
        "lead\tdesk\tdangerous\trating-not-known\t7.05 mA\tinto/stage",
    ),
    (verdict(["lead"], "safe", finding("not-powered", "no signal")), "lead\tdesk\tsafe\t| not-powered\t-\t-"),
    (
        verdict(
            ["lead"],
            "dangerous",
            finding("over-volts", "dangerous"),
            offered="safe",
            offer="Plug it with the amplifier off.",
        ),
        "lead\tdesk\tdangerous\tover-volts\t1 V / 2 V\tinto/stage\tsafe\tPlug it with the amplifier off.",
    ),
]


@pytest.mark.parametrize("given, line", LINES)
def test_a_line(given, line):
    """Lead, inlet, verdict, findings that decided | others that cost something (each once), the deciding
    number against its limit and what it is about, the offer."""
    assert ledger.text([given]) == {"mic.txt": f"{HEAD}{line}\n"}


@pytest.mark.parametrize("given, line", LINES)
def test_a_line_read_again(given, line):
    assert list(rows({"mic.txt": f"{HEAD}{line}\n"})) == [given]


@pytest.mark.parametrize(
    "line, complaint",
    [
        (
            "<<<<<<< HEAD",
            (
                "verdicts/mic.txt, line 2: no row of a ledger: '<<<<<<< HEAD'; `python -m generator ledger` "
                "writes it anew"
            ),
        ),
        (
            "lead\tdesk\tfine\t-\t-\t-",
            (
                "verdicts/mic.txt, line 2: no row of a ledger: 'lead\tdesk\tfine\t-\t-\t-'; `python -m "
                "generator ledger` writes it anew"
            ),
        ),
        (
            "lead\tdesk\tsafe\t-\t-",
            (
                "verdicts/mic.txt, line 2: no row of a ledger: 'lead\tdesk\tsafe\t-\t-'; `python -m "
                "generator ledger` writes it anew"
            ),
        ),
        (
            "lead\tdesk\tsafe",
            (
                "verdicts/mic.txt, line 2: no row of a ledger: 'lead\tdesk\tsafe'; `python -m generator "
                "ledger` writes it anew"
            ),
        ),
    ],
)
def test_what_is_no_line_is_named(line, complaint):
    with pytest.raises(ledger.LedgerError) as fault:
        list(rows({"mic.txt": f"{HEAD}{line}\n"}))
    assert str(fault.value) == complaint


def test_a_file_cut_short_is_named():
    with pytest.raises(ledger.LedgerError) as fault:
        list(rows({"mic.txt": f"{HEAD}-\tdesk\tsafe\t-\t-\t-"}))
    assert (
        str(fault.value) == "verdicts/mic.txt, line 2: cut short; `python -m generator ledger` writes it anew"
    )


def test_one_file_per_outlet_lines_sorted():
    files = ledger.text(
        [
            verdict(["b"], "safe"),
            verdict(["a"], "safe"),
            verdict([], "safe", start="player"),
            verdict([], "safe", target="amp"),
        ]
    )
    assert files == {
        "mic.txt": f"{HEAD}-\tamp\tsafe\t-\t-\t-\na\tdesk\tsafe\t-\t-\t-\nb\tdesk\tsafe\t-\t-\t-\n",
        "player.txt": f"{HEAD}-\tdesk\tsafe\t-\t-\t-\n",
    }


def test_head_says_who_wrote_it():
    assert HEAD == "# Computed by `python -m generator ledger`; never edited by hand.\n"


def test_writing_makes_the_directory_hold_exactly_these_files(tmp_path):
    write({"a.txt": "1\n", "b.txt": "2\n"}, tmp_path / "verdicts")
    kept = (tmp_path / "verdicts" / "a.txt").stat().st_mtime_ns
    write({"a.txt": "1\n", "c.txt": "3\n"}, tmp_path / "verdicts")
    assert ledger.read(tmp_path / "verdicts") == {"a.txt": "1\n", "c.txt": "3\n"}
    assert (tmp_path / "verdicts" / "a.txt").stat().st_mtime_ns == kept, "what did not change is not touched"


def test_reading_a_ledger_that_is_not_there(tmp_path):
    assert ledger.read(tmp_path / "nowhere") == {}
