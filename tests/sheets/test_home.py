"""Rounds to work alone: other problems than the contest's own, of the same kinds, and always the same."""

from pathlib import Path

from beadwright.render.sheets import ContestSpec, build_event, build_home_round, load_spec
from beadwright.render.sheets.dealing import sum_amounts
from tests.support import ROOT

SHIPPED = ROOT / "content" / "contest" / "friendly-round.yml"


def test_a_round_has_none_of_the_contests_own_problems_and_needs_as_much() -> None:
    spec = load_spec(SHIPPED)
    assert isinstance(spec, ContestSpec)
    event = build_event(spec)
    own = {
        str(w.problem)
        for level in event.levels
        for problems in (*(section.problems for section in level.sections), level.tie_break)
        for w in problems
    }
    played = build_home_round(str(SHIPPED), spec)
    assert played == build_home_round(str(SHIPPED), spec)
    assert (played.name, played.title) == ("friendly-round", "Friendly round")
    asked = [str(w.problem) for level in played.levels for problems in level.sets for w in problems]
    assert len(asked) == len(set(asked)) == 2 * (8 + 8 + 6)
    assert not own & set(asked)
    for home, level in zip(played.levels, event.levels, strict=True):
        first, second = (sum_amounts(problems) for problems in home.sets)
        contest = sum_amounts(level.sections[0].problems)
        assert set(first) | {"runs-on"} == set(contest) | {"runs-on"}
        assert all(abs(first[name] - second[name]) <= 1 for name in first)
        assert (home.minutes, home.conditions) == (level.spec.minutes, level.spec.conditions)


def test_where_problems_are_few_there_is_one_set_and_then_the_contests_own(tmp_path: Path) -> None:
    path = tmp_path / "tiny.yml"
    level = "  - {id: a, title: A, minutes: 2, sections: [print], tie_break: 0, draws: [%s]}\n"
    # One digit to one digit by both partners: 6 on 5 to 8, 7 on 5 to 7, 8 on 5 and 6, 9 on 5: ten in all (common
    # practice, no source).
    draw = "{operation: add, digits: [1, 1], needs: both-partners, count: %d}"
    found = []
    for count in (3, 5, 8):
        path.write_text(f"title: T\nlevels:\n{level % (draw % count)}", encoding="utf-8")
        played = build_home_round(str(path), load_spec(path))
        found.append([len(problems) for problems in played.levels[0].sets])
    assert found == [[3, 3], [5], [8]]


def test_a_sheet_is_a_round_of_its_own_problems(tmp_path: Path) -> None:
    path = tmp_path / "sums.yml"
    path.write_text('title: Sums\nproblems: ["48 + 37", "1/2 + 1/4"]\n', encoding="utf-8")
    (level,) = build_home_round(str(path), load_spec(path)).levels
    assert (level.minutes, level.conditions) == (None, None)
    assert [[str(w.problem) for w in problems] for problems in level.sets] == [["48 + 37", "1/2 + 1/4"]]
