"""What is packed: archives, manifests and exports, by the rules of their standards."""

import math
import os
import re
import shutil
import zipfile
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from bs4 import BeautifulSoup

from beadwright.cli import main
from beadwright.course import load_course
from beadwright.pack import PackError, build_export, inline_page, open_site, pack_course
from beadwright.render import load_words
from tests.pack.conftest import Made
from tests.support import ROOT

# The names of imscp_rootv1p1p2.xsd and adlcp_rootv1p2.xsd.
IMSCP = "{http://www.imsproject.org/xsd/imscp_rootv1p1p2}"
ADLCP = "{http://www.adlnet.org/xsd/adlcp_rootv1p2}"
QTI = "{http://www.imsglobal.org/xsd/imsqtiasi_v3p0}"
QTI_CP = "{http://www.imsglobal.org/xsd/qti/qtiv3p0/imscp_v1p1}"
NCNAME = re.compile(r"[A-Za-z_][\w.-]*")


def read_manifest(path: Path) -> tuple[ET.Element, list[str]]:
    with zipfile.ZipFile(path) as archive:
        assert archive.testzip() is None
        return ET.fromstring(archive.read("imsmanifest.xml")), archive.namelist()


def names(element: ET.Element) -> list[str]:
    return [child.tag for child in element]


def test_a_scorm_manifest_follows_its_schema(packed: Made) -> None:
    paths = sorted((packed.out / "scorm").glob("*.zip"))
    assert len(paths) == 1 + len(packed.lessons)
    for path in paths:
        manifest, files = read_manifest(path)
        assert manifest.tag == f"{IMSCP}manifest"
        assert names(manifest) == [f"{IMSCP}{name}" for name in ("metadata", "organizations", "resources")]
        metadata, organizations, resources = manifest
        assert [(child.tag, child.text) for child in metadata] == [
            (f"{IMSCP}schema", "ADL SCORM"),
            (f"{IMSCP}schemaversion", "1.2"),
        ]
        (organization,) = organizations
        assert organizations.get("default") == organization.get("identifier")
        title, *items = organization
        assert title.tag == f"{IMSCP}title"
        assert title.text
        assert len(title.text) <= 200
        ids = [element.get("identifier") for element in manifest.iter() if element.get("identifier")]
        assert len(ids) == len(set(ids))
        assert all(NCNAME.fullmatch(identifier or "") for identifier in ids)
        held = {}
        for resource in resources:
            assert resource.get("type") == "webcontent"
            assert resource.get(f"{ADLCP}scormtype") == "sco"  # with a small t, as SCORM 1.2 has it
            assert [child.get("href") for child in resource] == [resource.get("href")]
            assert names(resource) == [f"{IMSCP}file"]
            held[resource.get("identifier")] = resource.get("href")
        assert [item.get("identifierref") for item in items] == list(held)
        assert [names(item) for item in items] == [[f"{IMSCP}title"]] * len(items)
        assert sorted(files) == sorted([*map(str, held.values()), "imsmanifest.xml"])


def test_one_package_holds_the_course_and_one_each_lesson(packed: Made) -> None:
    whole, _ = read_manifest(packed.out / "scorm" / f"{packed.course.id}-scorm.zip")
    titles = [title.text for title in whole.iter(f"{IMSCP}title")]
    assert titles == [packed.course.title, *(lesson.title for lesson in packed.lessons)]
    assert packed.course.title == "Beads & <Bars>"
    for lesson in packed.lessons:
        alone, _ = read_manifest(packed.out / "scorm" / f"lesson-{lesson.id}-scorm.zip")
        assert [title.text for title in alone.iter(f"{IMSCP}title")] == [lesson.title, lesson.title]


