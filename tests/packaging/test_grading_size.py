"""What grades, tells and keeps an item's time in a page stays small: it loads with every lesson."""

import gzip

from tests.support import ROOT

SCRIPTS = ROOT / "site_templates" / "theme" / "assets" / "bw" / "js"
MOST_BYTES = 20_000


def test_grading_code_is_small() -> None:
    files = [SCRIPTS / "grading.js", SCRIPTS / "stopwatch.js", *sorted(SCRIPTS.glob("item*.js"))]
    assert len(files) >= 10
    assert len(gzip.compress(b"".join(path.read_bytes() for path in files))) <= MOST_BYTES
