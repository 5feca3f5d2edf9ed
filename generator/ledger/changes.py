"""What changed between two ledgers: pairings that came, went, or end differently."""

from __future__ import annotations

from collections.abc import Mapping

from .lines import NONE, rows

Key = tuple[str, str, str]  # outlet, lead, inlet


def changelog(before: Mapping[str, str], after: Mapping[str, str]) -> str:
    """Markdown with one line per changed verdict, worst news first, then counts of what came and went."""
    old, new = _verdicts(before), _verdicts(after)
    changed = [(key, old[key], new[key]) for key in sorted(old.keys() & new.keys()) if old[key] != new[key]]
    lines = [
        f"- {outlet} through {lead} into {inlet}: {was} -> {now}"
        for (outlet, lead, inlet), was, now in sorted(changed, key=_news)
    ]
    lines += [
        f"- {count} pairings {what}"
        for what, count in (
            ("added", len(new.keys() - old.keys())),
            ("removed", len(old.keys() - new.keys())),
        )
        if count
    ]
    return "\n".join(lines) + "\n" if lines else "No verdict changed.\n"


def _news(change: tuple[Key, str, str]) -> tuple:
    order = ("dangerous", "no signal", "lossy", "safe")
    return order.index(change[2]), order.index(change[1]), change[0]


def _verdicts(files: Mapping[str, str]) -> dict[Key, str]:
    """What can be read of them: a line that is none says nothing of what a verdict was."""
    return {
        (row["from"], "+".join(row["through"]) or NONE, row["into"]): row["verdict"]
        for row in rows(files, skip=True)
    }
