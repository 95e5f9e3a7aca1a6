"""`python -m tests.tools.wall --histories 5000`: histories of a wall beyond those of the sweep, in blocks of 50 by seed."""

import argparse

from tests.wall_histories import live_through_many

BLOCK = 50


def main() -> None:
    """Lives through as many histories as asked for; the first wrong wall ends it, with its seed on the last line."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--histories", type=int, default=500)
    parser.add_argument("--seed", type=int, default=100, help="of the first block")
    chosen = parser.parse_args()
    for start in range(0, chosen.histories, BLOCK):
        number = chosen.seed + start // BLOCK
        print(f"seed {number}: {min(BLOCK, chosen.histories - start)} histories", flush=True)
        live_through_many(min(BLOCK, chosen.histories - start), number)


if __name__ == "__main__":
    main()
