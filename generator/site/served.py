"""Reads a served address as a phone would, and says whether what stands there is whole, which version it is,
and whether the host sends it rightly."""

from __future__ import annotations

import gzip
import json
import re
import urllib.error
import urllib.request
from collections.abc import Callable
from dataclasses import dataclass, field

from generator.site import offline
from generator.site.edition import WITHDRAWN

PATIENCE = 30  # seconds for one file
TYPES = {  # path: what its Content-Type has to begin with, so that a browser runs or shows it
    "check/": ("text/html",),
    "sw.js": ("text/javascript", "application/javascript"),
    "assets/js/data.js": ("text/javascript", "application/javascript"),
    "assets/css/site.css": ("text/css",),
    "assets/favicon.svg": ("image/svg+xml",),
    WITHDRAWN: ("application/json",),
}
# what tells of a newer version may not be held back on the way
FRESH = ("sw.js", offline.LIST, WITHDRAWN, "check/")
LONG = 600  # seconds a copy of those may be used unasked
PRESSED = ("assets/js/data.js", "assets/js/engine.js", "assets/css/site.css", "check/")


@dataclass
class Report:
    """`faults`: what has to be put right; `advice`: what would be better. Both are sentences."""

    address: str
    version: str = ""
    edition: str = ""
    files: int = 0
    faults: list[str] = field(default_factory=list)
    advice: list[str] = field(default_factory=list)


@dataclass(frozen=True)
class Answer:
    status: int
    headers: dict[str, str]  # names in small letters
    body: bytes


def look(address: str, get: Callable[[str], Answer] | None = None) -> Report:
    """Everything there is to say about the site at an address that ends in a slash. Raises OSError
    where nothing answers."""
    report, get = Report(address), get or _get
    answers: dict[str, Answer] = {}

    def at(path: str) -> Answer:
        if path not in answers:
            answers[path] = get(address + path)
        return answers[path]

    listed = _list(at(offline.LIST), report)
    if listed:
        report.version, report.files = listed["version"], 0
        for path, digest in {**listed["files"], **listed["pack"], **listed["pages"]}.items():
            _held(path, digest, at(path), report)
    _edition(at("check/"), report)
    _withdrawn(at(WITHDRAWN), report)
    for path, kinds in TYPES.items():
        kind = at(path).headers.get("content-type", "")
        if at(path).status == 200 and not kind.startswith(kinds):
            report.faults.append(f"{path} is sent as '{kind or 'nothing'}'; a browser wants {kinds[0]}.")
    _caching(at, report)
    for path in PRESSED:
        if at(path).status == 200 and at(path).headers.get("content-encoding", "") not in (
            "gzip",
            "br",
            "zstd",
            "deflate",
        ):
            report.advice.append(
                f"{path} is sent unpressed ({len(at(path).body) / 1000:.0f} kB); let the host compress text."
            )
    if not address.startswith("https://") and not re.match(
        r"http://(localhost|127\.0\.0\.1|\[::1\])[:/]", address
    ):
        report.faults.append("without https no browser keeps the site for use without a network.")
    return report


def _list(answer: Answer, report: Report) -> dict | None:
    if answer.status != 200:
        report.faults.append(
            f"{offline.LIST} is answered with {answer.status}: there is no site here, or none that phones "
            "can keep."
        )
        return None
    try:
        listed = offline.read(answer.body.decode("utf-8"))
        return listed if {"version", "files", "pack", "pages"} <= set(listed) else _cut(report)
    except (ValueError, TypeError):
        return _cut(report)


def _cut(report: Report) -> None:
    report.faults.append(f"{offline.LIST} is not whole: publish again.")


def _held(path: str, digest: str, answer: Answer, report: Report) -> None:
    report.files += 1
    if answer.status != 200:
        report.faults.append(f"{path} is answered with {answer.status}: publish again.")
    elif offline.digest(answer.body) != digest:
        report.faults.append(
            f"{path} is not the file of version {report.version}: the host has half of one version, or "
            "changes what it sends."
        )


def _edition(answer: Answer, report: Report) -> None:
    found = re.search(rb'<meta name="edition" content="([0-9a-f]+)"', answer.body)
    report.edition = found[1].decode() if found else ""


def _withdrawn(answer: Answer, report: Report) -> None:
    try:
        gone = json.loads(answer.body)["withdrawn"] if answer.status == 200 else None
        if report.edition and report.edition in gone:
            report.faults.append(f"this edition is withdrawn: {gone[report.edition]}")
    except (ValueError, KeyError, TypeError):
        report.faults.append(
            f"{WITHDRAWN} cannot be read (status {answer.status}): phones would not hear of a withdrawn "
            "version."
        )


def _caching(at: Callable[[str], Answer], report: Report) -> None:
    for path in FRESH:
        said = at(path).headers.get("cache-control", "").lower()
        age = re.search(r"max-age=(\d+)", said)
        if "immutable" in said or (
            age and int(age[1]) > LONG and "no-cache" not in said and "no-store" not in said
        ):
            report.faults.append(f"{path} may be used from a copy for too long ('{said}'); send 'no-cache'.")
        elif at(path).status == 200 and not said:
            report.advice.append(
                f"{path} comes without Cache-Control; send 'no-cache', so that a new version is seen at once."
            )


def _get(url: str) -> Answer:
    asked = urllib.request.Request(url, headers={"Accept-Encoding": "gzip", "Cache-Control": "no-cache"})
    try:
        with urllib.request.urlopen(asked, timeout=PATIENCE) as answer:
            return _answer(answer.status, answer.headers, answer.read())
    except urllib.error.HTTPError as refused:
        return _answer(refused.code, refused.headers, refused.read())


def _answer(status: int, headers, body: bytes) -> Answer:
    names = {name.lower(): value for name, value in headers.items()}
    return Answer(status, names, gzip.decompress(body) if names.get("content-encoding") == "gzip" else body)


def told(report: Report) -> str:
    """The report for a terminal."""
    head = (
        f"{report.address}: version {report.version or 'unknown'}, edition {report.edition or 'unknown'}, "
        f"{report.files} files compared"
    )
    lines = [
        head,
        *(f"  fault: {words}" for words in report.faults),
        *(f"  advice: {words}" for words in report.advice),
    ]
    return "\n".join(
        [
            *lines,
            "  Not whole: phones keep what they have."
            if report.faults
            else "  Whole: every phone that visits gets this version.",
        ]
    )
