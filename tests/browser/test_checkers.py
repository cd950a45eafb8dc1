"""No finding of axe-core or of IBM's engine on any kind of page in any state.

Every run checks each state in one scheme and width, and every page as it opens; the whole matrix of schemes and widths
takes long and is for `make prove` (`pytest -m prove`).
"""

from pathlib import Path

import pytest

from tests.support.axe import find_axe_findings
from tests.support.ibm import find_ibm_findings
from tests.support.pages import Visitor
from tests.support.states import SCHEMES, STATES, WIDTHS, State

pytestmark = pytest.mark.browser


@pytest.mark.parametrize("state", STATES, ids=lambda state: state.name)
def test_each_state_has_no_finding(visit: Visitor, state: State) -> None:
    page = state.open(visit)
    assert find_axe_findings(page) + find_ibm_findings(page) == []


@pytest.mark.prove
@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("scheme", SCHEMES)
@pytest.mark.parametrize("state", STATES, ids=lambda state: state.name)
def test_each_state_has_no_finding_in_any_scheme_at_any_width(
    visit: Visitor, state: State, scheme: str, width: int
) -> None:
    page = state.open(visit, scheme=scheme, width=width)
    assert find_axe_findings(page) + find_ibm_findings(page) == []


def test_every_page_has_no_finding_of_axe(visit: Visitor, built_site: Path) -> None:
    paths = sorted(built_site.rglob("*.html"))
    assert len(paths) >= 15
    found = {}
    for path in paths:
        page = visit.open(str(path.relative_to(built_site)), width=768)
        found[path.name] = find_axe_findings(page)
        page.close()
    assert {name: findings for name, findings in found.items() if findings} == {}


@pytest.mark.prove
def test_every_page_has_no_finding_of_ibm(visit: Visitor, built_site: Path) -> None:
    found = {}
    for path in sorted(built_site.rglob("*.html")):
        page = visit.open(str(path.relative_to(built_site)))
        found[path.name] = find_ibm_findings(page)
        page.close()
    assert {name: findings for name, findings in found.items() if findings} == {}


def test_the_engine_does_find_faults(visit: Visitor) -> None:
    page = visit.open("index.html")
    page.evaluate(
        "document.querySelector('main').insertAdjacentHTML('beforeend', '<img src=\"x.png\"><button></button>')"
    )
    visit.complaints.clear()  # the picture is missing on purpose
    rules = {finding.split(":")[0] for finding in find_ibm_findings(page)}
    assert {"img_alt_valid", "aria_widget_labelled"} & rules
    visit.complaints.clear()
