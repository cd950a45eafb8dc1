"""Numbers and problems as figures with their grouping, and in words as they are said in class.

All words come from the table: `numbers` holds the names and how they join, so that another language brings its own.
"""

from __future__ import annotations

from functools import lru_cache

from beadwright.engine import FractionProblem, MixedNumber, Number, Percent, Problem, Product, Quotient, Root, Sum
from beadwright.render.words import Words

_SIGN_KEYS = {"+": "plus", "-": "minus", "×": "times", "÷": "divided"}


def say_number(number: int, words: Words, *, counts: bool = False) -> str:
    """A whole number, not below zero, in words; one that `counts` parts or things is said as before their name.

    Numbers too large for the table's names are said digit by digit.

    >>> from beadwright.render.words import load_words
    >>> say_number(1034, load_words("en"))
    'one thousand thirty-four'
    >>> say_number(1034, load_words("en", "with-and"))
    'one thousand and thirty-four'
    """
    powers = [int(power) for power in words.names("numbers.scale")]
    if number >= 1000 * 10 ** max(powers):
        return _say_digits(str(number), words)
    return _say_below(number, sorted(powers, reverse=True), words, counts=counts)


def _say_below(number: int, powers: list[int], words: Words, *, counts: bool = False) -> str:
    """A number in words: the largest named power it reaches, how many of it, then the rest.

    A number that `counts` something stands before its name, where the table's `counted` can have it end otherwise.
    """
    if number < 1000:
        return _say_hundreds(number, words, counts=counts)
    power = next(power for power in powers if number >= 10**power)
    count, rest = divmod(number, 10**power)
    said = _say_below(count, powers, words, counts=True)
    text = words.text(f"numbers.scale.{power}", words=said, count=count)
    if rest == 0:
        return text
    return _join(text, rest, _say_below(rest, powers, words, counts=counts), words)


