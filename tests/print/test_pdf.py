"""Large print, measured in the file itself: tags, title, language, the size and place of every run of text."""

from collections.abc import Iterator
from functools import cache
from io import BytesIO
from itertools import pairwise
from typing import Any

import pikepdf
import pytest
from pdfminer.high_level import extract_pages, extract_text
from pdfminer.layout import LTChar, LTContainer

from beadwright.course import load_course
from beadwright.engine import parse_problem
from beadwright.render import LessonLink, load_words
from beadwright.render.booklet import (
    Asked,
    Block,
    Booklet,
    FrameShown,
    Heading,
    Listing,
    Paragraph,
    Table,
    build_lesson,
    find_formulas,
)
from beadwright.render.print import PrintStyle, print_booklet
from tests.support import ROOT

WORDS = load_words("en")
PROBLEMS = ("48 + 37", "1.25 + 10 - 3.5", "345.7 × 2.77", "1196 ÷ 23", "1/2 + 3/4", "√1444")
MARGIN = 72
POINT = 0.01


@cache
def lesson() -> Booklet:
    loaded = load_course(ROOT / "content")
    assert loaded.course is not None
    links = [LessonLink(each, number, f"{each.id}.html") for number, each in enumerate(loaded.lessons, start=1)]
    link = next(link for link in links if link.lesson.id == "partner-of-10")
    whole = build_lesson(loaded.course, link, links, WORDS)
    # A table, worked examples, frames, items of several kinds, and the answers: all kinds of block, in fewer pages.
    return Booklet(whole.title, whole.language, (*whole.blocks[:70], *whole.blocks[-3:]))


def build_sheet(*, vertical: bool) -> Booklet:
    asked = [Asked(n, parse_problem(text), text, vertical) for n, text in enumerate(PROBLEMS, start=1)]
    return Booklet("Sheet 1", "en", (Heading(1, ("Sheet 1",)), *asked))


@cache
def printed(what: str, size: int = 18, paper: str = "us-letter") -> bytes:
    booklet = lesson() if what == "lesson" else build_sheet(vertical=what == "vertical")
    return print_booklet(booklet, WORDS, PrintStyle(size=size, paper=paper))  # type: ignore[arg-type]


@cache
def find_characters(pdf: bytes) -> list[tuple[int, tuple[float, float], LTChar]]:
    """Every character that is no space, with its page's number and size."""

    def walk(part: Any) -> Iterator[LTChar]:
        if isinstance(part, LTChar):
            yield part
        elif isinstance(part, LTContainer):
            for inner in part:
                yield from walk(inner)

    return [
        (number, (page.width, page.height), character)
        for number, page in enumerate(extract_pages(BytesIO(pdf)), start=1)
        for character in walk(page)
        if character.get_text().strip() != ""
    ]


def find_font_sizes(pdf: bytes) -> set[float]:
    """The sizes that text is set in, from the page's own operators: Tf, times the scale of the matrix in force."""
    sizes: set[float] = set()
    with pikepdf.open(BytesIO(pdf)) as document:
        for page in document.pages:
            scale, stack = 1.0, []
            for instruction in pikepdf.parse_content_stream(page):
                operator, operands = str(instruction.operator), instruction.operands
                if operator == "q":
                    stack.append(scale)
                elif operator == "Q":
                    scale = stack.pop()
                elif operator == "cm":
                    scale *= abs(float(operands[3]))
                elif operator == "Tf":
                    sizes.add(round(float(operands[1]) * scale, 2))
    return sizes


def find_tags(pdf: bytes) -> list[tuple[str, str]]:
    """The tags of the file's structure in reading order, each with its text for a picture."""
    found: list[tuple[str, str]] = []

    def walk(element: Any) -> None:
        if isinstance(element, pikepdf.Array):
            for inner in element:
                walk(inner)
        elif isinstance(element, pikepdf.Dictionary):
            if "/S" in element:
                found.append((str(element["/S"]), str(element.get("/Alt", ""))))
            if "/K" in element:
                walk(element["/K"])

    with pikepdf.open(BytesIO(pdf)) as document:
        walk(document.Root["/StructTreeRoot"]["/K"])
    return found


