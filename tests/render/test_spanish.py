"""The second language table: complete, with the fields of the first, and numbers as Spanish says them."""

import re
from pathlib import Path
from string import Formatter

import pytest

from beadwright.engine import build_frame, parse_problem, work_problem
from beadwright.render import load_words
from beadwright.render.numbers import format_problem, say_number, say_number_text, say_problem
from beadwright.render.places import find_place
from beadwright.render.reading import name_frame
from beadwright.render.speech import say_steps
from beadwright.render.words import Entry, Plural
from tests.support.building import run_mkdocs

EN, ES = load_words("en"), load_words("es")
OWN = ("numbers.exactly.", "numbers.counted.", "numbers.scale.", "numbers.exactly", "numbers.counted")
"""Where a language says which of its numbers are irregular, its table has keys of its own."""


def find_shared(entries: object) -> set[str]:
    assert hasattr(entries, "keys")
    return {key for key in entries if not key.startswith(OWN)}


def find_fields(entry: Entry) -> set[str]:
    patterns = [entry] if isinstance(entry, str) else list(entry)
    return {name for pattern in patterns for _, name, _, _ in Formatter().parse(pattern) if name is not None}


def test_both_tables_have_the_same_keys() -> None:
    english, spanish = find_shared(EN.entries), find_shared(ES.entries)
    assert sorted(english - spanish) == [], "es.yml lacks these"
    assert sorted(spanish - english) == [], "only es.yml has these"


@pytest.mark.parametrize("key", sorted(find_shared(EN.entries) & find_shared(ES.entries)))
def test_an_entry_is_of_the_same_kind_with_the_same_fields(key: str) -> None:
    english, spanish = EN.entries[key], ES.entries[key]
    assert type(english) is type(spanish)
    assert find_fields(english) == find_fields(spanish)
    if isinstance(english, tuple):
        assert len(english) == len(spanish)
    # A plural that says one thing of all numbers is no plural.
    if isinstance(spanish, Plural) and isinstance(english, Plural) and english.one != english.other:
        assert spanish.one != spanish.other


def test_no_text_was_left_in_english() -> None:
    same = {
        key
        for key in find_shared(EN.entries) & find_shared(ES.entries)
        if EN.entries[key] == ES.entries[key] and re.search(r"[a-z]{4}", re.sub(r"\{\w+\}", "", str(ES.entries[key])))
    }
    assert same <= {"shell.spacing_normal", "contest.medium.ueb"}  # the same word in both languages


# As the rules of Spanish spelling have them: sixteen to twenty-nine in one word, `uno` shortened before what it counts,
# `cien` alone and `ciento` before more, the long scale.
@pytest.mark.parametrize(
    ("number", "said"),
    [
        (0, "cero"),
        (1, "uno"),
        (16, "dieciséis"),
        (20, "veinte"),
        (21, "veintiuno"),
        (22, "veintidós"),
        (26, "veintiséis"),
        (31, "treinta y uno"),
        (48, "cuarenta y ocho"),
        (99, "noventa y nueve"),
        (100, "cien"),
        (101, "ciento uno"),
        (121, "ciento veintiuno"),
        (500, "quinientos"),
        (700, "setecientos"),
        (999, "novecientos noventa y nueve"),
        (1000, "mil"),
        (1001, "mil uno"),
        (1034, "mil treinta y cuatro"),
        (2000, "dos mil"),
        (21_000, "veintiún mil"),
        (21_021, "veintiún mil veintiuno"),
        (31_000, "treinta y un mil"),
        (100_000, "cien mil"),
        (101_000, "ciento un mil"),
        (231_000, "doscientos treinta y un mil"),
        (1_000_000, "un millón"),
        (2_000_000, "dos millones"),
        (21_000_000, "veintiún millones"),
        (1_001_000_000, "mil un millones"),
        (10**9, "mil millones"),
        (10**12, "un billón"),
        (3 * 10**12 + 1, "tres billones uno"),
        (10**18, "un trillón"),
    ],
)
def test_a_whole_number_is_said_in_spanish(number: int, said: str) -> None:
    assert say_number(number, ES) == said


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("12.05", "doce punto cero cinco"),
        ("1/2", "un medio"),
        ("3/2", "tres medios"),
        ("21/100", "veintiún centésimos"),
        ("1 7/8", "uno y siete octavos"),
        ("5/23", "cinco sobre veintitrés"),
    ],
)
def test_decimals_and_fractions_are_said_in_spanish(text: str, said: str) -> None:
    assert say_number_text(text, ES) == said


