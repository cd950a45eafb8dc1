"""Every message of every finding, in one table: what should be there, what was found, and one next step.

The words are an author's own: text, number, list, key. A name in braces is filled in by whoever makes the finding.
"""

from __future__ import annotations

from typing import NamedTuple


class Message(NamedTuple):
    """What a finding says and the next step it gives."""

    says: str
    next_step: str


_FILES = {
    "file-missing": Message("should be here, found nothing", "{make}"),
    "file-name": Message(
        "should be named like 04-partner-of-10.lesson.yml, found {found}",
        "Use small letters, digits and hyphens, and end the name in .lesson.yml.",
    ),
    "file-doubled": Message(
        "should be the only lesson called {id}, found {other} as well", "Rename one of the two files."
    ),
    "file-unreadable": Message(
        "should be a file that can be read, found: {reason}",
        "Look at the file's permissions and whether it still exists.",
    ),
    "file-outside": Message(
        "should be inside the content folder, found a link that leads out of it",
        "Copy the file in instead of linking to it.",
    ),
    "file-link": Message(
        "should be a folder of its own, found a link to one", "Copy the folder in instead of linking to it."
    ),
    "file-letters": Message(
        "should have a name in UTF-8, found {found}", "Rename it with letters that every machine can write."
    ),
    "file-big": Message(
        "should be at most {most} KB, found {found} KB",
        "Split it into several lessons, or take out what is not lesson text.",
    ),
    "file-encoding": Message(
        "should be text saved as UTF-8, found {found}", "Save the file again and choose the encoding UTF-8."
    ),
    "file-character": Message(
        "should be plain text, found the control character {found}",
        "Delete that character; it may not show on the screen.",
    ),
    "file-more": Message("should be put right after what stands above, found more in this file", "Check again then."),
    "file-empty": Message("should be keys with values, found nothing", "Start it with a line such as “title: …”."),
}

_YAML = {
    "file-keys": Message(
        "should be keys with values, found something else", "Start it with a line such as “title: …”."
    ),
    "yaml-tab": Message("should be spaces, found a tab", "Replace the tab with spaces."),
    "yaml-start": Message(
        "should be text in quotes, found text that starts with {sign}", 'Put the text in quotes: "{sign}…".'
    ),
    "yaml-colon": Message(
        "should be one key and its value, found a colon where none can stand",
        "Put text that holds a colon in quotes, or see whether the line above lacks its colon.",
    ),
    "yaml-no-colon": Message(
        "should be a key with a colon after it, found none",
        "Write “key: value”, or line the text up with the text above it.",
    ),
    "yaml-indent": Message(
        "should line up with the lines around it, found a line that starts elsewhere or is of another kind",
        "Give all keys of one group, or all dashes of one list, the same number of spaces in front.",
    ),
    "yaml-bracket": Message(
        "should be a comma or a closing bracket, found neither",
        "Close what [ or {{ opens further up; text inside that holds , : ? [ ] {{ or }} needs quotes.",
    ),
    "yaml-more": Message(
        "should be the end of the value, found more text after a closing quote or bracket",
        "Put the whole text in quotes; quotes inside it need to be of the other kind.",
    ),
    "yaml-quote": Message(
        "should be closed by the same quote, found none to the end of the file",
        "Put the missing quote where the text ends.",
    ),
    "yaml-escape": Message(
        "should be plain signs, found a backslash in double quotes with something unknown after it",
        "Use single quotes around text with backslashes, or write the backslash twice.",
    ),
    "yaml-syntax": Message("should be YAML, found: {problem}", "Compare this line with one that works."),
    "yaml-documents": Message(
        "should be one document, found a second one after ---", "Take out the line ---, or make a file of its own."
    ),
    "yaml-anchor": Message(
        "should be a value in full, found the name &{name} for use elsewhere",
        "Take out &{name}; write out each value where it belongs.",
    ),
    "yaml-alias": Message("should be a value in full, found the reference *{name}", "Write out the value here."),
    "yaml-tag": Message(
        "should be a value without a tag, found the tag {tag}", "Take the tag out, or put the text in quotes."
    ),
    "yaml-depth": Message(
        "should be at most {most} levels deep, found one more", "Close the brackets, or put less inside each other."
    ),
    "key-not-text": Message("should be a key of plain text, found something else", "Write “key: value”."),
    "key-doubled": Message("should stand once, found {key} in line {line} already", "Keep one of the two."),
}

