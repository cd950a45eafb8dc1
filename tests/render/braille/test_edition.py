"""A lesson as braille pages: page size and numbers, contents, switch indicators, and what comes without liblouis."""

import re
from functools import cache

import pytest

from beadwright.course import load_course
from beadwright.engine import parse_problem
from beadwright.render import LessonLink, load_words
from beadwright.render.booklet import (
    Asked,
    Block,
    Booklet,
    Entry,
    Heading,
    Listing,
    Paragraph,
    Table,
    build_lesson,
    find_formulas,
    show_spans,
)
from beadwright.render.braille import BrailleError, Geometry, literary, to_ascii
from beadwright.render.braille.edition import BrailleStyle, write_booklet
from tests.support import ROOT

WORDS = load_words("en")
ALL_STYLES = [
    BrailleStyle(code=code, contracted=contracted, geometry=Geometry(cells, 25))
    for code in ("nemeth", "ueb")
    for contracted in (True, False)
    for cells in (20, 40)
]


@cache
def lesson() -> Booklet:
    loaded = load_course(ROOT / "content")
    assert loaded.course is not None
    links = [LessonLink(each, number, f"{each.id}.html") for number, each in enumerate(loaded.lessons, start=1)]
    link = next(link for link in links if link.lesson.id == "partner-of-10")
    return build_lesson(loaded.course, link, links, WORDS)


def pages_of(booklet: Booklet, style: BrailleStyle) -> list[list[str]]:
    return [[to_ascii(line) for line in page] for page in write_booklet(booklet, style, WORDS).pages]


def one_line(*blocks: Block, **style: object) -> str:
    pages = pages_of(Booklet("x", "en", blocks), BrailleStyle(**style))  # type: ignore[arg-type]
    return "\n".join(line for line in pages[0][:-1] if line)


@pytest.mark.parametrize("style", ALL_STYLES, ids=str)
def test_every_line_fits_and_every_page_has_its_lines_and_its_number(style: BrailleStyle) -> None:
    pages = pages_of(lesson(), style)
    numbers = [page[-1].strip() for page in pages]
    front = [number for number in numbers if number.startswith("P")]
    assert numbers[: len(front)] == front
    digits = str.maketrans("ABCDEFGHIJ", "1234567890")
    own = [int(number.removeprefix("#").translate(digits)) for number in numbers[len(front) :]]
    assert own == list(range(1, len(own) + 1))
    for page in pages:
        assert len(page) == style.geometry.lines
        assert max(map(len, page)) <= style.geometry.cells
        assert len(page[-1]) == style.geometry.cells


def test_the_contents_name_the_pages_that_parts_begin_on() -> None:
    pages = pages_of(lesson(), BrailleStyle())
    listed = [
        re.fullmatch(r"(.*?) \"* ?#([A-J]+)", line)
        for page in pages
        for line in page[:-1]
        if page[-1].strip()[0] == "P"
    ]
    found = {match[1]: match[2] for match in listed if match}
    digits = str.maketrans("ABCDEFGHIJ", "1234567890")
    parts = [b for b in lesson().blocks if isinstance(b, Heading) and b.level == 2]
    assert len(found) >= len(parts)
    body = [page for page in pages if page[-1].strip().startswith("#")]
    for title, number in found.items():
        page = body[int(number.translate(digits)) - 1]
        assert any(title.strip() in line for line in page), (title, number)


def test_arithmetic_in_text_stands_between_the_switch_indicators() -> None:
    text = (Paragraph(find_formulas("Work 48 + 37 = 85.")),)
    assert one_line(*text, code="nemeth") == '  ,"W _% #48+37 .K #85 _:4'
    assert one_line(*text, code="ueb") == '  ,"W #DH"6#CG "7 #HE4'


def test_text_is_contracted_or_not() -> None:
    text = Paragraph(("the frame and the bar",))
    assert one_line(text, contracted=True) == "  ! FRAME & ! B>"
    assert one_line(text, contracted=False) == "  THE FRAME AND THE BAR"


def test_a_table_is_read_row_by_row_with_its_heads() -> None:
    table = Table((("Add",), ("Clear",)), ((("9",), ("1",)),))
    assert one_line(table, contracted=False) == ",ADD3 #I2 ,CLEAR3 #A"


def test_an_expression_longer_than_a_line_keeps_to_the_lines() -> None:
    spans = find_formulas("Say 1,234,567 + 7,654,321 + 1,111,111 = 9,999,999 now.")
    lines = one_line(Paragraph(spans), geometry=Geometry(20, 25)).split("\n")
    assert max(map(len, lines)) <= 20
    assert sum(line.count("_%") for line in lines) == sum(line.count("_:") for line in lines) == 1


