"""What is done to a built site after mkdocs, or after whatever else built it: every page gets
its policy, styles lose what no page uses, and the offline pack is written of what is left. Done
twice it changes nothing."""

from __future__ import annotations

from pathlib import Path

from generator.site import offline, policy, trim


def finish(site: Path) -> None:
    """Finish the site in a folder. Raises ValueError for a page that cannot be guarded."""
    for path in sorted(site.rglob("*.html")):
        html = path.read_text(encoding="utf-8")
        if policy.NAME not in html:  # frames bring their own
            path.write_text(_guarded(html, path.relative_to(site)), encoding="utf-8")
    trim.write(site)
    offline.write(site)


def _guarded(html: str, path: Path) -> str:
    try:
        return policy.guarded(policy.tight(html))
    except ValueError as fault:
        raise ValueError(f"{path}: {fault}") from None
