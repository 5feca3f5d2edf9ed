"""Which lead would you take, which input may it go into, and where the switch has to stand."""

from __future__ import annotations

import re
from random import Random

from generator.catalogue.records import GRADES
from generator.engine.verdict import VERDICTS
from generator.ledger.rows import Row
from generator.lessons.facts import NO_LEAD, Facts, check, subject
from generator.lessons.levels import level
from generator.lessons.question import Choice, NoQuestion, Question
from generator.lessons.tables import table

from .kind import Kind, parts, shuffled
from .outcomes import because, likely, row_of

WORKS = 2  # the first two verdicts, safe and lossy, are worth choosing
OFFER = re.compile(
    r"^Plug it with (?P<switch>.+) off, wait a moment, then (?P=switch) on: then (?P<end>.+)\.$"
)


def _leads(rows: list[Row]) -> tuple[str, list[Row], list[Row]] | None:
    """(verdict, the best rows, those whose verdict is worse) of a pair; None where one cannot choose. Both
    with no offers among them."""
    ranked = [
        (VERDICTS.index(row["verdict"]), row)
        for row in rows
        if not row["offered"] and row["verdict"] in VERDICTS
    ]
    top = min((rank for rank, _ in ranked), default=len(VERDICTS))
    best, worse = ([row for rank, row in ranked if (rank == top) == good] for good in (True, False))
    return (VERDICTS[top], best, worse) if top < WORKS and len(worse) > 1 else None


def _draw_lead(facts: Facts, chance: Random) -> str:
    found = facts.once(
        "pairs with a choice", lambda: [pair for pair, rows in facts.by_pair.items() if _leads(rows)]
    )
    known = [pair for pair in found if set(pair) <= facts.everyday]
    return ",".join(chance.choice(known if chance.random() < 0.6 else found))


def _lead(facts: Facts, about: str, chance: Random) -> Question:
    start, into = parts(about, 2, "FROM,INTO")
    split = _leads(facts.by_pair.get((start, into), []))
    if split is None:
        raise NoQuestion(f"“{about}”: the ledger has no lead that is plainly better than two others")
    verdict, best, worse = split
    row = chance.choice(best)
    like = facts.catalogue.leads[row["through"][0]].looks_like if row["through"] else ()
    order = lambda other: ((other["through"] or [""])[0] not in like, chance.random())
    wrong = [
        Choice(
            _id(other), facts.lead(other["through"]), f"{other['verdict'].capitalize()}: {because(other)[0]}"
        )
        for other in sorted(worse, key=order)
    ]
    grade, note = facts.grade(
        row, *row["findings"], *(name for other in worse for name in other["findings"][:1])
    )
    text, number = because(row)
    return Question(
        "lead",
        about,
        "Which of these would you take?",
        (_id(row),),
        f"{table('mixed')['leads'][verdict]} {text}",
        check(row),
        level(facts, "lead", (start, into), mistakes=len(worse)),
        grade,
        number=number,
        choices=shuffled(Choice(_id(row), facts.lead(row["through"])), wrong, chance),
        given=facts.given(row)[::2],
        pictures=(f"port-{start}",),
        shown=facts.pictures(row),
        note=note,
    )


def _id(row: Row) -> str:
    return "+".join(row["through"]) or NO_LEAD


def _inputs(rows: list[Row]) -> tuple[list[Row], list[Row]]:
    """(safe, neither safe nor lossy) of the inputs one outlet and lead reach."""
    plain = [row for row in rows if not row["offered"]]
    return [row for row in plain if row["verdict"] == "safe"], [
        row for row in plain if row["verdict"] not in ("safe", "lossy")
    ]


def _draw_input(facts: Facts, chance: Random) -> str:
    open_to = lambda rows: _inputs(rows)[0] and len(_inputs(rows)[1]) > 1
    found = facts.once(
        "leads with a choice", lambda: [key for key, rows in facts.by_start.items() if open_to(rows)]
    )
    known = [key for key in found if key[0] in facts.everyday]
    return ",".join(chance.choice(known if chance.random() < 0.6 else found))


def _input(facts: Facts, about: str, chance: Random) -> Question:
    start, lead = parts(about, 2, "FROM,LEAD, and - for no lead")
    good, bad = _inputs(facts.by_start.get((start, lead), []))
    if not good or len(bad) < 2:
        raise NoQuestion(f"“{about}”: the ledger has no safe input beside two bad ones for it")
    ports = facts.catalogue.ports
    row = chance.choice([row for row in good if row["into"] in facts.everyday] or good)
    order = lambda other: (
        other["into"] not in facts.everyday,
        ports[other["into"]].connector != ports[row["into"]].connector,
        chance.random(),
    )
    wrong = [
        Choice(
            other["into"], ports[other["into"]].name, f"{other['verdict'].capitalize()}: {because(other)[0]}"
        )
        for other in sorted(bad, key=order)
    ]
    grade, note = facts.grade(row)
    return Question(
        "input",
        about,
        "Into which of these may it go, with nothing lost?",
        (row["into"],),
        because(row)[0],
        check(row),
        level(facts, "input", (start, row["into"]), mistakes=len(bad)),
        grade,
        number="",
        choices=shuffled(Choice(row["into"], ports[row["into"]].name), wrong, chance),
        given=facts.given(row)[:2],
        pictures=facts.pictures(row),
        shown=(f"port-{row['into']}",),
        note=note,
    )


