"""Time, seconds of all cores and peak memory of every question by both engines, and whether their answers are equal.

    python tests/scale/measure.py WORKSPACE

Each answer is made in a process of its own, so that peaks do not mix, and written as Parquet; prints a table in Markdown.
"""

import os
import resource
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from questions import ENGINES, SQL, differing_rows


def peak_mib():
    """Peak memory of this process, by the kernel; the account of `getrusage` holds the parent's as well."""
    line = next(line for line in Path("/proc/self/status").read_text().splitlines() if "VmHWM" in line)
    return int(line.split()[1]) / 1024


def child(engine, question, workspace, into):
    """Answers once and prints seconds, seconds of all cores and peak MiB."""
    start = time.perf_counter()
    peak_of_program = ENGINES[engine](question, workspace, into)
    seconds = time.perf_counter() - start
    accounts = [resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)]
    cores = sum(used.ru_utime + used.ru_stime for used in accounts)
    print(seconds, cores, peak_of_program or peak_mib())


def run(engine, question, workspace, into):
    """The figures of a child, or why there are none."""
    done = subprocess.run(
        [sys.executable, __file__, "--child", engine, question, workspace, into],
        capture_output=True,
        text=True,
    )
    if done.returncode != 0:
        return None, f"ended with {done.returncode}: {done.stderr.strip().splitlines()[-1:]}"
    return [float(word) for word in done.stdout.split()], None


def main(workspace):
    folder = Path(tempfile.mkdtemp(dir=Path(workspace).parent))
    print(f"load of the machine {os.getloadavg()[0]:.1f}, {os.cpu_count()} cores\n")
    print("| Question | Rows of the answer | ours, streamed | DataFusion | Answers |\n|---|---|---|---|---|")
    for question in SQL:
        cells, answers = [], []
        for engine in ENGINES:
            into = str(folder / f"{question}-{engine}")
            figures, why = run(engine, question, workspace, into)
            if why:
                cells.append(why)
                continue
            seconds, cores, peak = figures
            cells.append(f"{seconds:.1f} s, {cores:.1f} s of a core, {peak:,.0f} MiB")
            answers.append(into)
        verdict, rows = "–", 0
        if len(answers) == 2:
            differing, (rows, others) = differing_rows(*answers)
            verdict = "equal" if differing == 0 and rows == others else f"{differing} rows differ"
        print(f"| {question} | {rows:,} | {cells[0]} | {cells[1]} | {verdict} |", flush=True)
        for answer in answers:
            shutil.rmtree(answer) if os.path.isdir(answer) else os.remove(answer)
    shutil.rmtree(folder)


if __name__ == "__main__":
    if sys.argv[1] == "--child":
        child(*sys.argv[2:6])
    else:
        main(sys.argv[1])
