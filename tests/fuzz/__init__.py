"""Inputs that nobody means well with, in great numbers: every way in, and what must hold of each.

    python -m tests.fuzz --inputs 100000 --seed 1     the long run
    python -m tests.fuzz --seed 1 --only 4711         one input again, with its files kept and its traceback

`seeds` are what is mutated, `texts`, `trees` and `packages` mutate it, `ways` run it through the real commands and the
page, `guard` watches the process, `runner` counts. A run is told by its seed: same seed, same inputs.
"""
