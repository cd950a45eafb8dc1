"""The query of DEVELOPERS.md over a folder of records names what is in a record, and nothing else."""

import dataclasses
import re

from beadwright.records.schema import SCHEMA, Attempt, CourseMark, Learner, Record
from tests.support import ROOT


def names(kind: type) -> set[str]:
    return {field.name for field in dataclasses.fields(kind)}


def test_the_query_names_what_a_record_has() -> None:
    found = re.search(r"```sql\n(.*?)```", (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8"), re.DOTALL)
    assert found is not None
    query = found[1]
    taken = set(re.findall(r"\$\.([\w.]+)", query))
    assert taken == {"learner.id", "saved", "attempts", "schema", "course.id"}
    assert {name.partition(".")[0] for name in taken} <= names(Record)
    assert "id" in names(Learner) & names(CourseMark)
    asked = dict(re.findall(r'"(\w+)": "(\w+)"', query))
    assert asked.keys() <= names(Attempt)
    assert asked.keys() == {"id", "lesson", "item", "right", "slip", "at"}
    assert f"'{SCHEMA}'" in query