@pytest.mark.parametrize(
    ("problem", "said"),
    [
        ("48 + 37", "cuarenta y ocho más treinta y siete"),
        ("85 - 37", "ochenta y cinco menos treinta y siete"),
        ("23 × 4", "veintitrés por cuatro"),
        ("92 ÷ 4", "noventa y dos entre cuatro"),
        ("√144", "la raíz cuadrada de ciento cuarenta y cuatro"),
    ],
)
def test_a_problem_is_said_in_spanish(problem: str, said: str) -> None:
    assert say_problem(parse_problem(problem), ES) == said
    assert parse_problem(format_problem(parse_problem(problem), ES)) == parse_problem(problem)


@pytest.mark.parametrize(
    ("power", "place"),
    [
        (0, "unidades"),
        (2, "centenas"),
        (3, "unidades de millar"),
        (5, "centenas de millar"),
        (6, "unidades de millón"),
        (10, "decenas de millar de millón"),
        (-1, "décimas"),
        (-3, "milésimas"),
        (-4, "diezmilésimas"),
        (-6, "millonésimas"),
    ],
)
def test_places_have_their_spanish_names(power: int, place: str) -> None:
    assert find_place(power, ES) == place


def test_a_walkthrough_is_told_in_spanish() -> None:
    walkthrough = work_problem(parse_problem("48 + 37"), build_frame())
    *_, last = say_steps(walkthrough, ES)
    assert last.short == (
        "Suma 7 en las unidades: pon 1 en las decenas, quita 3 en las unidades. "
        "Ahora las decenas marcan 8 y las unidades 5."
    )
    assert "siete es diez menos tres" in last.full
    assert last.full.endswith("El resultado es 85.")
    assert name_frame(walkthrough.steps[-1].after, ES) == "Marco: decenas 8, unidades 5"


def test_a_course_in_spanish_builds_with_no_english_left(tmp_path: Path) -> None:
    lesson = tmp_path / "content" / "modules" / "01-pareja-de-10.lesson.yml"
    lesson.parent.mkdir(parents=True)
    (tmp_path / "mkdocs.yml").write_text(
        "site_name: Cuentas\ndocs_dir: content\nuse_directory_urls: false\n"
        "theme: {name: material, language: es}\nplugins: [search, beadwright]\n",
        encoding="utf-8",
    )
    (tmp_path / "content" / "course.yml").write_text(
        "id: cuentas-a1b2c3\ntitle: Cuentas\nedition: otoño\nlanguage: es\nsummary: Un curso.\n"
        "contact: [{name: Nadia, role: Formadora, email: nadia@school.example}]\nrecord: {send: Guarda tu registro.}\n"
        "modules: [{lesson: pareja-de-10}]\nframe: five-and-four\npass_mark: 80 %\n"
        "confidence: {question: ¿Cuánta seguridad sientes?, points: [Nada, Poca, Bastante, Mucha],"
        " items: [{id: sumar, text: Sumar con un cambio.}]}\n",
        encoding="utf-8",
    )
    (tmp_path / "content" / "index.md").write_text("# Cuentas\n\n<!-- bw:begin -->\n", encoding="utf-8")
    lesson.write_text(
        "title: Pareja de 10\nminutes: 20\nobjectives: [{id: sumar, text: Sumar con un cambio}]\nbody:\n"
        "  - walkthrough: 48 + 37\n"
        "  - practice:\n      id: turno\n      title: Tu turno\n      objective: sumar\n"
        "      items:\n        - {id: uno, ask: answer, problem: 48 + 37}\n"
        "        - {id: dos, ask: find-slip, problem: 67 + 38, slip: exchange-dropped}\n",
        encoding="utf-8",
    )
    built = run_mkdocs(tmp_path / "mkdocs.yml", tmp_path / "site", "--strict")
    assert built.returncode == 0, built.stdout + built.stderr
    page = (tmp_path / "site" / "modules" / "pareja-de-10.html").read_text(encoding="utf-8")
    assert '<html lang="es"' in page
    text = re.sub(r"<style.*?</style>|<script.*?</script>|<[^>]+>", " ", page, flags=re.DOTALL)
    for word in ("Comprobar", "Paso siguiente", "Ejemplo resuelto", "Ir al texto", "Ejercicio 1 de 2"):
        assert word in text
    english = r"\b(the|step|answer|frame|check|next|search|display|lesson|column|beads?|back|hint)\b"
    assert re.findall(english, text, re.IGNORECASE) == []
