"""Questions and lessons taken elsewhere: QTI 2.1, SCORM 1.2, CSV, a page to print."""

from . import page, qti, scorm, table

__all__ = ["page", "qti", "scorm", "table"]