def test_the_zip_holds_the_folder_and_is_always_the_same(packed: Made, tmp_path: Path) -> None:
    name = packed.course.id
    with zipfile.ZipFile(packed.out / f"{name}.zip") as archive:
        held = {info.filename: archive.read(info) for info in archive.infolist()}
    folder = packed.out / name
    on_disk = {f"{name}/{p.relative_to(folder).as_posix()}": p.read_bytes() for p in folder.rglob("*") if p.is_file()}
    assert held == on_disk
    assert f"{name}/start-here.html" in held
    pack_course(
        packed.site, packed.course, packed.lessons, load_words("en"), tmp_path / "again", sources=packed.sources
    )
    for path in packed.out.rglob("*.zip"):
        assert path.read_bytes() == (tmp_path / "again" / path.relative_to(packed.out)).read_bytes(), path.name


def test_every_address_on_the_start_page_leads_to_a_file(packed: Made) -> None:
    folder = packed.out / packed.course.id
    soup = BeautifulSoup((folder / "start-here.html").read_text(encoding="utf-8"), "html.parser")
    addresses = [str(link["href"]) for link in soup.find_all("a")]
    assert len(addresses) == 2 + len(packed.lessons)
    assert [address for address in addresses if not (folder / address).is_file()] == []


def test_a_single_file_asks_for_nothing(packed: Made) -> None:
    pages = sorted((packed.out / packed.course.id / "single").rglob("*.html"))
    assert {page.name for page in pages} >= {"index.html", "record.html", *(f"{x.id}.html" for x in packed.lessons)}
    for page in pages:
        soup = BeautifulSoup(page.read_text(encoding="utf-8"), "html.parser")
        loaded = [tag for tag in soup.find_all(["script", "img", "audio", "source", "iframe"]) if tag.get("src")]
        assert [tag["src"] for tag in loaded if not str(tag["src"]).startswith("data:")] == []
        assert soup.find_all("link", rel="stylesheet") == []
        styles = " ".join(style.get_text() for style in soup.find_all("style"))
        assert [url for url in re.findall(r"url\(([^)]*)\)", styles) if not url.startswith('"data:')] == []


def test_a_page_that_asks_for_what_is_not_there_is_told(packed: Made, tmp_path: Path) -> None:
    site = open_site(packed.site)
    page = packed.site / "modules" / "broken.html"
    try:
        page.write_text('<body><img alt="" src="gone.svg"></body>', encoding="utf-8")
        with pytest.raises(PackError, match="gone"):
            inline_page(site, page)
        page.write_text('<body><img alt="" src="../../../../../../etc/passwd"></body>', encoding="utf-8")
        with pytest.raises(PackError, match="passwd"):
            inline_page(site, page)
    finally:
        page.unlink()


def test_nothing_is_written_over_and_nothing_half(packed: Made, tmp_path: Path) -> None:
    words = load_words("en")
    (tmp_path / "full").mkdir()
    (tmp_path / "full" / "mine.txt").write_text("mine")
    with pytest.raises(PackError, match="already"):
        pack_course(packed.site, packed.course, packed.lessons, words, tmp_path / "full", sources=packed.sources)
    other = load_course(ROOT / "content")
    assert other.course is not None
    with pytest.raises(PackError, match="another course"):
        pack_course(packed.site, other.course, other.lessons, words, tmp_path / "other", sources=other.digest)
    with pytest.raises(PackError, match="mkdocs build"):
        pack_course(tmp_path, packed.course, packed.lessons, words, tmp_path / "none", sources=packed.sources)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["full"]


@pytest.mark.parametrize(
    ("name", "old", "new"),
    [
        ("course.yml", "title:", "title: Other"),
        ("course.yml", "edition:", "edition: x"),
        ("course.yml", "id: ", "id: other-"),
        ("modules/01-set-and-read.lesson.yml", "482", "483"),
        ("modules/01-set-and-read.lesson.yml", "minutes: 30", "minutes: 31"),
    ],
)
def test_a_site_of_other_sources_is_not_packed(
    packed: Made, tmp_path: Path, capsys: pytest.CaptureFixture[str], name: str, old: str, new: str
) -> None:
    shutil.copytree(packed.folder / "content", tmp_path / "copied")
    command = ["pack", str(packed.site), "--course", str(tmp_path / "copied"), "--out"]
    assert main([*command, str(tmp_path / "same")]) == 0  # wherever it lies
    path = tmp_path / "copied" / name
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    capsys.readouterr()
    assert main([*command, str(tmp_path / "changed")]) == 1
    assert "changed since. Build it first with: mkdocs build" in capsys.readouterr().err
    assert not (tmp_path / "changed").exists()


