"""What may be wrong with the faults that lint finds in a spoilt file."""

from __future__ import annotations

import re

import yaml

from generator.catalogue.problems import Problem
from generator.catalogue.rules import RULES

from .held import BYSTANDER, Mutant

LONGEST_ECHO, LONGEST_MESSAGE = 200, 4100
TOLD = f"{BYSTANDER}:4:11: error[bad-evidence]"


def complaints(mutant: Mutant, found: list[Problem]) -> list[str]:
    """What is wrong with the faults themselves."""
    wrong = []
    if not any(str(fault).startswith(TOLD) for fault in found):
        wrong.append("the other file's fault is not told")
    lines = len(re.findall(r"\r\n|[\n\r\x85\u2028\u2029]", mutant.content.decode("utf-8", "replace"))) + 1
    more = LONGEST_ECHO + len("...") + 1
    long = [
        one[:more]
        for one in (" ".join(text.split()) for text in _scalars(mutant.content))
        if len(one) >= more
    ]
    for fault in found:
        if not re.fullmatch(r"(pinouts|own)(/[a-z0-9./-]+)?", fault.path) or fault.rule not in RULES:
            wrong.append(f"no file or no rule of ours: {fault.path!r} {fault.rule}")
        if fault.line < 1 or fault.column < 1 or fault.path == mutant.name and fault.line > lines + 1:
            wrong.append(f"there is no line {fault.line} in the file: {fault}"[:300])
        if not fault.message or len(fault.message) > LONGEST_MESSAGE or not fault.message.isprintable():
            wrong.append(f"not one plain line: {fault.message[:300]!r}")
        plain = " ".join(fault.message.split())
        if any(one in plain for one in long):
            wrong.append(f"a value is echoed at length: {fault.message[:300]!r}")
    return wrong


def _scalars(content: bytes) -> set[str]:
    """Every long text in the file, as far as it can be parsed."""
    found = set()
    try:
        for event in yaml.parse(
            content.decode("utf-8-sig"), Loader=getattr(yaml, "CBaseLoader", yaml.BaseLoader)
        ):
            if isinstance(event, yaml.ScalarEvent) and len(event.value) > LONGEST_ECHO:
                found.add(event.value)
    except (yaml.YAMLError, UnicodeDecodeError):
        pass
    return found