_SHAPES = {
    "key-unknown": Message("should be a known key, found {found}", "{near}"),
    "key-missing": Message("should have the key {key}, found none", "Add the line “{key}: …” here."),
    "not-keys": Message(
        "should be keys with values, found {found}", "Write “key: value” lines, each further in than this one."
    ),
    "not-list": Message("should be a list, found {found}", "Write each entry on a line of its own after “- ”."),
    "list-short": Message("should have at least {least}, found {found}", "Add what is missing."),
    "list-long": Message("should have at most {most}, found more", "Take some out, or spread them over several."),
    "block-kind": Message("should be a block of a known kind, found {found}", "{near}"),
    "block-two": Message(
        "should be the only key of its block, found a second kind of block",
        "Put “- ” in front of {key} to begin a new block.",
    ),
    "item-kind": Message("should be a known kind of item, found {found}", "{near}"),
    "item-ask": Message("should stand inside {key}, found it beside {key}", "Move it in: “{key}: {{…, ask: …}}”."),
}

_VALUES = {
    "not-text": Message("should be text, found {found}", "Write the text after the colon."),
    "text-long": Message("should be at most {most} characters, found {count}", "Shorten it, or split it."),
    "text-lines": Message("should be one line, found several", "Put it on one line."),
    "text-character": Message(
        "should be readable text, found the control character {sign}", "Take out the backslash escape that makes it."
    ),
    "value-whole": Message(
        "should be a whole number from {low} to {high}, found {found}", "Write digits only, such as {low}."
    ),
    "value-amount": Message(
        "should be a number from {low} to {high}, found {found}", "Write digits, with a point for decimals: 2.5."
    ),
    "value-date": Message("should be a day such as 2026-09-14, found {found}", "Write year-month-day in digits."),
    "value-share": Message(
        "should be a share from 0 to 1 or a percent up to 100 %, found {found}", "Write 0.8 or 80 %."
    ),
    "value-hours": Message(
        "should be hours from 0 to 1000 with at most two decimals, found {found}",
        "Write digits and a point, such as 0.75.",
    ),
    "value-yes-no": Message("should be yes or no, found {found}", "Write yes or no."),
    "value-id": Message(
        "should be small letters and digits with single hyphens between, found {found}",
        "Write a name such as {example}.",
    ),
    "value-language": Message("should be a language code, found {found}", "Write a code such as en or es."),
    "value-choice": Message("should be one of {choices}, found {found}", "{near}"),
    "value-number": Message(
        "should be a number that a frame can show, found {found}", "Write digits, such as 305 or 12.5."
    ),
    "value-beads": Message(
        "should be upper and lower beads set, one pair a column, found {found}",
        "Write a pair such as [1, 2] for each column, leftmost first.",
    ),
    "problem-text": Message("should be a problem, found {found}: {reason}", "{next_step}."),
}

_RULES = {
    "frame-kind": Message(
        "should be one way to name a frame, found {found}",
        "Write five-and-four, nine-bead, {{nine-bead: {{columns: 3}}}} or {{upper: 1, lower: 4, columns: 26}}.",
    ),
    "frame-shape": Message("should be a frame that exists, found {found}: {reason}", "{next_step}."),
    "figure-shows": Message("should have either reads or beads, found {found}", "Keep one of the two."),
    "draw-runs-on": Message(
        "should agree with needs, found no beside runs-on", "Take runs-on out of needs, or write runs_on: yes."
    ),
    "draw-pins": Message(
        "should be no more problems than count gives ({most}), found {count}", "Raise count, or pin fewer."
    ),
    "draw-pinned": Message("should not be banned as well, found {found} under ban", "Take it out of pin or of ban."),
    "draw-size": Message(
        "should come to at most {most} digits in all, found {count}", "Draw fewer numbers, or shorter ones."
    ),
    "draw-slip": Message(
        "should stand beside ask: find-slip, found ask: {ask}", "Take slip out, or write ask: find-slip."
    ),
    "item-digits": Message(
        "should be {wanted}, found {found}",
        "Write how many digits (1 to 15) each number of the problem has, such as [2, 2].",
    ),
    "choice-right": Message(
        "should have at least one right option, found none", "Write “right: true” on the option that is right."
    ),
    "choice-all-right": Message(
        "should have an option that is not right, found none", "Take “right: true” off the options that are wrong."
    ),
    "minutes-sum": Message(
        "should be at least the {sum} minutes of the lesson's parts, found {found}",
        "Change the lesson's minutes or those of its parts.",
    ),
}

