"""Learners' records -> the trainer's report: reading and merging, tables, page, workbook and data file."""

from beadwright.records.cohort import Cohort, build_cohort, read_cohort
from beadwright.records.merging import Person, Who, merge_person
from beadwright.records.outline import Outline, build_outline
from beadwright.records.reading import SetAside, read_folder, read_record
from beadwright.records.report import Report, build_report
from beadwright.records.schema import Attempt, Mark, Rating, Record
from beadwright.records.standing import Standing, build_standing
from beadwright.records.statistics import Paired, Reliability, Scores, compare_pairs, find_item_total, find_reliability
from beadwright.records.tables import Table
from beadwright.records.visits import Visits, VisitsError, load_visits

__all__ = [
    "Attempt",
    "Cohort",
    "Mark",
    "Outline",
    "Paired",
    "Person",
    "Rating",
    "Record",
    "Reliability",
    "Report",
    "Scores",
    "SetAside",
    "Standing",
    "Table",
    "Visits",
    "VisitsError",
    "Who",
    "build_cohort",
    "build_outline",
    "build_report",
    "build_standing",
    "compare_pairs",
    "find_item_total",
    "find_reliability",
    "load_visits",
    "merge_person",
    "read_cohort",
    "read_folder",
    "read_record",
]