def _draw_switch(facts: Facts, chance: Random) -> str:
    offered = facts.once(
        "rows with an offer", lambda: [row for row in facts.sensible if OFFER.match(row["offer"])]
    )
    told = facts.once(
        "rows with one switch",
        lambda: {
            kind: [row for row in facts.sensible if _position(facts, row) == kind]
            for kind in ("on", "either")
        },
    )
    return subject(likely(facts, chance.choice([offered, *filter(None, told.values())]), chance))


def _supply(facts: Facts, row: Row) -> str:
    """The name of the one supply with a switch in a connection through nothing but wire; nothing where
    there is none, or another."""
    ports, leads = facts.catalogue.ports, facts.catalogue.leads
    found = [one for id in (row["from"], row["into"]) for one in ports[id].supplies if len(one.states) > 1]
    plain = not any(leads[id].parts for id in row["through"])
    return (
        found[0].name
        if plain and len(found) == 1 and {*found[0].states} == {"on", "off"} and found[0].style != "drive"
        else ""
    )


def _position(facts: Facts, row: Row) -> str:
    """Where that switch may stand: `on` where the only thing that needs volts gets them from it,
    `either` where nothing needs any and the worst position is safe. A verdict is the worst over all
    positions, but for what is needed, and `also` tells what the others come to; where one would have to
    judge, nothing is said."""
    needs = [
        need
        for id in (row["from"], row["into"])
        for need in facts.catalogue.ports[id].needs
        if need.least > 0
    ]
    if row["offered"] or not _supply(facts, row):
        return ""
    if needs:
        return "on" if row["verdict"] in VERDICTS[:WORKS] and "not-powered" in row["also"] else ""
    return "either" if row["verdict"] == "safe" and not row["also"] else ""


def _stands(facts: Facts, row: Row, about: str, chance: Random) -> Question:
    """Where may it stand, with a switch that is no matter of order?"""
    right, switch, words = _position(facts, row), _supply(facts, row), table("mixed")["positions"]
    needs = [
        need
        for id in (row["from"], row["into"])
        for need in facts.catalogue.ports[id].needs
        if need.least > 0
    ]
    number = f"{max(need.least for need in needs):g} V" if needs else ""
    grade, note = facts.grade(row, *row["findings"])
    if any(need.evidence.grade == GRADES[-1] for need in needs):
        grade, note = (
            GRADES[-1],
            " ".join(
                filter(
                    None, (note, "The volts it needs are from memory; look them up before you rely on it.")
                )
            ),
        )
    choices = [
        Choice(id, text, "" if id == right else words["why"][right].get(id, ""))
        for id, text in words["choices"].items()
    ]
    because = words["because"][right].format(switch=switch, number=number)
    return Question(
        "switch",
        about,
        f"Where may the switch for {switch} stand, for this to work?",
        (right,),
        because,
        check(row),
        level(facts, "switch", (row["from"], row["into"])),
        grade,
        choices=tuple(chance.sample(choices, len(choices))),
        given=facts.given(row),
        number=number,
        pictures=facts.pictures(row),
        shown=facts.pictures(row),
        note=note,
    )


def _switch(facts: Facts, about: str, chance: Random) -> Question:
    row = row_of(facts, about)
    offer = OFFER.match(row["offer"])
    if not offer and _position(facts, row):
        return _stands(facts, row, about, chance)
    if not offer:
        raise NoQuestion(f"“{about}”: no switch decides while it is plugged; ask it as verdict:{about}")
    switch = offer["switch"]
    harm, number = because(row)
    choices = (
        Choice("off-on", "Off while you plug; on after a moment"),
        Choice("on", "On before you plug, and on it stays", f"{harm} That is while plugging."),
        Choice("either", "Either: it makes no difference", f"It does: {harm}"),
    )
    grade, note = facts.grade(row, *row["findings"])
    return Question(
        "switch",
        about,
        f"It should end up with {switch} on. How do you set the switch?",
        ("off-on",),
        f"{row['offer']} Plugged with it on: {harm}",
        check(row),
        level(facts, "switch", (row["from"], row["into"])),
        grade,
        choices=tuple(choices[i] for i in chance.sample(range(3), 3)),
        given=facts.given(row),
        number=number,
        pictures=facts.pictures(row),
        shown=facts.pictures(row),
        note=note,
    )


KINDS = (
    Kind("lead", "Which lead would you take", _draw_lead, _lead),
    Kind("input", "Which input may it go into", _draw_input, _input),
    Kind("switch", "Set the switch so that nothing is harmed", _draw_switch, _switch),
)
