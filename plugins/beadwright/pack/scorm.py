"""SCORM 1.2 packages: one lesson a SCO, each a single file that reports status, score, time and suspend data.

The order of elements and the words of attributes are those of imscp_rootv1p1p2.xsd and adlcp_rootv1p2.xsd. No mastery
score is given: with one, a host may put its own verdict in place of the lesson's.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from xml.etree import ElementTree as ET

from beadwright.pack.archive import write_xml

IMSCP = "http://www.imsproject.org/xsd/imscp_rootv1p1p2"
ADLCP = "http://www.adlnet.org/xsd/adlcp_rootv1p2"
MANIFEST = "imsmanifest.xml"
LONGEST_TITLE = 200


@dataclass(frozen=True, slots=True)
class Sco:
    """A lesson in a package: its id, its title, and its whole page."""

    id: str
    title: str
    page: str

    @property
    def file(self) -> str:
        """The page's name in the package."""
        return f"{self.id}.html"


def build_package(course: str, title: str, lessons: Sequence[Sco]) -> dict[str, bytes]:
    """The files of a package: its manifest and the lessons' pages."""
    pages = {lesson.file: lesson.page.encode() for lesson in lessons}
    return {MANIFEST: build_manifest(course, title, lessons), **pages}


def build_manifest(course: str, title: str, lessons: Sequence[Sco]) -> bytes:
    """The manifest: metadata, one organization with an item a lesson, one SCO resource a lesson."""
    for prefix, uri in (("", IMSCP), ("adlcp", ADLCP)):
        ET.register_namespace(prefix, uri)
    manifest = ET.Element(f"{{{IMSCP}}}manifest", {"identifier": f"MANIFEST-{course}", "version": "1.1"})
    metadata = _add(manifest, "metadata")
    _add(metadata, "schema").text = "ADL SCORM"
    _add(metadata, "schemaversion").text = "1.2"
    organizations = _add(manifest, "organizations", default=f"COURSE-{course}")
    organization = _add(organizations, "organization", identifier=f"COURSE-{course}")
    _add(organization, "title").text = title[:LONGEST_TITLE]
    resources = _add(manifest, "resources")
    for lesson in lessons:
        resource = f"RESOURCE-{lesson.id}"
        item = _add(organization, "item", identifier=f"LESSON-{lesson.id}", identifierref=resource, isvisible="true")
        _add(item, "title").text = lesson.title[:LONGEST_TITLE]
        entry = _add(resources, "resource", identifier=resource, type="webcontent", href=lesson.file)
        entry.set(f"{{{ADLCP}}}scormtype", "sco")
        _add(entry, "file", href=lesson.file)
    ET.indent(manifest)
    return write_xml(manifest)


def _add(parent: ET.Element, name: str, **attributes: str) -> ET.Element:
    return ET.SubElement(parent, f"{{{IMSCP}}}{name}", attributes)
