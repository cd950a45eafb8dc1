"""The page of where each move and slip occurs, held against what the lessons' own pages hold."""

import json
import re
from collections import defaultdict
from pathlib import Path

from bs4 import BeautifulSoup

from beadwright.scaffold import start_course
from tests.referee.beads import FIVE_AND_FOUR, Board, move_beads
from tests.referee.rules import Moves, Style, rule_on
from tests.support.building import build_site
from tests.support.carried import read_whole

STYLE = Style("partners", "left-first", "left-first")  # the house style of the course that ships
SUM = re.compile(r"\d+(?: [+-] \d+)+")
TECHNIQUES = {"count", "direct", "partner-of-5", "partner-of-10", "both-partners", "runs-on"}
BY_PARTNERS = {"direct", "partner-of-5", "partner-of-10", "both-partners", "several-columns"}
"""Lessons whose items are worked by partners wherever they do not say otherwise."""


def read_page(path: Path) -> BeautifulSoup:
    return BeautifulSoup(read_whole(path), "html.parser")


def read_listed(site: Path) -> dict[str, set[str]]:
    """By technique or slip the addresses that the page leads to."""
    listed: dict[str, set[str]] = {}
    for heading in read_page(site / "moves-and-slips.html").select(".bw-prose h3[id]"):
        links: set[str] = set()
        for element in heading.find_next_siblings():
            if element.name in ("h2", "h3"):
                break
            links |= {str(link["href"]) for link in element.select("a")}
        listed[str(heading["id"])] = links
    return listed


def moves_by_partner_of_5(moves: Moves, worked: int) -> bool:
    """Whether a neighbour of the worked column takes or gives its 1 by the partner of 5."""
    upper = {column: change for column, bead, change in moves if bead == "upper"}
    return any(c != worked and b == "lower" and d * upper.get(c, 0) < 0 for c, b, d in moves)


def find_in_example(data: dict[str, list[dict[str, object]]]) -> set[str]:
    """The techniques that a walkthrough's data names, and a neighbour's partner of 5 by its beads."""
    found = set()
    for step in data["steps"]:
        technique, work = step["technique"], step["work"]
        if technique in (None, "set", "clear"):
            continue
        found.add(str(technique))
        assert isinstance(work, dict)
        assert isinstance(step["moves"], list)
        moves = tuple((move["column"], move["bead"], move["change"]) for move in step["moves"])
        if technique != "count" and moves_by_partner_of_5(moves, work["column"]):
            found.add("partner-of-5")
        if step["runs_on"]:
            found.add("runs-on")
    return found


def find_in_sum(problem: str) -> set[str]:
    """The techniques of a sum on a five-and-four frame, worked here by the referee's rules."""
    first, *others = re.findall(r"(?:^|([+-]) )(\d+)", problem)
    board: Board = tuple(FIVE_AND_FOUR.show(int(digit)) for digit in first[1].zfill(13))
    found = set()
    for sign, number in others:
        for column, digit in zip(range(len(number), 0, -1), number, strict=True):
            if digit != "0":
                ruling = rule_on(FIVE_AND_FOUR, board, "take" if sign == "-" else "add", int(digit), column, STYLE)
                board = move_beads(board, ruling.moves, FIVE_AND_FOUR)
                found |= {ruling.technique} | ({"runs-on"} if ruling.runs_on else set())
                found |= {"partner-of-5"} if moves_by_partner_of_5(ruling.moves, column) else set()
    return found


def list_topics(listed: dict[str, set[str]], address: str) -> set[str]:
    return {topic for topic, links in listed.items() if address in links}


def test_each_worked_example_stands_under_the_techniques_of_its_steps(built_site: Path) -> None:
    listed = read_listed(built_site)
    seen = 0
    for page in sorted(built_site.glob("modules/*.html")):
        for example in read_page(page).select(".bw-walkthrough"):
            island = example.select_one("script.walkthrough-data")
            assert island is not None
            address = f"modules/{page.name}#{str(example['id']).removesuffix('-steps')}"
            assert list_topics(listed, address) == find_in_example(json.loads(island.get_text())), address
            seen += 1
    assert seen >= 50


def test_each_item_with_a_slip_stands_under_that_slip_alone(built_site: Path) -> None:
    listed = read_listed(built_site)
    wanted: dict[str, set[str]] = defaultdict(set)
    for page in sorted(built_site.glob("modules/*.html")):
        for item in read_page(page).select('bw-item[data-bw-ask="find-slip"]'):
            island = item.select_one("script.practice-data")
            assert island is not None
            wanted[json.loads(island.get_text())["pool"][0]["key"]["slip"]].add(f"modules/{page.name}#{item['id']}")
    assert {topic: links for topic, links in listed.items() if topic not in TECHNIQUES} == wanted
    assert len(wanted) >= 15


def test_each_sum_to_work_stands_under_what_its_digits_need(built_site: Path) -> None:
    listed = read_listed(built_site)
    seen = 0
    for name in sorted(BY_PARTNERS):
        for island in read_page(built_site / "modules" / f"{name}.html").select("bw-item script.practice-data"):
            data = json.loads(island.get_text())
            problem = data["pool"][0].get("problem") or ""
            if SUM.fullmatch(problem) and data.get("frame", {}).get("name") == "five-and-four":
                slips = {data["pool"][0]["key"]["slip"]} if data["ask"] == "find-slip" else set()
                topics = list_topics(listed, f"modules/{name}.html#item-{data['id']}")
                assert topics - slips == find_in_sum(problem), (name, problem)
                seen += 1
    assert seen >= 60


def test_items_without_a_problem_stand_nowhere(built_site: Path) -> None:
    links = set().union(*read_listed(built_site).values())
    lone = [
        f"modules/{page.name}#{item['id']}"
        for page in sorted(built_site.glob("modules/*.html"))
        for item in read_page(page).select('bw-item:is([data-bw-ask="choice"], [data-bw-ask="reflect"])')
    ]
    assert links & set(lone) == set()
    assert len(lone) >= 20


def test_the_glossary_and_the_menu_lead_to_it(built_site: Path) -> None:
    glossary = read_page(built_site / "glossary.html")
    assert glossary.select_one('.bw-prose a[href="moves-and-slips.html"]') is not None
    assert glossary.select_one('#bw-nav a[href="moves-and-slips.html"]') is not None


def test_a_trainers_own_course_has_it(tmp_path: Path) -> None:
    start_course(tmp_path / "course", title="A small course")
    build_site(tmp_path / "course" / "mkdocs.yml", tmp_path / "site")
    listed = read_listed(tmp_path / "site")
    assert "partner-of-10" in listed
    assert all(links for links in listed.values())
