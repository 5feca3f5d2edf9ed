"""Faults put into the engine on purpose, to see whether the tests notice."""

import re

LOOSE = ((r"(?:\\\s)+", r"\\s+?"), (r"(\\[(\[{])", r"\1\\s*?"), (r"(\\[)\]}])", r",?\\s*?\1"))


def spoilt(whole: str, mutant: dict) -> tuple[str, int]:
    """A file with the fault put in, and in how many places: of a module `text` is found however its
    statement is laid out."""
    pattern = re.escape(mutant["text"])
    if mutant["file"].endswith(".py"):
        for what, instead in LOOSE:
            pattern = re.sub(what, instead, pattern)
    return re.subn(pattern, lambda _: mutant["becomes"], whole)