def test_choices_and_numbers_are_exported_and_the_rest_is_listed() -> None:
    loaded = load_course(ROOT / "content")
    assert loaded.course is not None
    export = build_export(loaded.course, loaded.lessons, load_words("en"))
    manifest = ET.fromstring(export.files["imsmanifest.xml"])
    assert [child.text for child in manifest[0]] == ["QTI Package", "3.0.1"]
    listed = [resource.get("href") for resource in manifest.iter(f"{QTI_CP}resource")]
    assert sorted(map(str, listed)) == sorted(set(export.files) - {"imsmanifest.xml"})
    assert {resource.get("type") for resource in manifest.iter(f"{QTI_CP}resource")} == {"imsqti_item_xmlv3p0"}
    assert len(listed) == export.items > 0
    assert len(export.unmapped) > 0
    for name in map(str, listed):
        check_item(ET.fromstring(export.files[name]))


def check_item(item: ET.Element) -> None:
    """An item as the beginner's examples of QTI 3.0 have it: declarations, body, processing, a key that can be met."""
    assert item.tag == f"{QTI}qti-assessment-item"
    assert {"identifier", "title", "time-dependent"} <= set(item.attrib)
    parts = ("response-declaration", "outcome-declaration", "item-body", "response-processing")
    assert names(item) == [f"{QTI}qti-{part}" for part in parts]
    declared, _, body, processing = item
    assert str(processing.get("template")).endswith("/v3p0/rptemplates/match_correct")
    key = [str(value.text) for value in declared.iter(f"{QTI}qti-value")]
    choices = [choice.get("identifier") for choice in body.iter(f"{QTI}qti-simple-choice")]
    if choices:
        assert set(key) < set(choices)
        assert (declared.get("cardinality") == "multiple") is (len(key) > 1)
        (asked,) = body.iter(f"{QTI}qti-choice-interaction")
    else:
        (asked,) = body.iter(f"{QTI}qti-text-entry-interaction")
        assert declared.get("base-type") == "integer"
        problem = str(next(body.iter(f"{QTI}p")).text).removesuffix(" = ")
        assert eval_plain(problem) == int(key[0])
    assert asked.get("response-identifier") == declared.get("identifier") == "RESPONSE"


def eval_plain(problem: str) -> int:
    """What Python makes of a problem, not we."""
    text = problem.replace("−", "-").replace("×", "*").replace("÷", "/").replace(",", "")
    if text.startswith("√"):
        return math.isqrt(int(text.removeprefix("√")))
    assert re.fullmatch(r"[\d+*/ .-]+", text), problem
    value = eval(text)
    assert value == int(value)
    return int(value)


def test_links_and_pipes_in_a_site_are_not_handed_on(packed: Made, tmp_path: Path) -> None:
    site = tmp_path / "site"
    shutil.copytree(packed.site, site)
    (tmp_path / "secret.html").write_text("secret", encoding="utf-8")
    (site / "link.html").symlink_to(tmp_path / "secret.html")
    (site / "folder").symlink_to(tmp_path)
    (site / "nowhere").symlink_to(tmp_path / "gone")
    os.mkfifo(site / "pipe")
    pack_course(site, packed.course, packed.lessons, load_words("en"), tmp_path / "out", sources=packed.sources)
    made = {path.relative_to(tmp_path / "out").as_posix() for path in (tmp_path / "out").rglob("*")}
    assert made == {path.relative_to(packed.out).as_posix() for path in packed.out.rglob("*")}
