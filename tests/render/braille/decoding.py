"""Readers of arithmetic in Nemeth and in UEB, from the rules alone: Braille ASCII lines -> a problem's text.

They know nothing of how Beadwright writes braille, and refuse what the rules do not allow: an indicator that is
missing, or one that should not be there.
"""

import re

NEMETH_TOKENS = re.compile(
    r"_\?(?P<mixed_above>[0-9,]+)/(?P<mixed_below>[0-9,]+)_#"
    r"|\?(?P<above>[0-9,]+)/(?P<below>[0-9,]+)#"
    r"|>(?P<radicand>[0-9,.]+)\]"
    r"|(?P<indicator>#)?(?P<numeral>[0-9][0-9,]*(?:\.[0-9]+)?)"
    r"|(?P<sign>\+|-|@\*|\./)"
    r"|(?P<percent>@0)"
    r"|(?P<space> )"
    r"|(?P<equals>\.K)|(?P<word>OF)|(?P<remainder>;R)"
)
NEMETH_SIGNS = {"+": "+", "-": "-", "@*": "×", "./": "÷"}
UEB_TOKENS = re.compile(
    r"#(?P<numeral>[A-J][A-J1]*(?:4[A-J]+)?)(?:/(?P<below>[A-J1]+))?"
    r'|(?P<sign>"6|"-|"8|"/)'
    r"|;%(?P<radicand>#[A-J14]+)\+"
    r"|(?P<percent>\.0)"
    r"|(?P<space> )"
    r'|(?P<equals>"7)|(?P<word>\()|(?P<remainder>;R)'
)
UEB_SIGNS = {'"6': "+", '"-': "-", '"8': "×", '"/': "÷"}
UEB_DIGITS = str.maketrans("ABCDEFGHIJ14", "1234567890,.")


def join_nemeth(lines: list[str]) -> str:
    """The lines as one: a hyphen at the end of a line divides a numeral, which goes on after a new indicator."""
    text = lines[0]
    for line in (line.strip() for line in lines[1:]):
        if text.endswith("-"):
            text = text[:-1] + line.removeprefix("#")
        elif line.startswith("-#"):
            text += "-" + line[2:]  # the minus sign stood at the start of the line
        elif re.match(r"\+|-|@\*|\./", line):
            text += line
        else:
            text += " " + line
    return text


def join_ueb(lines: list[str]) -> str:
    """The lines as one: dot 5 at the end of a line says that no space stood there."""
    text = lines[0]
    for line in (line.strip() for line in lines[1:]):
        text = text[:-1] + line if text.endswith('"') else f"{text} {line}"
    return text


def read_tokens(pattern: re.Pattern[str], text: str) -> list[re.Match[str]]:
    """The tokens of a text, all of it; raises `ValueError` for what is no token."""
    found, place = [], 0
    while place < len(text):
        match = pattern.match(text, place)
        if match is None:
            raise ValueError(f"not arithmetic of this code: {text[place:]!r} in {text!r}")
        found.append(match)
        place = match.end()
    return found


def read_nemeth(lines: list[str]) -> str:
    """What the lines say, in the notation of print, one space around each sign."""
    said, before, before_that = "", "", ""
    for token in read_tokens(NEMETH_TOKENS, join_nemeth(lines)):
        group = token.lastgroup
        if token["numeral"]:
            due = before in ("", " ") or (before == "-" and before_that in ("", " "))
            if due is not (token["indicator"] is not None):
                raise ValueError(f"the numeric indicator is wrong at {token[0]!r} in {lines}")
            said += token["numeral"]
        elif token["mixed_above"]:
            said += f" {token['mixed_above']}/{token['mixed_below']}"
        elif token["above"]:
            said += f"{token['above']}/{token['below']}"
        elif token["radicand"]:
            said += f"√{token['radicand']}"
        else:
            said += say_sign(group, NEMETH_SIGNS.get(token[0], ""))
        before_that, before = before, token[0]
    return said.replace(",", "")


def read_ueb(lines: list[str]) -> str:
    """What the lines say, in the notation of print, one space around each sign."""
    said, was_numeral = "", False
    for token in read_tokens(UEB_TOKENS, join_ueb(lines)):
        if token["numeral"]:
            said += " " if was_numeral else ""
            said += token["numeral"].translate(UEB_DIGITS)
            said += f"/{token['below'].translate(UEB_DIGITS)}" if token["below"] else ""
        elif token["radicand"]:
            said += f"√{token['radicand'][1:].translate(UEB_DIGITS)}"
        else:
            said += say_sign(token.lastgroup, UEB_SIGNS.get(token[0], ""))
        was_numeral = token["numeral"] is not None
    return said.replace(",", "")


def say_sign(group: str | None, sign: str) -> str:
    """A sign as print has it; spaces come from the spaced signs themselves."""
    if group == "sign":
        return f" {sign} "
    return {"percent": "%", "space": "", "equals": " = ", "word": " of ", "remainder": " r "}[str(group)]
