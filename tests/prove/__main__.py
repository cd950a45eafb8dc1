"""`python -m tests.prove [KIND …] [--below N] [--processes N]`: prints its counts, ends with 1 if anything failed."""

from __future__ import annotations

import argparse
import sys
import time
from multiprocessing import Pool

from tests.prove import fractions, products, quotients, roots, sums
from tests.prove.tally import Counts, Job, Proof, Tally

PROOFS = {
    "sums": sums.build_proof,
    "products": products.build_proof,
    "quotients": quotients.build_proof,
    "roots": roots.build_proof,
    "fractions": fractions.build_proof,
}
"""What can be proved, by kind of problem; each is built for the numbers below a limit."""

PROCESSES = 2


def run_job(job: Job) -> tuple[str, Tally]:
    """Work one job and say which line it belongs to."""
    return job.line, job.work(*job.facts)


def run_proof(kind: str, proof: Proof, processes: int) -> bool:
    """Run all jobs, print a line as soon as the last job of it is done; gives whether everything holds."""
    tallies = {line: Tally() for line in proof.counts}
    waiting = {line: sum(job.line == line for job in proof.jobs) for line in proof.counts}
    started = time.monotonic()
    with Pool(processes) as pool:
        for line, tally in pool.imap_unordered(run_job, proof.jobs):
            tallies[line].add(tally)
            waiting[line] -= 1
            if waiting[line] == 0:
                print(format_line(line, tallies[line], proof.counts[line]), flush=True)
    whole = Tally()
    for tally in tallies.values():
        whole.add(tally)
    minutes, seconds = divmod(round(time.monotonic() - started), 60)
    print(f"{kind}: {whole.worked:,} walkthroughs worked and judged, {whole.steps:,} steps, ", end="")
    print(f"{whole.refused:,} problems refused, in {minutes} min {seconds} s")
    return all(holds(tallies[line], counts) for line, counts in proof.counts.items())


def holds(tally: Tally, counts: Counts) -> bool:
    """Whether nothing failed and the counts are those that arithmetic gives."""
    return tally.faults == [] and (tally.worked, tally.refused) == counts


def format_line(line: str, tally: Tally, counts: Counts) -> str:
    """One line's counts, and everything that is wrong with them."""
    text = f"  {line:<68} {tally.worked:>9,} worked {tally.steps:>10,} steps {tally.refused:>9,} refused"
    if holds(tally, counts):
        return text
    due = f"    FAILED: {counts.worked:,} should be worked and {counts.refused:,} refused"
    return "\n".join([text, due, *(f"    {fault}" for fault in tally.faults)])


def main() -> int:
    """Prove what is asked for, everything when nothing is named."""
    parser = argparse.ArgumentParser(prog="python -m tests.prove", description="The exhaustive proof of the engine")
    parser.add_argument("kinds", nargs="*", metavar="KIND", help=f"one of {', '.join(PROOFS)}")
    parser.add_argument("--below", type=int, default=1000, help="numbers from 0 to less than this (1000)")
    parser.add_argument("--processes", type=int, default=PROCESSES, help="how many work at once (2)")
    asked = parser.parse_args()
    unknown = set(asked.kinds) - set(PROOFS)
    if unknown:
        parser.error(f"nothing is called {', '.join(sorted(unknown))}")
    results = [run_proof(kind, PROOFS[kind](asked.below), asked.processes) for kind in asked.kinds or PROOFS]
    if all(results):
        print("Everything holds.")
        return 0
    print("SOME OF IT DOES NOT HOLD.")
    return 1


if __name__ == "__main__":
    sys.exit(main())
