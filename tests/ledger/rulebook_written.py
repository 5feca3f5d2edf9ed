"""The rulebook as it is written, read before any test puts other rows in its place."""

import yaml

from generator.engine import rulebook

TEXT, LOAD = rulebook.PATH.read_text("utf-8"), yaml.safe_load
WRITTEN = LOAD(TEXT)
