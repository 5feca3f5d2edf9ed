"""The picture in the README: the check on a phone with a dangerous answer.

Run as `python -m tests.browser.picture` after `python -m generator docs && mkdocs build`; writes
site_src/readme-check.png.
"""

from __future__ import annotations

import io
import sys
from pathlib import Path

from PIL import Image
from playwright.sync_api import sync_playwright

from .answers import CHAINS, address
from .chromium import launched
from .served import served

ROOT = Path(__file__).resolve().parents[2]
PICTURE = ROOT / "site_src/readme-check.png"
MOST = 150_000  # bytes


def taken(folder: Path) -> bytes:
    """The picture as PNG, from a built site."""
    with served(folder) as site, sync_playwright() as playwright:
        browser = launched(playwright)
        page = browser.new_page(
            viewport={"width": 390, "height": 844},
            device_scale_factor=2,
            color_scheme="light",
            service_workers="block",
        )
        page.goto(site.base + address(*CHAINS["dangerous"]))
        page.locator(".rf-banner[data-verdict=dangerous]").wait_for()
        picture = page.screenshot()
        browser.close()
    return few_colours(picture)


def few_colours(picture: bytes) -> bytes:
    """The same picture with 128 colours: flat areas and type need no more, and it becomes a
    fraction of the size."""
    small = io.BytesIO()
    Image.open(io.BytesIO(picture)).convert("RGB").quantize(128).save(small, "PNG", optimize=True)
    return small.getvalue()


def main() -> int:
    folder = ROOT / "build/site"
    if not (folder / "check/index.html").is_file():
        print(f"{folder} is not there: run `python -m generator docs && mkdocs build` first", file=sys.stderr)
        return 1
    picture = taken(folder)
    if len(picture) > MOST:
        print(f"the picture has {len(picture)} bytes, more than {MOST}", file=sys.stderr)
        return 1
    PICTURE.write_bytes(picture)
    return 0


if __name__ == "__main__":
    sys.exit(main())