def test_problems_of_a_sheet_stand_between_one_pair_of_indicators() -> None:
    asked = [Asked(n, parse_problem(t), t) for n, t in ((1, "48 + 37"), (2, "306 × 4"))]
    assert one_line(*asked, code="nemeth").split("\n") == ["_%", "#1_4 #48+37", "#2_4 #306@*4", "_:"]
    assert one_line(*asked, code="ueb").split("\n") == ['#A4 #DH"6#CG', '#B4 #CJF"8#D']


def test_problems_of_a_sheet_stand_in_columns() -> None:
    asked = Asked(1, parse_problem("48 + 37"), "48 + 37", vertical=True)
    assert one_line(asked, code="ueb").split("\n") == ["#A4    #DH", '     "6#CG', '       "33']


@pytest.mark.parametrize("vertical", [False, True])
def test_a_problem_says_in_words_how_many_places_are_wanted(vertical: bool) -> None:
    texts = ("48 + 37", "1 ÷ 8 to 2 places", "306 × 4")
    asked = [Asked(n, parse_problem(t), t, vertical and n == 2) for n, t in enumerate(texts, start=1)]
    # Words are no Nemeth Code: they and the number of their problem stand outside the indicators.
    words = "TO #B DECIMAL PLACES"
    nemeth = ["_%", "#1_4 #48+37", "_:", f"#B4 _% #1./8 _:1 {words}", "_%", "#3_4 #306@*4", "_:"]
    assert one_line(*asked, code="nemeth").split("\n") == nemeth
    assert one_line(*asked, code="ueb").split("\n")[1] == f'#B4 #A"/#H1 {words}'


def test_places_wanted_are_said_in_spanish_too() -> None:
    asked = Asked(1, parse_problem("1 ÷ 8 to 2 places"), "1 ÷ 8, con 2 cifras decimales")
    style = BrailleStyle(code="ueb", contracted=False)
    pages = write_booklet(Booklet("x", "es", (asked,)), style, load_words("es")).pages
    assert "CON #B CIFRAS DECIMALES" in " ".join(to_ascii(line) for page in pages for line in page)


def test_without_liblouis_the_arithmetic_still_comes_out(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(literary, "find_liblouis", lambda: None)
    blocks: tuple[Block, ...] = (
        Heading(1, ("Sums",)),
        Listing((Entry("1.", find_formulas("Work 48 + 37 now.")), Entry("2.", ("Only words",)))),
    )
    assert one_line(*blocks) == "#A4 _% #48+37 _:"
    assert "apt-get install liblouis-bin" in literary.MISSING
    assert "\n" not in literary.MISSING


def test_characters_that_ueb_does_not_have_are_named_with_what_to_do() -> None:
    with pytest.raises(BrailleError, match=r"^UEB has no cells for ✂ ❤ in ") as raised:
        one_line(Paragraph(("Cut ✂ at ❤, ✂ here\\",)))
    assert str(raised.value).endswith("; say it in words or leave it out")


def test_a_backslash_is_a_character_like_any_other() -> None:
    assert one_line(Paragraph(("a\\b",)), contracted=False) == "  A_*B"


def test_the_file_has_ascii_lines_and_form_feeds_between_pages() -> None:
    pages = write_booklet(lesson(), BrailleStyle(), WORDS)
    data = pages.to_brf()
    assert data.count(b"\f") == len(pages.pages) - 1
    assert set(data) <= set(range(32, 96)) | {10, 12, 13}
    assert data.count(b"\r\n") == 25 * len(pages.pages) == data.count(b"\n")


def test_the_same_booklet_gives_the_same_bytes() -> None:
    first, second = (write_booklet(lesson(), BrailleStyle(), WORDS).to_brf() for _ in range(2))
    assert first == second


def test_answers_stand_at_the_end_on_a_page_of_their_own() -> None:
    headings = [show_spans(b.spans) for b in lesson().blocks if isinstance(b, Heading) and b.level == 2]
    assert headings[-1] == "Answers"
    pages = pages_of(lesson(), BrailleStyle())
    assert any(page[0].strip() == ",ANSW]S" for page in pages)
    last = lesson().blocks[-1]
    assert isinstance(last, Listing)
    assert show_spans(last.entries[0].spans) == "9 + 9 = 18"


@pytest.mark.parametrize(("cells", "lines"), [(12, 25), (40, 4), (10**14, 25), (40, 10**9)])
def test_pages_that_there_are_not_are_refused(cells: int, lines: int) -> None:
    with pytest.raises(ValueError, match="20 to 200 cells in a line and 5 to 200 lines"):
        Geometry(cells, lines)


def test_a_code_that_there_is_not_is_refused() -> None:
    with pytest.raises(ValueError, match="nemeth or ueb"):
        BrailleStyle(code="other").build_code()