_ACROSS = {
    "lesson-items": Message(
        "should bring the lesson to at most {most} items, found {count}", "Ask for fewer, or make two lessons of it."
    ),
    "lesson-steps": Message(
        "should bring the work of the lesson to at most {most} steps, found {count}",
        "Ask for fewer or shorter problems, set a smaller pool, or make two lessons of it.",
    ),
    "sheet-problems": Message(
        "should ask for at most {most} problems in all, found {count}", "Draw fewer, or make several files of it."
    ),
    "id-doubled": Message("should be used once, found {found} in line {line} already", "Choose another id."),
    "lesson-unlisted": Message(
        "should be listed under modules in course.yml, found no {found} there",
        "Add “- {id}” to modules where it belongs.",
    ),
    "lesson-unknown": Message("should be the id of a lesson, found {found}", "{near}"),
    "needs-itself": Message("should be another lesson, found this lesson itself", "Take it out of needs."),
    "needs-order": Message(
        "should come before this lesson in course.yml, found {found} after it",
        "Change the order of modules, or take it out of needs.",
    ),
    "needs-circle": Message("should not lead back here, found {circle}", "Take one of these out of needs."),
    "objective-unknown": Message("should be an objective of this lesson, found {found}", "{near}"),
    "objective-uncovered": Message(
        "should be practised by an item, found none",
        "Write “objective: {id}” on a practice or an item, or take the objective out.",
    ),
    "caution-unknown": Message("should be a standing caution of the course, found {found}", "{near}"),
    "rating-unknown": Message("should be a confidence item of the course, found {found}", "{near}"),
    "rating-none": Message(
        "should have confidence items to rate, found none in course.yml",
        "Add confidence to course.yml, or take the rating out.",
    ),
    "certificate-objective": Message(
        "should be an objective written as lesson/objective, such as {example}, found {found}", "{near}"
    ),
    "certificate-not-asked": Message(
        "should be an objective of a lesson that is asked, found {found}",
        "Add the lesson {lesson} to certificate › lessons, or take the objective out.",
    ),
    "certificate-hours": Message(
        "should be at most {most}, the hours of credit of the lessons of the course, found {found}",
        "Give lessons credit under modules, or ask for fewer hours.",
    ),
    "certificate-confidence": Message(
        "should be “none”, since the course asks for no confidence, found {found}",
        "Add confidence to course.yml, or take this line out.",
    ),
    "term-unknown": Message("should be a term of the glossary, found {found}", "{near}"),
}

_ENGINE = {
    "draw-doubled": Message(
        "should differ from the draw of line {line}, found the same",
        "Give it another seed, or raise the count of the first.",
    ),
    "problem-frame": Message("should fit the frame, found {found}: {reason}", "{next_step}."),
    "problem-method": Message("should be a problem for this method, found {found}: {reason}", "{next_step}."),
    "figure-frame": Message("should fit the frame, found {found}: {reason}", "{next_step}."),
    "method-unknown": Message("should be a method, found {found}", "{near}"),
    "problem-unmoved": Message("should be a problem with {what}, found {found}", "Choose another problem."),
    "step-unknown": Message("should be a step with {what}, found {found}", "{near}"),
    "slip-unknown": Message("should be a slip, found {found}", "{near}"),
    "slip-not-here": Message("should be a slip that this problem allows, found {found}", "{near}"),
    "mix-lesson": Message(
        "should be a lesson that this one needs, directly or through others, found {found}", "{near}"
    ),
    "mix-objective": Message("should be an objective of the lesson {lesson}, found {found}", "{near}"),
    "mix-impossible": Message("should be problems that exist, found too few: {reason}", "{next_step}."),
    "draw-impossible": Message("should be problems that exist, found too few: {reason}", "{next_step}."),
}

MESSAGES: dict[str, Message] = _FILES | _YAML | _SHAPES | _VALUES | _RULES | _ACROSS | _ENGINE
"""Message by code. A code keeps its meaning; people look it up."""
