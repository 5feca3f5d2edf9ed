"""The Chromium that tests drive: Debian's build without windows where the machine has it (the same engine,
and much quicker to drive), else the whole browser."""

from __future__ import annotations

import shutil

from playwright.sync_api import Browser, Playwright


def found() -> str | None:
    """The program's path, or None where there is none."""
    return shutil.which("chromium-headless-shell") or shutil.which("chromium")


def launched(playwright: Playwright) -> Browser:
    return playwright.chromium.launch(executable_path=found(), args=["--no-sandbox"])