def _say_hundreds(number: int, words: Words, *, counts: bool) -> str:
    """A number below 1000 in words; the table's `counted` and `exactly` name the irregular ones."""
    for irregular in ("counted", "exactly") if counts else ("exactly",):
        named = words.entries.get(f"numbers.{irregular}.{number}")
        if isinstance(named, str):
            return named
    if number < 20:
        return words.items("numbers.small")[number]
    if number < 100:
        tens, ones = words.items("numbers.tens")[number // 10 - 2], number % 10
        if ones == 0:
            return tens
        return words.text("numbers.tens_ones", tens=tens, ones=words.items("numbers.small")[ones])
    hundreds, rest = words.items("numbers.hundreds")[number // 100 - 1], number % 100
    if rest == 0:
        return hundreds
    return _join(hundreds, rest, _say_hundreds(rest, words, counts=counts), words)


def _join(before: str, rest: int, after: str, words: Words) -> str:
    """What was said and the rest; with an “and” before tens and ones, where the house says numbers so."""
    with_and = words.number_words == "with-and" and rest < 100
    return words.text("numbers.join_and" if with_and else "numbers.join", before=before, after=after)


def _say_digits(digits: str, words: Words) -> str:
    small = words.items("numbers.small")
    return " ".join(small[int(digit)] for digit in digits)


@lru_cache(maxsize=8192)
def say_number_text(text: str, words: Words) -> str:
    """A number as data writes it in words: `12.5`, `0.05`, `7/8`, `1 7/8`.

    >>> from beadwright.render.words import load_words
    >>> say_number_text("12.05", load_words("en")), say_number_text("1 7/8", load_words("en"))
    ('twelve point zero five', 'one and seven eighths')
    """
    if "/" in text:
        whole, _, fraction = text.rpartition(" ")
        said = _say_fraction(fraction, words)
        if whole == "":
            return said
        return words.text("numbers.mixed", whole=say_number(int(whole), words), fraction=said)
    whole, _, decimals = text.partition(".")
    said = say_number(int(whole), words)
    if decimals == "":
        return said
    return words.text("numbers.decimal", whole=said, digits=_say_digits(decimals, words))


def _say_fraction(fraction: str, words: Words) -> str:
    above, _, below = fraction.partition("/")
    if below in words.names("numbers.denominator"):
        parts = words.text(f"numbers.denominator.{below}", count=int(above))
        return words.text("numbers.fraction", numerator=say_number(int(above), words, counts=True), parts=parts)
    return words.text(
        "numbers.over", numerator=say_number(int(above), words), denominator=say_number(int(below), words)
    )


@lru_cache(maxsize=8192)
def format_number(text: str, words: Words) -> str:
    """A number as data writes it (`1034.5`, `1 7/8`) with the language's grouping and marker, as a reader sees it.

    >>> from beadwright.render.words import load_words
    >>> format_number("1034.5", load_words("en"))
    '1,034.5'
    """
    if "/" in text:
        return text
    whole, point, decimals = text.partition(".")
    if len(whole) > 3:
        whole = f"{int(whole):,}".replace(",", words.pattern("numbers.grouping"))
    return f"{whole}{words.pattern('numbers.marker')}{decimals}" if point else whole


def say_problem(problem: Problem, words: Words) -> str:
    """A problem in words, as it is read aloud.

    >>> from beadwright.engine import parse_problem
    >>> from beadwright.render.words import load_words
    >>> say_problem(parse_problem("48 + 37 - 12"), load_words("en"))
    'forty-eight plus thirty-seven minus twelve'
    """

    def say(number: Number | MixedNumber) -> str:
        return say_number_text(str(number), words)

    if isinstance(problem, Sum):
        first, *rest = problem.terms
        said = say(first.number)
        for term in rest:
            said = words.text(f"problem.said.{_SIGN_KEYS[term.sign]}", first=said, second=say(term.number))
        return said
    if isinstance(problem, Product):
        return words.text("problem.said.times", first=say(problem.first), second=say(problem.second))
    if isinstance(problem, Quotient):
        return _say_quotient(problem, words)
    if isinstance(problem, Percent):
        return words.text("problem.said.percent", percent=say(problem.percent), number=say(problem.of))
    if isinstance(problem, Root):
        return words.text("problem.said.root", number=say(problem.radicand))
    key = f"problem.said.{_SIGN_KEYS[problem.operation]}"
    return words.text(key, first=say(problem.first), second=say(problem.second))


def _say_quotient(problem: Quotient, words: Words) -> str:
    first, second = (say_number_text(str(number), words) for number in (problem.dividend, problem.divisor))
    said = words.text("problem.said.divided", first=first, second=second)
    if problem.places == 0:
        return said
    return words.text(
        "problem.said.places", problem=said, count=problem.places, places=say_number(problem.places, words)
    )


def format_problem(problem: Problem, words: Words) -> str:
    """A problem as a reader sees it, grouped and with the signs of arithmetic; it still parses back in English.

    >>> from beadwright.engine import parse_problem
    >>> from beadwright.render.words import load_words
    >>> format_problem(parse_problem("1048 - 37"), load_words("en"))
    '1,048 − 37'
    """
    if isinstance(problem, Sum):
        first, *rest = problem.terms
        shown = format_number(str(first.number), words)
        for term in rest:
            shown += f" {_show_sign(term.sign)} {format_number(str(term.number), words)}"
        return shown
    if isinstance(problem, Product):
        return _join_shown(problem.first, "×", problem.second, words)
    if isinstance(problem, Quotient):
        shown = _join_shown(problem.dividend, "÷", problem.divisor, words)
        return f"{shown}{format_wanted(problem, words)}"
    if isinstance(problem, Percent):
        percent, of = (format_number(str(number), words) for number in (problem.percent, problem.of))
        return words.text("problem.percent", percent=percent, number=of)
    if isinstance(problem, FractionProblem):
        return _join_shown(problem.first, _show_sign(problem.operation), problem.second, words)
    return f"√{format_number(str(problem.radicand), words)}"


def format_wanted(problem: Problem, words: Words) -> str:
    """What words add to a problem's arithmetic: how many places are wanted; nothing where its signs say it all.

    >>> from beadwright.engine import parse_problem
    >>> from beadwright.render.words import load_words
    >>> format_wanted(parse_problem("1 ÷ 8 to 2 places"), load_words("en"))
    ', to 2 decimal places'
    """
    if not isinstance(problem, Quotient) or problem.places == 0:
        return ""
    return words.text("problem.places", count=problem.places)


def _show_sign(sign: str) -> str:
    return "−" if sign == "-" else sign


def _join_shown(first: Number | MixedNumber, sign: str, second: Number | MixedNumber, words: Words) -> str:
    return f"{format_number(str(first), words)} {sign} {format_number(str(second), words)}"
