"""The table in ACCESSIBILITY.md: every criterion of levels A and AA is there, and every test that it names exists."""

import re

from tests.support import ROOT

TABLE = (ROOT / "ACCESSIBILITY.md").read_text(encoding="utf-8")
# Levels A and AA of WCAG 2.2; 4.1.1 was removed from it.
A_AND_AA = re.findall(
    r"\S+",
    "1.1.1 1.2.1 1.2.2 1.2.3 1.2.4 1.2.5 1.3.1 1.3.2 1.3.3 1.3.4 1.3.5 1.4.1 1.4.2 1.4.3 1.4.4 1.4.5 1.4.10 "
    "1.4.11 1.4.12 1.4.13 2.1.1 2.1.2 2.1.4 2.2.1 2.2.2 2.3.1 2.4.1 2.4.2 2.4.3 2.4.4 2.4.5 2.4.6 2.4.7 "
    "2.4.11 2.5.1 2.5.2 2.5.3 2.5.4 2.5.7 2.5.8 3.1.1 3.1.2 3.2.1 3.2.2 3.2.3 3.2.4 3.2.6 3.3.1 3.3.2 3.3.3 "
    "3.3.4 3.3.7 3.3.8 4.1.2 4.1.3 ",
)


def test_every_criterion_of_a_and_aa_has_its_row() -> None:
    assert len(A_AND_AA) == 55
    rows = " ".join(row.split("|")[1] for row in TABLE.splitlines() if row.startswith("| ") and row.count("|") == 5)
    named = re.findall(r"\b\d\.\d\.\d+\b", rows)
    assert sorted(set(A_AND_AA) - set(named)) == []
    assert len(named) == len(set(named))


def test_every_row_says_by_what_it_is_checked() -> None:
    rows = [row.split("|") for row in TABLE.splitlines() if re.match(r"\| \d", row)]
    assert len(rows) >= 70
    for row in rows:
        how, by = row[3].strip(), row[4].strip()
        assert re.search(r"`test_|\*look:\*", by) or (by == "–" and how.startswith("no case")), row


def test_every_test_that_is_named_exists() -> None:
    sources = "\n".join(path.read_text(encoding="utf-8") for path in (ROOT / "tests").glob("[!n]*/test_*.py"))
    named = set(re.findall(r"`(test_\w+)`", TABLE))
    assert [name for name in sorted(named) if f"def {name}(" not in sources] == []
