"""Numbers in UEB, against the back-translation of liblouis. Debian's liblouis-bin is part of what tests install."""

import shutil
import subprocess
from random import Random

from beadwright.render.braille import UEB, build_number_row, write_row
from tests.render.braille.problems import draw_number


def test_liblouis_reads_numbers_as_they_were_written() -> None:
    command = shutil.which("lou_translate")
    assert command, "no liblouis: `make browser` installs it with chromium"
    chance = Random("numbers for liblouis")
    numbers = [draw_number(chance) for _ in range(500)]
    lines = [write_row(build_number_row(number), UEB) for number in numbers]
    done = subprocess.run(
        [command, "--backward", "unicode.dis,en-ueb-g1.ctb"],
        input="\n".join(lines) + "\n",
        capture_output=True,
        text=True,
        check=True,
    )
    assert [line.replace(",", "") for line in done.stdout.splitlines()] == [n.lstrip() for n in numbers]
