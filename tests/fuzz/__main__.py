"""`python -m tests.fuzz --inputs 100000 --seed 1`: the long run. Exit code 1 if anything broke."""

import argparse
import re
import sys
import time
from collections import Counter
from pathlib import Path

from tests.fuzz.runner import Fault, Runner, feed, run_all


def main() -> int:
    """Runs what was asked for."""
    parser = argparse.ArgumentParser(prog="python -m tests.fuzz")
    parser.add_argument("--inputs", type=int, default=3_000, help="how many")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--start", type=int, default=0, help="number of the first")
    parser.add_argument("--way", default="", help="only this way in, by the name of its function in ways.py")
    parser.add_argument("--only", type=int, help="one input again, with its traceback")
    parser.add_argument("--keep", type=Path, help="where the files of --only are kept")
    parser.add_argument("--feed", default="", help=argparse.SUPPRESS)
    asked = parser.parse_args()
    if asked.feed:
        feed(*map(int, asked.feed.split(",")), asked.way)
    if asked.only is not None:
        return _run_one(asked)
    began, found, seen = time.monotonic(), [], Counter()
    for told in run_all(asked.seed, asked.start, asked.start + asked.inputs, asked.way):
        if isinstance(told, Fault):
            found.append(told)
            kind = re.sub(r"[0-9]+|'[^']*'", "_", told.text)
            seen[kind] += 1
            if seen[kind] <= 2:
                print(f"{told.number} {told.way}: {told.text}", flush=True)
        else:
            print(f"{told - asked.start} inputs, {len(found)} faults, {time.monotonic() - began:.0f} s", flush=True)
    for text, count in seen.most_common():
        print(f"{count:5d}  {text}")
    return int(bool(found))


def _run_one(asked: argparse.Namespace) -> int:
    runner = Runner()
    keep = asked.keep.resolve() if asked.keep else None
    try:
        fault = runner.run(asked.seed, asked.only, asked.way, keep)
    finally:
        runner.close()
    print(fault or "all held")
    return int(fault is not None)


if __name__ == "__main__":
    sys.exit(main())
