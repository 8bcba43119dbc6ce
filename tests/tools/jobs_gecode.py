"""Solves the stops of a folder with MiniZinc and Gecode.

usage: jobs_gecode.py FOLDER MODEL SECONDS: FOLDER holds NAME.dzn files. Prints a line each, by name:
NAME MAKESPAN proven | NAME MAKESPAN open | NAME none proven | NAME none open
"""
import concurrent.futures
import os
import pathlib
import re
import subprocess
import sys


def solve(data, model, seconds):
    # fzn-gecode takes its own time limit, so that a killed run still tells its best.
    answer = subprocess.run(
        ["minizinc", "--solver", "org.gecode.gecode", "-O1", "--time-limit", str(int(1000 * seconds)), model, data],
        capture_output=True, text=True, check=False)
    found = re.findall(r"makespan=(\d+)", answer.stdout)
    is_proven = "==========" in answer.stdout or "=====UNSATISFIABLE" in answer.stdout
    if answer.returncode != 0:
        sys.stderr.write(answer.stderr)
    return found[-1] if found else "none", "proven" if is_proven else "open"


def main():
    folder, model, seconds = sys.argv[1], sys.argv[2], float(sys.argv[3])
    names = sorted(pathlib.Path(folder).glob("*.dzn"))
    with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
        answers = pool.map(lambda name: solve(str(name), model, seconds), names)
        for name, (makespan, proof) in zip(names, answers):
            print(name.stem, makespan, proof)


if __name__ == "__main__":
    main()
