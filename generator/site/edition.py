"""The edition: one short name for everything a verdict on a page is made of, scripts,
data and templates alike.

Every script ends by telling its edition and every page carries its own, so that a page put together from two
versions (half a deploy, an old copy in a browser) knows it and judges nothing. A withdrawn edition is named
in a tiny file that every visit reads.
"""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Mapping
from pathlib import Path

import yaml

from generator.site.bundles import SCRIPTS

LENGTH = 8  # hexadecimal digits: as many as the digest of the data beside it
WITHDRAWN = "withdrawn.json"
_REASON = re.compile(r"[^\x00-\x1f\x7f-\x9f]{1,300}")


def edition(files: Mapping[str, bytes], source: Path) -> str:
    """The edition of a docs tree without its pages (path -> content), to be filled in from the templates and
    guides below `source`."""
    digest = hashlib.sha256()
    for path in sorted(files):
        digest.update(path.encode() + b"\0" + hashlib.sha256(files[path]).digest())
    for path in sorted(path for path in source.rglob("*.j2")):
        digest.update(path.name.encode() + b"\0" + hashlib.sha256(path.read_bytes()).digest())
    return digest.hexdigest()[:LENGTH]


def marked(files: Mapping[str, bytes], name: str) -> dict[str, bytes]:
    """The files with every script telling its edition as its last act."""

    def mark(path: str) -> bytes:
        bundle = path.removeprefix(SCRIPTS).removesuffix(".js")
        return f'Ringfence.editions = {{ ...Ringfence.editions, "{bundle}": "{name}" }};\n'.encode()

    return {
        path: content + mark(path) if path.startswith(SCRIPTS) and path.endswith(".js") else content
        for path, content in files.items()
    }


def withdrawn(source: Path) -> dict[str, str]:
    """The withdrawn editions and why, from `withdrawn.yaml`. Raises ValueError where
    an entry cannot be one."""
    file = source / "withdrawn.yaml"
    found = yaml.load(file.read_text(encoding="utf-8"), Loader=yaml.BaseLoader) or {}
    if not isinstance(found, dict):
        raise ValueError(f"{file.name}: write one `edition: reason` a line.")
    for name, why in found.items():
        if (
            not re.fullmatch(rf"[0-9a-f]{{{LENGTH}}}", name)
            or not isinstance(why, str)
            or not _REASON.fullmatch(why)
        ):
            raise ValueError(
                f"{file.name}: '{name}' needs {LENGTH} digits 0-9 a-f, and one sentence of at most 300 "
                "characters that says why."
            )
    return found


def files(source: Path, name: str) -> dict[str, bytes]:
    """The file that names the withdrawn editions. Raises ValueError where the edition
    now built is among them."""
    gone = withdrawn(source)
    if name in gone:
        raise ValueError(
            f"edition {name} is withdrawn ({gone[name]}); change what was wrong before you build it again."
        )
    return {WITHDRAWN: json.dumps({"withdrawn": gone}, ensure_ascii=False, sort_keys=True).encode() + b"\n"}
