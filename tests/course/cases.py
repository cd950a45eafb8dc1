"""One broken file for every code of finding that a text can produce; `▸` marks where the finding points."""

from typing import NamedTuple

from tests.course.writing import COURSE, HEAD, LESSON, write_item, write_lesson


class Case(NamedTuple):
    """A code, the file that is broken, and its text."""

    code: str
    file: str
    text: str


def _lesson(code: str, text: str) -> Case:
    return Case(code, LESSON, text)


def _head(code: str, old: str, new: str) -> Case:
    assert old in HEAD
    return Case(code, LESSON, write_lesson(head=HEAD.replace(old, new)))


def _body(code: str, body: str) -> Case:
    return Case(code, LESSON, write_lesson(body=body))


def _item(code: str, item: str) -> Case:
    return Case(code, LESSON, write_item(item))


def _course(code: str, old: str, new: str) -> Case:
    assert old in COURSE
    return Case(code, "course.yml", COURSE.replace(old, new))


CASES = [
    # The text as YAML
    _lesson("file-empty", "▸"),
    _lesson("file-empty", "▸# nothing but a remark\n"),
    _lesson("file-empty", "▸~\n".replace("~", "")),
    _lesson("file-keys", "▸- a list\n- of texts\n"),
    _lesson("file-keys", "▸just text\n"),
    _lesson("file-character", "title: A bell▸\x07\n"),
    _lesson("yaml-tab", "title: T\n▸\tminutes: 5\n"),
    _lesson("yaml-start", "title: ▸@home\n"),
    _lesson("yaml-start", "title: ▸`code`\n"),
    _lesson("yaml-colon", "title: Add▸: three ways\n"),
    _lesson("yaml-no-colon", 'title: T\n▸"minutes"\nneeds: []\n'),
    _lesson("yaml-no-colon", "title: T\n▸minutes 10\n"),
    _lesson("yaml-more", 'title: "Add" ▸and take\n'),
    _lesson("yaml-indent", "  title: T\n ▸minutes: 5\n"),
    _lesson("yaml-indent", "title: T\nneeds:\n  - a\n ▸- b\n"),
    _lesson("yaml-bracket", "title: T\nneeds: [a, b\nminutes▸: 5\n"),
    _lesson("yaml-quote", "title: ▸'T\nminutes: 5\n"),
    _lesson("yaml-escape", 'title: "A \\▸q"\n'),
    _lesson("yaml-escape", 'title: "▸\\UFFFFFFFF"\n'),
    _lesson("yaml-syntax", "title: ▸]\n"),
    _lesson("yaml-documents", write_lesson() + "▸---\ntitle: another\n"),
    _head("yaml-anchor", "A lesson", "▸&name A lesson"),
    _head("yaml-alias", "A lesson", "▸*name"),
    _head("yaml-tag", "A lesson", "▸!!python/object:os.system A lesson"),
    _lesson("yaml-depth", "title: " + "[" * 23 + "▸[" + "]" * 24 + "\n"),
    _lesson("key-not-text", write_lesson() + "? ▸[a, b]\n: c\n"),
    _lesson("key-not-text", write_lesson() + '"▸\\a": c\n'.replace('"▸', '▸"')),
    _head("key-doubled", "minutes: 10", "minutes: 10\n▸minutes: 11"),
    # Keys, lists and kinds
    _head("key-unknown", "minutes: 10", "minutes: 10\n▸minuets: 10"),
    _item("key-unknown", "{ask: answer, problem: 1 + 1, ▸timd: yes}"),
    _item("key-unknown", "{draw: {operation: add, digits: 2, ▸needz: direct}}"),
    _body("key-unknown", "- figure: {reads: 3, frame: {nine-bead: {▸colums: 3}}}\n"),
    _lesson("key-missing", "▸minutes: 10\n" + write_lesson().split("minutes: 10\n")[1]),
    _item("key-missing", "▸{ask: answer}"),
    _body("key-missing", "- walkthrough: ▸{note: Look}\n"),
    _body("not-keys", "- figure: ▸305\n"),
    _body("not-keys", "- ▸just text\n"),
    _body("not-keys", "- ▸practice:\n"),
    _course("not-keys", "cautions: {shared-frames: Clean it.}", "cautions: ▸shared-frames"),
    _head("not-list", "[{id: o, text: Do it}]", "▸o"),
    _head("list-short", "[{id: o, text: Do it}]", "▸[]"),
    _item("list-short", "{ask: choice, question: Q, options: ▸[{text: A, right: yes, because: B}]}"),
    _head("list-long", "minutes: 10", f"minutes: 10\nneeds: ▸[{', '.join(f'n{i}' for i in range(51))}]"),
    _body("block-kind", "- ▸walktrough: 48 + 37\n"),
    _body("block-kind", "- ▸{}\n"),
    _body("block-two", "- text: T\n  ▸caution: Mind the beads.\n"),
    _item("item-kind", "{ask: ▸anser, problem: 1 + 1}"),
    _item("item-kind", "{ask: ▸[answer], problem: 1 + 1}"),
    _item("item-kind", "▸{problem: 1 + 1}"),
    _item("item-ask", "{▸ask: answer, draw: {operation: add, digits: 1}}"),
    _item("item-ask", "{mix: {of: [b, c]}, ▸ask: heard}"),
    # Single values
    _head("not-text", "A lesson", "▸[A, lesson]"),
    _lesson("not-text", write_lesson(head=HEAD.replace("title: A lesson", "▸title:"))),
    _head("not-text", "A lesson", "▸'  '"),
    _head("text-long", "A lesson", "▸" + "long " * 61),
    _head("text-lines", "title: A lesson", "title: ▸|\n  one\n  two"),
    _head("text-character", "A lesson", '▸"A \\x07 bell"'),
    _head("text-character", "A lesson", '▸"Half a \\ud800 character"'),
    _head("value-whole", "10", "▸ten"),
    _head("value-whole", "10", "▸0"),
    _head("value-whole", "10", "▸1:30"),
    _head("value-whole", "10", "▸" + "9" * 5000),
    _item("value-whole", "{draw: {operation: add, digits: [2, 2], count: ▸1000000000}}"),
    _course("value-share", "modules: [a]", "modules: [a]\npass_mark: ▸80"),
    _course("value-share", "modules: [a]", "modules: [a]\npass_mark: ▸101 %"),
    _course("value-hours", "modules: [a]", "modules: [{lesson: a, credit: ▸an hour}]"),
    _item("value-yes-no", "{ask: answer, problem: 1 + 1, timed: ▸maybe}"),
    _course("value-id", "id: a-course", "id: ▸A Course"),
    _course("value-id", "shared-frames:", "▸Shared Frames:"),
    _course("value-language", "modules: [a]", "modules: [a]\nlanguage: ▸English"),
    _course("value-choice", "modules: [a]", "modules: [a]\nbraille_code: ▸nemth"),
    _course("value-choice", "modules: [a]", "modules: [a]\nhouse_style: {exchange: ▸left}"),
    _course("value-choice", "modules: [a]", "modules: [a]\nframe: ▸five-and-for"),
    _item("value-number", "{ask: set, reads: ▸three}"),
    _item("value-number", '{ask: set, reads: ▸"1,23"}'),
    _item("value-beads", "{ask: read, beads: ▸3}"),
    _item("value-beads", "{ask: read, beads: [[0, 1], ▸[1]]}"),
    _item("value-beads", "{ask: read, beads: [[0, 1], ▸[x, 1]]}"),
    _body("problem-text", "- walkthrough: ▸48 +\n"),
    _item("problem-text", "{ask: answer, problem: ▸forty}"),
    # What belongs together
    _head("frame-kind", "minutes: 10", "minutes: 10\nframe: ▸{columns: 3, nine-bead: {columns: 3}}"),
    _head("frame-kind", "minutes: 10", "minutes: 10\nframe: ▸{upper: 1, columns: 3}"),
    _head("frame-kind", "minutes: 10", "minutes: 10\nframe: ▸{}"),
    _head("frame-shape", "minutes: 10", "minutes: 10\nframe: ▸{upper: 2, lower: 5, columns: 13}"),
    _body("figure-shows", "- figure: ▸{caption: Nothing}\n"),
    _body("figure-shows", "- figure: ▸{reads: 3, beads: [[0, 3]]}\n"),
    _item("draw-runs-on", "{draw: {operation: add, digits: 2, needs: [runs-on], runs_on: ▸no}}"),
    _item("draw-pins", "{draw: {operation: add, digits: 2, pin: ▸[48 + 37, 28 + 5]}}"),
    _item("draw-pinned", "{draw: {operation: add, digits: 2, pin: ▸[48 + 37], ban: [48 + 37]}}"),
    _item("draw-size", "{draw: {operation: add, terms: 20, digits: ▸4}}"),
    _item("draw-slip", "{draw: {operation: add, digits: 2, slip: ▸exchange-dropped}}"),
    _item("item-digits", "{draw: {operation: add, digits: ▸x}}"),
    _item("item-digits", "{draw: {operation: add, digits: [2, ▸0]}}"),
    _item("item-digits", "{draw: {operation: multiply, digits: ▸[2, 2, 2]}}"),
    _item("item-digits", "{draw: {operation: add, terms: 3, digits: ▸[2, 2]}}"),
    _item("choice-right", "{ask: choice, question: Q, options: ▸[{text: A, because: B}, {text: C, because: D}]}"),
    _item(
        "choice-all-right",
        "{ask: choice, question: Q, options: ▸[{text: A, because: B, right: yes}, {text: C, because: D, right: yes}]}",
    ),
    _lesson(
        "minutes-sum",
        write_lesson(
            head=HEAD.replace("minutes: 10", "minutes: ▸10"),
            body="- part: {title: A, minutes: 6}\n- part: {title: B, minutes: 5}\n",
        ),
    ),
    # Across a lesson and across files
    _head("id-doubled", "[{id: o, text: Do it}]", "[{id: o, text: Do it}, {id: ▸o, text: Do it again}]"),
    _body("id-doubled", "- practice: {id: ▸shown, title: P, items: [{ask: answer, problem: 1 + 1}]}\n"),
    _body(
        "id-doubled",
        "- practice:\n    id: p\n    title: P\n    items:\n"
        "      - {id: i, ask: answer, problem: 1 + 1}\n      - {id: ▸i, ask: answer, problem: 1 + 2}\n",
    ),
    _course("id-doubled", "modules: [a]", "modules: [a, ▸a]"),
    _course(
        "id-doubled",
        "[{id: exchange, text: I can exchange.}]",
        "[{id: exchange, text: I can.}, {id: ▸exchange, text: I can.}]",
    ),
    Case("id-doubled", "glossary.yml", "terms:\n- {term: Bar, meaning: M}\n- {term: ▸bar, meaning: M}\n"),
    _course("lesson-unknown", "modules: [a]", "modules: [a, ▸b]"),
    _course("lesson-unknown", "modules: [a]", "modules: [a]\npaths: [{id: p, title: P, lessons: [▸c]}]"),
    _head("lesson-unknown", "minutes: 10", "minutes: 10\nneeds: ▸b"),
    _head("needs-itself", "minutes: 10", "minutes: 10\nneeds: [▸a]"),
    Case("lesson-unlisted", "modules/02-b.lesson.yml", "▸" + write_lesson()),
    Case("term-unknown", "glossary.yml", "terms: [{term: Bar, meaning: M, see: [▸Beam]}]\n"),
    _item("objective-unknown", "{ask: answer, objective: ▸p, problem: 1 + 1}"),
    _body(
        "objective-unknown",
        "- practice: {id: p, title: P, objective: ▸p, items: [{ask: answer, problem: 1 + 1}]}\n",
    ),
    _head("objective-uncovered", "[{id: o, text: Do it}]", "[{id: o, text: Do it}, {id: ▸q, text: Do more}]"),
    _body("caution-unknown", "- caution: ▸shared-frame\n"),
    _body("rating-unknown", "- rating: {when: before, items: ▸exchanges}\n"),
    _item("rating-unknown", "{ask: rating, when: after, items: [exchange, ▸other]}"),
    _body(
        "lesson-items",
        "- practice:\n    id: p\n    title: P\n    items:\n"
        + "".join(
            f"      - {'▸' if seed == 3 else ''}{{draw: {{operation: add, digits: 2, count: 60, seed: {seed}}}}}\n"
            for seed in range(5)
        ),
    ),
    _item("lesson-steps", "▸{draw: {operation: add, digits: [6, 6], count: 60, pool: 60}}"),
    _course("lesson-unknown", "cautions:", "certificate: {lessons: [a, ▸b]}\ncautions:"),
    _course("certificate-objective", "cautions:", "certificate: {objectives: [a/o, ▸a/q]}\ncautions:"),
    _course("certificate-objective", "cautions:", "certificate: {objectives: [▸o]}\ncautions:"),
    _course("certificate-not-asked", "cautions:", "certificate: {lessons: [], objectives: [▸a/o]}\ncautions:"),
    _course("certificate-hours", "cautions:", "certificate: {hours: ▸1}\ncautions:"),
    Case(
        "certificate-confidence",
        "course.yml",
        COURSE.partition("confidence:")[0] + "certificate: {confidence: ▸both}\ncautions: {shared-frames: Clean it.}\n",
    ),
    # What the engine says
    _item("list-short", "{mix: {of: ▸b}}"),
    _item("draw-doubled", "{draw: {operation: add, digits: 2}}\n      - {draw: ▸{operation: add, digits: 2}}"),
    _body("problem-frame", "- walkthrough: {problem: ▸8 + 7, frame: {columns: 1}}\n"),
    _body("problem-frame", "- walkthrough: ▸3 - 5\n"),
    _item("problem-frame", "{ask: answer, frame: {columns: 2}, problem: ▸99 + 1}"),
    _item("problem-frame", "{draw: {operation: take, digits: 2, pin: [▸3 - 5]}}"),
    _item("problem-method", "{ask: answer, method: counting, problem: ▸3/4 + 1/8}"),
    _item("problem-method", "{draw: {operation: add, digits: 2, method: counting, pin: ▸3/4 + 1/8}}"),
    _body("figure-frame", "- figure: {reads: ▸305, frame: {columns: 2}}\n"),
    _body("figure-frame", "- figure: {beads: ▸[[2, 0]]}\n"),
    _item("figure-frame", "{ask: set, reads: ▸305, frame: nine-bead}"),
    _item("figure-frame", "{ask: read, reads: ▸12.5, frame: {columns: 4}}"),
    _item("method-unknown", "{ask: answer, method: ▸countng, problem: 1 + 1}"),
    _body("method-unknown", "- walkthrough: {problem: 1 + 1, method: ▸by-magic}\n"),
    _item("method-unknown", "{draw: {operation: add, digits: 1, method: ▸by-magic}}"),
    _item("problem-unmoved", "{ask: order-moves, problem: ▸8 + 0}"),
    _item("problem-unmoved", "{ask: carry-out, problem: ▸0 × 9}"),
    _item("step-unknown", "{ask: next-move, problem: 48 + 37, at: ▸9}"),
    _item("step-unknown", "{ask: order-moves, problem: 11 + 11, at: ▸1}"),
    _item("step-unknown", "{ask: find-slip, problem: 67 + 38, slip: exchange-dropped, at: ▸1}"),
    _item("slip-unknown", "{ask: find-slip, problem: 67 + 38, slip: ▸exchange-droped}"),
    _item("slip-unknown", "{draw: {operation: add, digits: 2, ask: find-slip, slip: ▸magic}}"),
    _item("slip-not-here", "{ask: find-slip, problem: 11 + 11, slip: ▸exchange-dropped}"),
    _item(
        "slip-not-here",
        "{draw: {operation: add, digits: 1, needs: direct, ask: find-slip, slip: ▸exchange-dropped}}",
    ),
    _item("draw-impossible", "{draw: ▸{operation: add, digits: [1, 1], needs: direct, runs_on: yes}}"),
    _item("draw-impossible", "{draw: ▸{operation: add, digits: [1, 1], needs: direct, count: 60}}"),
]
