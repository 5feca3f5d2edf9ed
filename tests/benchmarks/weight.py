"""What a visit costs: bytes transferred by the first load of a page, and bytes kept for offline use.

    python tests/benchmarks/weight.py build/site
    python tests/benchmarks/weight.py build/site check/ matrix/

The first load is measured in Chromium with an empty store: everything the page asks for until nothing more
comes, gzip -9, headers left out. The service worker is kept away: it loads the whole site after the page is
done, which is the second figure.
"""

from __future__ import annotations

import gzip
import json
import re
import shutil
import sys
from pathlib import Path

from playwright.sync_api import sync_playwright
from serving import TEXT, serving

PAGES = (
    "check/",
    "matrix/",
    "connectors/xlr-3/",
    "leads/xlr-f-to-xlr-m-3m/",
    "guides/powering/",
    "bench/",
    "recognise/",
)


def first_load(browser, base: str, address: str, site: Path) -> dict[str, int]:
    """Path -> bytes transferred, in the order of asking."""
    page = browser.new_context(viewport={"width": 390, "height": 844}, service_workers="block").new_page()
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url.split("#")[0].removeprefix(base)))
    page.goto(base + address)
    page.wait_for_load_state("networkidle")
    page.context.close()
    return {path: transferred(site, path) for path in dict.fromkeys(asked) if not path.startswith("data:")}


def transferred(site: Path, path: str) -> int:
    file = site / path / "index.html" if path.endswith("/") or not path else site / path
    content = file.read_bytes()
    return len(gzip.compress(content, 9)) if file.suffix in TEXT else len(content)


def kept(site: Path) -> tuple[int, int]:
    """Bytes in the store of the service worker, and bytes sent for them with gzip."""
    found = json.loads(re.search(r"= (.*);", (site / "offline-list.js").read_text(), re.DOTALL)[1])
    listed = [*found["files"], *found["pack"]]
    return sum((site / path).stat().st_size for path in listed), sum(
        transferred(site, path) for path in listed
    )


def main() -> None:
    site, *pages = sys.argv[1:]
    site = Path(site)
    with serving(site) as base, sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=["--no-sandbox"])
        for address in pages or PAGES:
            loads = first_load(browser, base, address, site)
            print(f"{sum(loads.values()) / 1000:8.1f} kB  first load of {address}, {len(loads)} requests")
            for path, size in loads.items() if address == (pages or PAGES)[0] else ():
                print(f"{size / 1000:12.1f}  {path or 'front page'}")
        browser.close()
    stored, sent = kept(site)
    print(f"{stored / 1e6:8.2f} MB  kept for offline use, {sent / 1e6:.2f} MB transferred")


if __name__ == "__main__":
    main()
