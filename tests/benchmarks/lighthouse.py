"""Lighthouse, mobile, on one page of each kind, the site served with gzip from this machine.

    npm install --prefix /some/folder lighthouse
    python tests/benchmarks/lighthouse.py build/site /some/folder/node_modules/.bin/lighthouse [PAGE...]
    PYTHONPATH=. python tests/benchmarks/lighthouse.py build/site LIGHTHOUSE --kinds      every kind of page, all scores but that of speed

Any other flag is Lighthouse's own: --throttling.cpuSlowdownMultiplier=6.

Prints the scores of speed of five loads of each page and, of the load that is the median, the four scores and
every audit that took points: scores of speed swing from load to load, and Lighthouse's own manual says to
take the median of five. Run it alone.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

from serving import serving

PAGES = ("check/", "connectors/xlr-3/", "leads/xlr-f-to-xlr-m-3m/", "matrix/", "guides/powering/")
LOADS = 5
FLAGS = (
    "--headless=new --no-sandbox --disable-gpu --disable-background-networking --disable-component-update "
    "--disable-sync"
)


# what a busy machine cannot spoil
UNHURRIED = ("--only-categories=accessibility,best-practices,seo", "--throttling-method=provided")


def report(lighthouse: str, address: str, *how: str) -> dict:
    """Lighthouse's report of a page as JSON; mobile and slowed down, as it is by default."""
    command = [
        lighthouse,
        address,
        "--quiet",
        "--output=json",
        "--output-path=stdout",
        f"--chrome-flags={FLAGS}",
        *how,
    ]
    environment = {"CHROME_PATH": shutil.which("chromium") or "", **os.environ}
    return json.loads(
        subprocess.run(command, capture_output=True, text=True, check=True, env=environment).stdout
    )


def speed(told: dict) -> float:
    return (told["categories"]["performance"]["score"] or 0) * 100


def kinds() -> list[str]:
    """The address of a page of every kind, and of every state that the tests walk."""
    sys.path.append(str(Path(__file__).parents[1] / "browser"))
    from kinds import FRAMES, KINDS, page_of

    from generator.catalogue import load

    catalogue = load(Path("pinouts"))
    return list(dict.fromkeys(page_of(kind, catalogue) for kind in (*KINDS, *FRAMES)))


def tell(page: str, told: dict, more: str = "") -> None:
    """The scores of a load, and what took points."""
    scores = {name: round((kind["score"] or 0) * 100) for name, kind in told["categories"].items()}
    print(
        page or "the front page",
        *(f"{name} {score}" for name, score in scores.items()),
        more,
        sep="  ",
        flush=True,
    )
    weights = {
        each["id"]: each["weight"] for kind in told["categories"].values() for each in kind["auditRefs"]
    }
    for audit in told["audits"].values():
        if weights.get(audit["id"]) and audit["score"] is not None and audit["score"] < 1:
            print(f"    {audit['id']}: {audit['score']:.2f} {audit.get('displayValue', '')}", flush=True)


def main() -> None:
    site, lighthouse, *more = sys.argv[1:]
    pages, flags = ([one for one in more if one.startswith("--") == flag] for flag in (False, True))
    with serving(Path(site)) as base:
        if flags == ["--kinds"]:
            for page in kinds():
                tell(page, report(lighthouse, base + page, *UNHURRIED))
            return
        for page in pages or PAGES:
            loads = sorted((report(lighthouse, base + page, *flags) for _ in range(LOADS)), key=speed)
            tell(
                page, loads[LOADS // 2], f"(performance {', '.join(f'{speed(each):.0f}' for each in loads)})"
            )


if __name__ == "__main__":
    main()
