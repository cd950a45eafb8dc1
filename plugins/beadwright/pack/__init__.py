"""A built site -> editions to hand on: for a USB stick, as single files, as SCORM 1.2 and QTI 3.0 packages."""

from beadwright.pack.editions import START, WHOLE, Packed, pack_course
from beadwright.pack.pages import PackError, inline_page, open_site
from beadwright.pack.qti import Export, build_export
from beadwright.pack.scorm import Sco, build_manifest, build_package

__all__ = [
    "START",
    "WHOLE",
    "Export",
    "PackError",
    "Packed",
    "Sco",
    "build_export",
    "build_manifest",
    "build_package",
    "inline_page",
    "open_site",
    "pack_course",
]
