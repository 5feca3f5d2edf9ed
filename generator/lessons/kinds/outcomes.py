"""What happens before you plug: the verdict, what is lost, what is dangerous, why it is silent."""

from __future__ import annotations

import re
from collections.abc import Callable
from random import Random

from generator.engine.verdict import VERDICTS
from generator.ledger.rows import Row
from generator.lessons.facts import Facts, check, subject
from generator.lessons.levels import level
from generator.lessons.question import Choice, NoQuestion, Question
from generator.lessons.tables import table

from .kind import Kind, mixed, shuffled

SAID = {
    "safe": "It works, and nothing is lost",
    "lossy": "It works, and something is lost",
    "no signal": "It will not work: nothing of use arrives",
    "dangerous": "Something may be harmed: do not connect",
}
ASKED = {"lost": "lossy", "danger": "dangerous", "silence": "no signal"}  # kind -> the verdict it explains
ASKS = {
    "lost": "It works. What is lost first of all?",
    "danger": "Do not connect this. What is the danger?",
    "silence": "It will not work. Why not?",
}
FORM = "FROM,LEAD,INTO, and - for no lead"


def likely(facts: Facts, found: list[Row], chance: Random) -> Row:
    """One of some rows, everyday devices more often than not."""
    known = facts.once(f"everyday {id(found)}", lambda: [row for row in found if facts.known(row)])
    return chance.choice(known if known and chance.random() < 0.6 else found)


def row_of(facts: Facts, about: str) -> Row:
    """The row of a subject. NoQuestion where the ledger has none, with the nearest id."""
    row = facts.by_subject.get(about)
    if row is None:
        raise NoQuestion(f"“{about}”: the ledger has no such connection; write {FORM}")
    return row


def because(row: Row) -> tuple[str, str]:
    """(sentence, number) of what decided a row."""
    if row["verdict"] == "safe":
        return "Every channel arrives, and nothing is over a limit.", ""
    meant, number = table("findings")[row["findings"][0]], told(row["number"])
    return f"{meant['says']}{f' ({number})' if number else ''}. {meant['hears']}", number


def told(number: str) -> str:
    """The number of a row for a sentence: `51 V against 10 V`. Nothing for a bare yes or no."""
    return number.replace(" / ", " against ") if re.search("[^0-9 /.−]", number) else ""


def _common(facts: Facts, kind: str, row: Row) -> dict:
    grade, note = facts.grade(row, *row["findings"], ratings=kind in ("verdict", "danger"))
    text, number = because(row)
    return {
        "because": text,
        "number": number,
        "works": check(row),
        "evidence": grade,
        "note": note,
        "level": level(
            facts, kind, (row["from"], row["into"]), mistakes=len(row["findings"]) + len(row["also"])
        ),
        "given": facts.given(row),
        "pictures": facts.pictures(row),
        "shown": facts.pictures(row),
    }


def _draw_verdict(facts: Facts, chance: Random) -> str:
    """All four verdicts as often as each other."""
    return subject(likely(facts, facts.plain[chance.choice(sorted(SAID))], chance))


def _verdict(facts: Facts, about: str, chance: Random) -> Question:
    row = row_of(facts, about)
    if row["offered"]:
        raise NoQuestion(f"“{about}”: it hangs on the order of plugging; ask it as switch:{about}")
    if row["verdict"] not in SAID:
        raise NoQuestion(f"“{about}”: no verdict that is asked for")
    why = table("mixed")["verdicts"]
    choices = tuple(
        Choice(one, SAID[one], "" if one == row["verdict"] else why[one]) for one in VERDICTS if one in SAID
    )
    return Question(
        "verdict",
        about,
        "What happens? What it needs is switched on; every other switch stands at its worst.",
        (row["verdict"],),
        choices=choices,
        **_common(facts, "verdict", row),
    )


def _draw_cause(kind: str) -> Callable[[Facts, Random], str]:
    def draw(facts: Facts, chance: Random) -> str:
        """Every cause as often as another, as far as there are any."""
        causes = facts.once(f"causes of {kind}", lambda: by_first(facts.plain[ASKED[kind]]))
        asked = sorted(name for name in causes if table("findings").get(name, {}).get("asked") == kind)
        return subject(likely(facts, causes[chance.choice(asked)], chance))

    return draw


def by_first(rows: list[Row]) -> dict[str, list[Row]]:
    """The rows by the finding that decides them first."""
    found: dict[str, list[Row]] = {}
    for row in rows:
        found.setdefault(row["findings"][0], []).append(row)
    return found


def _ask_cause(kind: str) -> Callable[[Facts, str, Random], Question]:
    def ask(facts: Facts, about: str, chance: Random) -> Question:
        row, meant = row_of(facts, about), table("findings")
        if row["offered"] or row["verdict"] != ASKED[kind]:
            raise NoQuestion(f"“{about}” is {row['verdict']}; {kind} asks about {ASKED[kind]}")
        decides = row["findings"][0]
        if meant.get(decides, {}).get("asked") != kind:
            raise NoQuestion(f"“{about}”: what decides it, {decides}, is not asked about")
        found = {*row["findings"], *row["also"]}
        arguable = found.union(*(meant[name].get("like", ()) for name in found if name in meant))
        wrong = [
            Choice(name, meant[name]["says"], meant[name]["hears"])
            for name in mixed(meant[decides]["mixed"], chance)
            if name not in arguable and not found & set(meant[name].get("like", ()))
        ]
        right = Choice(decides, meant[decides]["says"])
        return Question(
            kind,
            about,
            ASKS[kind],
            (decides,),
            choices=shuffled(right, wrong, chance),
            **_common(facts, kind, row),
        )

    return ask


KINDS = (
    Kind("verdict", "What happens, said before you plug", _draw_verdict, _verdict),
    Kind("lost", "What is lost", _draw_cause("lost"), _ask_cause("lost")),
    Kind("danger", "What the danger is", _draw_cause("danger"), _ask_cause("danger")),
    Kind("silence", "Why it is silent", _draw_cause("silence"), _ask_cause("silence")),
)
