"""The tables beside this file, every scalar as text: what is everyday, what findings mean, what is mixed up,
in which order one plugs."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

import yaml


@cache
def table(name: str) -> Any:
    """A table by the name of its file. FileNotFoundError for one that is not there."""
    text = Path(__file__).with_name(f"{name}.yaml").read_text(encoding="utf-8")
    return yaml.load(text, Loader=yaml.BaseLoader)
