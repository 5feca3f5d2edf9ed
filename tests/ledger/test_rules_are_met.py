"""A rule is met in the ledger's own reckoning where the engine has it so."""

from importlib import import_module
from random import Random

import numpy as np
from rulebook_written import WRITTEN

from generator.engine.findings import UNRATED, findings_of
from generator.engine.readings import Reading
from generator.ledger import rules


def test_rules_are_met_as_the_engine_has_it():
    """The same rules for many numbers at once: every rule, at its limit, about it and far from it."""
    chance = Random(1)
    for quantity, about in rules.book().items():
        limits = (
            [float(rule["limit"]) for rule in about if rule["limit"] != "own"]
            + [rule["until"] for rule in about if rule["until"] is not None]
            + [1.0, -3.0, 0.0]
        )
        values = [
            limit * (1 + step) + more
            for limit in limits
            for step in (0, 1e-10, -1e-10, 3e-9, -3e-9, 0.04, -0.04, 1, -3)
            for more in (0.0, 1e-15)
        ]
        kinds = [dict(rule["only"]) for rule in about] + [{}, {"way": "back"}]
        for flags in kinds:
            for setting in (0, 1):
                own = [chance.choice(limits) for _ in values]
                met = rules._met(about, flags, bool(setting), np.array(values), np.array(own))
                for value, limit, told in zip(values, own, met.T):
                    reading = Reading(
                        quantity,
                        "into/part",
                        "part",
                        value,
                        "V",
                        "settled",
                        setting,
                        limit,
                        flags=flags,
                        words=WORDS,
                    )
                    found = [(finding.id, finding.limit) for finding in findings_of(reading, ("", ""), {})]
                    wanted = [
                        (
                            rule["id"],
                            None
                            if rule["id"] in UNRATED
                            else limit
                            if rule["limit"] == "own"
                            else float(rule["limit"]),
                        )
                        for rule, one in zip(about, told)
                        if one
                    ]
                    assert found == wanted, (quantity, value, limit, flags, setting)


class Any(dict):
    """A word for every name."""

    def items(self):
        return [(name, "it") for name in NAMES]


NAMES = {
    name
    for row in WRITTEN
    for field in ("says", "remedy", "mend")
    for name in import_module("re").findall(r"\{(\w+)\}", row.get(field, ""))
} - {"value", "limit", "loss"}
WORDS = Any()