@pytest.mark.parametrize("what", ["lesson", "line", "vertical"])
def test_the_file_claims_pdf_ua_and_has_tags_title_and_language(what: str) -> None:
    with pikepdf.open(BytesIO(printed(what))) as document:
        root = document.Root
        assert root["/MarkInfo"]["/Marked"]
        assert str(root["/Lang"]) == "en"
        assert root["/ViewerPreferences"]["/DisplayDocTitle"]
        title = "Sheet 1" if what != "lesson" else lesson().title
        assert str(document.docinfo["/Title"]) == title
        with document.open_metadata() as metadata:
            assert metadata["pdfuaid:part"] == "1"
            assert metadata["dc:title"] == title


@pytest.mark.parametrize("what", ["lesson", "line", "vertical"])
@pytest.mark.parametrize("size", [18, 24, 36])
def test_no_text_is_smaller_than_asked_for(what: str, size: int) -> None:
    pdf = printed(what, size)
    sizes = find_font_sizes(pdf)
    assert min(sizes) == pytest.approx(size, abs=POINT)
    # The same by another reader, which measures a character's box: at least as high as its font is large.
    assert min(char.size for _, _, char in find_characters(pdf)) >= size - POINT


@pytest.mark.parametrize("what", ["lesson", "line", "vertical"])
@pytest.mark.parametrize(("size", "paper"), [(18, "us-letter"), (36, "us-letter"), (28, "a4")])
def test_nothing_is_clipped_at_an_edge(what: str, size: int, paper: str) -> None:
    for number, (width, height), char in find_characters(printed(what, size, paper)):
        where = (number, char.get_text(), char.bbox)
        assert char.x0 >= MARGIN - 1, where
        assert char.x1 <= width - MARGIN + 1, where
        assert char.y0 >= 0, where
        assert char.y1 <= height - MARGIN + size, where


def test_text_is_sans_serif_embedded_and_never_italic() -> None:
    with pikepdf.open(BytesIO(printed("lesson"))) as document:
        fonts = [font for page in document.pages for font in page.resources.get("/Font", {}).values()]
        names = {str(font["/BaseFont"]).partition("+")[2] for font in fonts}
        inner = [font["/DescendantFonts"][0]["/FontDescriptor"] for font in fonts]
        assert all("/FontFile2" in font or "/FontFile3" in font for font in inner)
        assert all(float(font["/ItalicAngle"]) == 0 for font in inner)
    assert names == {"Atkinson-Hyperlegible-Next-Regular", "Atkinson-Hyperlegible-Next-Bold"}


def test_lines_begin_at_the_left_edge_and_are_not_stretched() -> None:
    """Left aligned, ragged right: a paragraph's lines all begin at the margin, and do not all end at one place."""
    booklet = Booklet(
        "T",
        "en",
        (
            Heading(1, ("T",)),
            Paragraph(("some words of a paragraph, " * 9 + "and words of another length after them " * 3,)),
        ),
    )
    lines: dict[float, list[float]] = {}
    for _, _, char in find_characters(print_booklet(booklet, WORDS)):
        if char.get_text().strip():
            lines.setdefault(round(char.y0), []).extend((char.x0, char.x1))
    paragraph = sorted(lines.items(), reverse=True)[1:-1]
    assert len(paragraph) > 4
    assert {round(min(places)) for _, places in paragraph} <= {MARGIN, MARGIN + 1, MARGIN + 2}
    assert len({round(max(places)) for _, places in paragraph}) > 2


def test_spacing_between_lines_is_a_setting() -> None:
    booklet = Booklet(
        "T",
        "en",
        (
            Heading(1, ("T",)),
            Paragraph(("some words of a paragraph, " * 9 + "and words of another length after them " * 3,)),
        ),
    )
    for spacing in (1.0, 1.5):
        pdf = print_booklet(booklet, WORDS, PrintStyle(size=20, spacing=spacing))
        bottoms = sorted({round(char.y0, 2) for _, _, char in find_characters(pdf)}, reverse=True)[1:-1]
        steps = {round(above - below, 1) for above, below in pairwise(bottoms)}
        assert steps == {20 * spacing}


def test_headings_are_tagged_in_order_and_none_is_passed_over() -> None:
    levels = [int(tag[2:]) for tag, _ in find_tags(printed("lesson")) if tag in ("/H1", "/H2", "/H3")]
    wanted = [block.level for block in lesson().blocks if isinstance(block, Heading)]
    assert levels == wanted
    assert levels[0] == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))


def test_every_frame_has_a_name_for_a_screen_reader_and_its_reading_as_text() -> None:
    frames = [block for block in lesson().blocks if isinstance(block, FrameShown)]
    names = [alt for tag, alt in find_tags(printed("lesson")) if tag == "/Figure"]
    assert names == [frame.name for frame in frames]
    text = "".join(extract_text(BytesIO(printed("lesson"))).split())
    for frame in frames:
        assert "".join(frame.reading.split()) in text


