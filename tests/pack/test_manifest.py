"""SCORM 1.2 manifests by a schema of the rules that imscp_rootv1p1p2.xsd and adlcp_rootv1p2.xsd set.

The schema beside this file is ours, written from those rules; that it sees what it should is tested too.
libxml2 does not look for what an IDREF names; `test_packages` does.
"""

import re
import zipfile
from functools import cache
from pathlib import Path

import pytest
from lxml import etree

from tests.pack.conftest import Made

RULES = Path(__file__).with_name("scorm-1.2.xsd")


@cache
def load_rules() -> etree.XMLSchema:
    return etree.XMLSchema(etree.parse(RULES))


def read_manifests(packed: Made) -> dict[str, bytes]:
    found = {}
    for path in sorted((packed.out / "scorm").glob("*.zip")):
        with zipfile.ZipFile(path) as archive:
            found[path.name] = archive.read("imsmanifest.xml")
    return found


def test_every_manifest_keeps_the_rules(packed: Made) -> None:
    manifests = read_manifests(packed)
    assert len(manifests) == 1 + len(packed.lessons)
    for name, data in manifests.items():
        assert load_rules().validate(etree.fromstring(data).getroottree()), f"{name}: {load_rules().error_log}"


# What the rules must refuse: a change of a sound manifest, and a word of what the check then says.
FAULTS = [
    (r' identifier="MANIFEST-[^"]*"', "", "identifier"),
    (r"(?s)<organizations.*</organizations>", "", "organizations"),
    (r"(?s)(<organizations.*</organizations>)\s*(<resources>.*</resources>)", r"\2\1", "resources"),
    (r"<schemaversion>1.2", "<schemaversion>1.3", "schemaversion"),
    (r'identifier="RESOURCE-', 'identifier="1 RESOURCE-', "ID"),
    (r"<title>[^<]*", f"<title>{'t' * 201}", "maxLength"),
    (r'type="webcontent"', "", "type"),
    (r"scormtype", "scormType", "scormType"),
    (r'scormtype="sco"', 'scormtype="SCO"', "enumeration"),
    (r'<file href="[^"]*"', "<file", "href"),
]


@pytest.mark.parametrize(("pattern", "instead", "said"), FAULTS, ids=[fault[0][:24] for fault in FAULTS])
def test_the_rules_see_a_fault(packed: Made, pattern: str, instead: str, said: str) -> None:
    text = next(iter(read_manifests(packed).values())).decode()
    spoilt, count = re.subn(pattern, instead, text, count=1)
    assert count == 1
    tree = etree.fromstring(spoilt.encode()).getroottree()
    assert not load_rules().validate(tree)
    assert said in str(load_rules().error_log)
