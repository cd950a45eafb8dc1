"""The checkers of tests/node, run by Node.js: an HTML validator over finished pages, TypeScript reading scripts."""

import json
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Sequence
from pathlib import Path

from tests.support import ROOT

NODE = ROOT / "tests" / "node"
VALIDATOR = NODE / "node_modules" / "html-validate" / "bin" / "html-validate.mjs"


def find_node() -> str:
    """Give the Node.js that `make node` settled on: the environment's own where there is one, else the system's."""
    own = Path(sys.executable).with_name("node")
    found = str(own) if own.exists() else shutil.which("node")
    assert found, "no Node.js: `make node` brings it"
    return found


def validate_html(pages: Sequence[Path]) -> list[str]:
    """Give each fault of the pages as `file:line:column: message [rule]`; none is an empty list.

    What htmlvalidate.json lets stand, and why: `role="list"` on a list, because one drawn without markers is otherwise
    no list to VoiceOver; a form without a submit button, because what is kept while it is typed needs none.
    """
    with tempfile.TemporaryDirectory() as folder:
        # Into a file: the validator ends before a pipe has taken all of a long report.
        report = Path(folder, "report.json")
        command = [find_node(), str(VALIDATOR), "--formatter", f"json={report}", "--config", "htmlvalidate.json"]
        done = subprocess.run([*command, *pages], cwd=NODE, capture_output=True, text=True, check=False)
        assert done.returncode in (0, 1), done.stderr
        results = json.loads(report.read_text(encoding="utf-8"))
    return [
        f"{result['filePath']}:{fault['line']}:{fault['column']}: {fault['message']} [{fault['ruleId']}]"
        for result in results
        for fault in result["messages"]
    ]


def print_scripts(texts: Sequence[str]) -> list[str]:
    """Give each script as TypeScript's printer writes it: in one layout, without comments."""
    code = """
        const typescript = require("typescript");
        const texts = JSON.parse(require("fs").readFileSync(0, "utf-8"));
        const printer = typescript.createPrinter({ removeComments: true });
        const read = (text) => typescript.createSourceFile("a.js", text, typescript.ScriptTarget.Latest);
        console.log(JSON.stringify(texts.map((text) => printer.printFile(read(text)))));
    """
    command = [find_node(), "-e", code]
    done = subprocess.run(command, cwd=NODE, input=json.dumps(texts), capture_output=True, text=True, check=True)
    printed: list[str] = json.loads(done.stdout)
    return printed
