"""Zip files whose bytes depend on what is in them alone."""

from __future__ import annotations

from collections.abc import Mapping
from io import BytesIO
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

DAY = (1980, 1, 1, 0, 0, 0)


def archive(files: Mapping[str, bytes]) -> bytes:
    """A zip of some files (path -> content), in their order: manifests come first by being named first."""
    out = BytesIO()
    with ZipFile(out, "w", ZIP_DEFLATED) as made:
        for path, content in files.items():
            member = ZipInfo(path, DAY)
            member.compress_type, member.external_attr = ZIP_DEFLATED, 0o644 << 16
            made.writestr(member, content)
    return out.getvalue()
