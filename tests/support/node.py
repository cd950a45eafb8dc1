"""The checkers of tests/node, run by Node.js: an HTML validator over finished pages."""

import json
import shutil
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path

from tests.support import ROOT

NODE = ROOT / "tests" / "node"
MODULES = NODE / "node_modules"


def find_node() -> str:
    """Give the Node.js that `make node` settled on: the environment's own where there is one, else the system's."""
    own = Path(sys.executable).with_name("node")
    found = str(own) if own.exists() else shutil.which("node")
    assert found, "no Node.js: `make node` brings it"
    return found


def validate_html(pages: Sequence[Path]) -> list[str]:
    """Give each fault of the pages as `file:line:column: message [rule]`; none is an empty list."""
    # The rules of htmlvalidate.json let `role="list"` stand on a list: without it, one drawn without markers is no
    # list to VoiceOver.
    command = [find_node(), str(MODULES / "html-validate" / "bin" / "html-validate.mjs"), "--formatter", "json"]
    command += ["--config", str(NODE / "htmlvalidate.json"), *map(str, pages)]
    done = subprocess.run(command, cwd=NODE, capture_output=True, text=True, check=False)
    assert done.returncode in (0, 1), done.stderr
    return [
        f"{report['filePath']}:{fault['line']}:{fault['column']}: {fault['message']} [{fault['ruleId']}]"
        for report in json.loads(done.stdout)
        for fault in report["messages"]
    ]