def test_every_block_comes_out_as_text() -> None:
    text = "".join(extract_text(BytesIO(printed("lesson"))).replace("\xa0", " ").split())
    for block in lesson().blocks:
        spans = entries_of(block)
        for said in spans:
            assert "".join(said.split()) in text or len(said) > 200, said


def entries_of(block: Block) -> list[str]:
    from beadwright.render.booklet import show_spans

    if isinstance(block, Listing):
        return [show_spans(entry.spans) for entry in block.entries]
    return [show_spans(block.spans)] if isinstance(block, Heading | Paragraph) else []


def test_lists_and_tables_are_tagged_as_such() -> None:
    tags = [tag for tag, _ in find_tags(printed("lesson"))]
    assert tags.count("/LI") == sum(len(b.entries) for b in lesson().blocks if isinstance(b, Listing))
    assert "/TH" in tags
    assert "/TD" in tags


WIDE_HEAD = ("Technique", "large print", "braille, Nemeth Code", "braille, UEB", "heard", "Difference")
WIDE_ROWS = [("exchanges that run on", "11", "11", "11", "11", "0"), ("partner of 10", "4", "4", "4", "4", "0")]


@pytest.mark.parametrize(("size", "columns", "is_table"), [(18, 4, True), (18, 6, False), (36, 4, False)])
def test_a_wide_table_is_never_squeezed(size: int, columns: int, is_table: bool) -> None:
    """What has no room as a table is told row by row, each cell after its head; nothing lies over anything else."""
    table = Table(
        tuple((head,) for head in WIDE_HEAD[:columns]),
        tuple(tuple((cell,) for cell in row[:columns]) for row in WIDE_ROWS),
    )
    pdf = print_booklet(Booklet("T", "en", (Heading(1, ("T",)), table)), WORDS, PrintStyle(size=size))
    boxes = [(page, c.x0, c.x1, round(c.y0)) for page, _, c in find_characters(pdf)]
    assert max(right for _, _, right, _ in boxes) <= 612 - MARGIN + 1
    lines: dict[tuple[int, int], list[tuple[float, float]]] = {}
    for page, left, right, bottom in boxes:
        lines.setdefault((page, bottom), []).append((left, right))
    for line in lines.values():
        assert all(after[0] >= before[1] - 1 for before, after in pairwise(sorted(line)))
    assert ("/TD" in [tag for tag, _ in find_tags(pdf)]) is is_table
    text = " ".join(extract_text(BytesIO(pdf)).split())
    assert ("Technique: exchanges that run on" in text) is not is_table


def test_an_expression_is_not_broken_in_the_middle() -> None:
    spans = find_formulas("words that go on and on until the line ends near 12.5 × 3.4 and on")
    pages = [
        extract_text(BytesIO(print_booklet(Booklet("T", "en", (Heading(1, ("T",)), Paragraph((pad, *spans)))), WORDS)))
        for pad in ("", "x ", "xx ", "xxx ", "xxxxx ", "xxxxxxx ")
    ]
    assert all("12.5 × 3.4" in page.replace("\xa0", " ") for page in pages)


def test_digits_of_one_place_stand_one_below_the_other() -> None:
    booklet = Booklet("T", "en", (Heading(1, ("T",)), Asked(1, parse_problem("1111 + 888"), "", vertical=True)))
    chars = [char for _, _, char in find_characters(print_booklet(booklet, WORDS))]
    ones = [char for char in chars if char.get_text() == "1" and "Mono" in char.fontname]
    eights = [char for char in chars if char.get_text() == "8"]
    assert [round(char.x0, 1) for char in ones[1:]] == [round(char.x0, 1) for char in eights]


def test_every_problem_of_a_sheet_is_there() -> None:
    text = extract_text(BytesIO(printed("line"))).replace("\xa0", " ")
    assert all(problem in text for problem in PROBLEMS)


def test_the_same_booklet_gives_the_same_bytes() -> None:
    assert print_booklet(lesson(), WORDS) == printed("lesson")


def test_sizes_and_spacings_outside_large_print_are_refused() -> None:
    for style in ({"size": 17}, {"size": 40}, {"spacing": 0.8}):
        with pytest.raises(ValueError, match="not"):
            PrintStyle(**style)  # type: ignore[arg-type]
