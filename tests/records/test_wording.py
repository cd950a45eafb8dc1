"""Numbers of a report as they are read."""

import pytest

from beadwright.records.wording import format_value
from beadwright.render import load_words


@pytest.mark.parametrize(
    ("right", "of", "shown"),
    [
        (0, 7, "0%"),
        (1, 2, "50%"),
        (57, 100, "57%"),  # 0.57 times 1,000 is less than 570 in binary
        (29, 100, "29%"),
        (1, 3, "33.3%"),
        (39, 49, "79.5%"),  # 79.59…: under a mark of 80, and read as under it
        (1999, 2500, "79.9%"),
        (4, 5, "80%"),
        (2, 3, "66.6%"),
        (9999, 10000, "99.9%"),
        (7, 7, "100%"),
    ],
)
def test_a_share_never_reads_as_more_than_it_is(right: int, of: int, shown: str) -> None:
    assert format_value(right / of, "share", load_words("en")) == shown


def test_no_share_of_whole_percent_loses_one_to_binary() -> None:
    words = load_words("en")
    for right in range(1001):
        assert format_value(right / 1000, "share", words) == f"{right / 10:g}%"
