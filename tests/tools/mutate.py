"""How much the tests would notice: small faults are put into the code, one at a time, and the nearest tests must fail.

python -m tests.tools.mutate paperwork/checks --sample 40 --seed 1

A mutant is drawn by the digest of the seed and of itself, so that an edit elsewhere leaves the sample as it is. It lives
in the memory of a forked process; nothing on the disk changes, and a test that starts a program of its own does not meet
it. Prints each survivor as a difference, and the score: the share that failed a test or ran out of time. Mutants that
cannot change what the code does are listed with a reason in `equivalent_mutants.txt`. Needs fork, so no Windows.
"""

import argparse
import ast
import copy
import difflib
import hashlib
import importlib.abc
import importlib.util
import os
import resource
import signal
import sys
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, settings

from paperwork.codes import CODES

ROOT = Path(__file__).parents[2]
EQUIVALENT = Path(__file__).with_name("equivalent_mutants.txt")

SHOWS = ("tests/test_broken_shows.py::test_broken_show_is_guilty_of_just_what_it_marks", "tests/test_near_misses.py")

NEAREST: dict[str, tuple[str, ...]] = {
    "build": (*SHOWS, *(f"tests/test_{name}.py" for name in ("build", "every_fact", "fields", "facts", "regions"))),
    "changes": (
        "tests/changes",
        *(f"tests/test_{name}.py" for name in ("revisions", "change_list", "pages_reprinted")),
    ),
    "checks": (*SHOWS, "tests/checks", "tests/test_fixes.py"),
    "coordinate": (
        *SHOWS,
        *(f"tests/test_{name}.py" for name in ("regions", "air", "swept", "survey", "assign", "coordinate", "fixes")),
    ),
    "plan": (*SHOWS, "tests/plan"),
    "text": tuple(
        f"tests/test_{name}.py" for name in ("fingerprint", "units", "names", "spellings", "vocabulary", "glyphs")
    ),
    "radio": tuple(f"tests/radio/test_{name}.py" for name in ("sweep", "bands", "spacing", "search")),
    "radio/products": tuple(f"tests/radio/test_{name}.py" for name in ("spacing", "hits", "counts")),
    "radio/board": tuple(f"tests/radio/test_{name}.py" for name in ("occupancy", "coarse", "places")),
    "radio/search": tuple(f"tests/radio/test_{name}.py" for name in ("rulers", "search")),
}
"""The tests of a room or a floor, the quickest first. Of any other they are `tests/ROOM` and `tests/test_ROOM.py`."""

PRELOADED = ("numpy", "openpyxl", "yaml")
"""What most tests import and no mutant touches: loaded once, and not in each process."""

SKIPPED = frozenset({"annotation", "returns", "decorator_list", "bases", "msg"})
OPPOSED = ((ast.Lt, ast.LtE), (ast.Gt, ast.GtE), (ast.Eq, ast.NotEq), (ast.Is, ast.IsNot), (ast.In, ast.NotIn))
COMPARED = {one: other for pair in OPPOSED for one, other in (pair, pair[::-1])}

Put = Callable[[ast.AST], None]


@dataclass(frozen=True)
class Mutant:
    """One fault: the file, the function, which node becomes which of its replacements, and the lines that differ."""

    path: Path
    scope: str
    node: int
    variant: int
    old: tuple[str, ...]
    new: tuple[str, ...]
    number: int = 1

    @property
    def key(self) -> str:
        """What it is, wherever it is in the file."""
        lines = f"{' / '.join(self.old)} -> {' / '.join(self.new)}"
        again = f" #{self.number}" if self.number > 1 else ""
        return f"{self.path.relative_to(ROOT)} {self.scope}: {lines}{again}"


def walk(node: ast.AST, put: Put = lambda new: None) -> Iterator[tuple[ast.AST, Put]]:
    """Every node whose change could matter, and what puts another in its place; types, decorators, asserts are passed over."""
    yield node, put
    for name, value in ast.iter_fields(node):
        if name in SKIPPED or (isinstance(node, ast.keyword) and node.arg == "strict"):
            continue
        if isinstance(value, list):
            for i, child in enumerate(value):
                if isinstance(child, ast.AST) and not isinstance(child, ast.Assert):
                    yield from walk(child, lambda new, held=value, i=i: held.__setitem__(i, new))
        elif isinstance(value, ast.AST):
            yield from walk(value, lambda new, name=name: setattr(node, name, new))


def replace(node: ast.AST) -> Iterator[ast.AST]:
    """What a node could have been by mistake."""
    match node:
        case ast.Compare():
            for i, op in enumerate(node.ops):
                ops = [*node.ops[:i], COMPARED[type(op)](), *node.ops[i + 1 :]]
                yield ast.Compare(node.left, ops, node.comparators)
        case ast.Constant(value=bool(value)):
            yield ast.Constant(not value)
        case ast.Constant(value=int(value)):
            yield ast.Constant(value + 1)
        case ast.Constant(value=str(value)) if value in CODES:
            codes = sorted(CODES)
            yield ast.Constant(codes[codes.index(value) - 1])
        case ast.Subscript(value=ast.Name("where") | ast.Attribute(attr="where"), slice=ast.Constant(str(field))):
            yield ast.Subscript(node.value, ast.Constant(f"{field} "), node.ctx)
        case ast.BinOp(op=ast.Add() | ast.Sub()):
            yield ast.BinOp(node.left, ast.Sub() if isinstance(node.op, ast.Add) else ast.Add(), node.right)
        case ast.BoolOp():
            yield ast.BoolOp(ast.Or() if isinstance(node.op, ast.And) else ast.And(), node.values)
        case ast.UnaryOp(op=ast.Not()):
            yield node.operand
        case ast.Return(value=ast.expr() as value) if not (isinstance(value, ast.Constant) and value.value is None):
            yield ast.Return(ast.Constant(None))
        case ast.If() | ast.IfExp() if isinstance(node.test, ast.Name | ast.Attribute | ast.Call):
            turned = copy.copy(node)
            turned.test = ast.UnaryOp(ast.Not(), node.test)
            yield turned
        case ast.AugAssign() | ast.Expr(value=ast.Call()):
            yield ast.Pass()
        case ast.Expr(value=ast.Yield() | ast.YieldFrom()):
            yield ast.If(ast.Constant(False), [node], [])


def list_scopes(tree: ast.Module) -> Iterator[tuple[str, ast.stmt]]:
    """Functions, methods and statements outside of them, by name; together they hold every node once."""
    for node in tree.body:
        if isinstance(node, ast.ClassDef):
            for inner in node.body:
                yield f"{node.name}.{getattr(inner, 'name', '')}".rstrip("."), inner
        else:
            yield getattr(node, "name", "module"), node


def list_mutants(path: Path) -> list[Mutant]:
    """Every mutant of a file, in its order."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    numbers = {id(node): number for number, (node, _) in enumerate(walk(tree))}
    found: list[Mutant] = []
    seen: Counter[str] = Counter()
    for scope, top in list_scopes(tree):
        before = ast.unparse(top).splitlines()
        for node, put in list(walk(top)):
            if node is top:
                continue
            for variant, other in enumerate(replace(node)):
                put(other)
                delta = list(difflib.unified_diff(before, ast.unparse(top).splitlines(), n=0, lineterm=""))[2:]
                put(node)
                old = tuple(line[1:].strip() for line in delta if line.startswith("-"))
                new = tuple(line[1:].strip() for line in delta if line.startswith("+"))
                mutant = Mutant(path, scope, numbers[id(node)], variant, old, new)
                seen[mutant.key] += 1
                found.append(Mutant(path, scope, numbers[id(node)], variant, old, new, seen[mutant.key]))
    return found


def draw(mutants: Sequence[Mutant], count: int, seed: int) -> list[Mutant]:
    """So many of them, the same for the same seed whatever else is in the files."""
    return sorted(mutants, key=lambda one: hashlib.sha256(f"{seed} {one.key}".encode()).digest())[:count]


class Altered(importlib.abc.MetaPathFinder, importlib.abc.Loader):
    """Loads one module as a mutant, and leaves all others to Python."""

    def __init__(self, mutant: Mutant) -> None:
        self.path = mutant.path
        self.name = ".".join(mutant.path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__")
        self.tree = ast.parse(mutant.path.read_text(encoding="utf-8"))
        node, put = list(walk(self.tree))[mutant.node]
        put(list(replace(node))[mutant.variant])

    def find_spec(self, fullname, path, target=None):
        """Python's question for a module; None for all but the one."""
        if fullname != self.name:
            return None
        inside = [str(self.path.parent)] if self.path.name == "__init__.py" else None
        return importlib.util.spec_from_file_location(
            fullname, self.path, loader=self, submodule_search_locations=inside
        )

    def exec_module(self, module):
        """The mutant runs as the module."""
        exec(compile(ast.fix_missing_locations(self.tree), str(self.path), "exec"), module.__dict__)


def run_tests(tests: Sequence[str], mutant: Mutant | None, limit_s: int) -> tuple[str, float]:
    """`killed`, `survived` or `timed out`, and the seconds of processor time, in a process of its own."""
    sys.stdout.flush()
    child = os.fork()
    if not child:
        code = 70
        try:
            code = _run_here(tests, mutant, limit_s)
        finally:
            os._exit(code)
    _, status, used = os.wait4(child, 0)
    seconds = used.ru_utime + used.ru_stime
    if os.WIFSIGNALED(status) and os.WTERMSIG(status) in (signal.SIGXCPU, signal.SIGALRM):
        return "timed out", seconds
    return "killed" if status else "survived", seconds


def _run_here(tests: Sequence[str], mutant: Mutant | None, limit_s: int) -> int:
    """Processor time is limited, so that a busy machine is no verdict; a clock ends what sleeps."""
    resource.setrlimit(resource.RLIMIT_CPU, (limit_s, limit_s + 1))
    resource.setrlimit(resource.RLIMIT_AS, (3 << 30, 3 << 30))
    signal.alarm(20 * limit_s)
    for number in (1, 2):
        os.dup2(os.open(os.devnull, os.O_WRONLY), number)
    for name in [name for name in sys.modules if name.split(".")[0] in ("paperwork", "tests")]:
        del sys.modules[name]
    if mutant:
        sys.meta_path.insert(0, Altered(mutant))
    # A fault has only to be met: making the example small would take most of the time.
    settings.register_profile(
        "mutants",
        derandomize=True,
        deadline=None,
        database=None,
        phases=[Phase.explicit, Phase.generate],
        suppress_health_check=[HealthCheck.too_slow],
    )
    options = ["-x", "-q", "-p", "no:cacheprovider", "--hypothesis-profile=mutants"]
    return int(pytest.main([*options, *tests]))


def find_tests(path: Path) -> tuple[str, ...]:
    """The tests nearest to a file of the package."""
    parts = path.relative_to(ROOT / "paperwork").with_suffix("").parts
    usual = (f"tests/{parts[0]}", f"tests/test_{parts[0]}.py")
    known = NEAREST.get("/".join(parts[:2])) or NEAREST.get(parts[0])
    return known or tuple(one for one in usual if (ROOT / one).exists())


def read_equivalent() -> dict[str, str]:
    """By the key of a mutant that cannot change what the code does the reason: a line each, the reason indented."""
    found: dict[str, str] = {}
    key = ""
    for line in EQUIVALENT.read_text(encoding="utf-8").splitlines():
        if line.startswith(" "):
            found[key] = f"{found[key]} {line.strip()}".strip()
        elif line and not line.startswith("#"):
            key, found[line] = line, ""
    return found


def try_target(target: Path, count: int, seed: int) -> Counter[str]:
    """What became of a sample of a file or folder, told as it goes on."""
    files = sorted(target.rglob("*.py")) if target.is_dir() else [target]
    every = [mutant for path in files for mutant in list_mutants(path)]
    equivalent = read_equivalent()
    became: Counter[str] = Counter()
    limits_s: dict[tuple[str, ...], int] = {}
    for mutant in draw([one for one in every if one.key not in equivalent], count, seed):
        tests = find_tests(mutant.path)
        if tests not in limits_s:
            verdict, seconds = run_tests(tests, None, 600)
            if verdict != "survived":
                sys.exit(f"the tests fail without a mutant: {' '.join(tests)}")
            limits_s[tests] = 5 + 2 * int(seconds)
        verdict, seconds = run_tests(tests, mutant, limits_s[tests])
        became[verdict] += 1
        if verdict == "survived":
            print(f"survived: {mutant.key}", flush=True)
    print(
        f"{target.relative_to(ROOT)}: {word(became)} (sample {became.total()} of {len(every)}, seed {seed})", flush=True
    )
    return became


def word(became: Counter[str]) -> str:
    """`92 % noticed: 35 killed, 2 timed out, 3 survived`."""
    kinds = ", ".join(f"{became[verdict]} {verdict}" for verdict in ("killed", "timed out", "survived"))
    return f"{score(became)} % noticed: {kinds}"


def score(became: Counter[str]) -> int:
    """The share that the tests noticed, in whole per cent, rounded down."""
    return 100 * (became.total() - became["survived"]) // max(1, became.total())


def main() -> None:
    """Exit code 1 where the tests notice less than `--least` asks."""
    parser = argparse.ArgumentParser(prog="python -m tests.tools.mutate", description=__doc__.partition("\n")[0])
    parser.add_argument("targets", nargs="+", type=Path, help="files or folders of the package")
    parser.add_argument("--sample", type=int, default=40, help="mutants drawn for each target (default 40)")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--least", type=int, default=0, help="the least score in per cent over all targets")
    given = parser.parse_args()
    os.chdir(ROOT)
    for name in PRELOADED:
        importlib.import_module(name)
    became = sum((try_target(one.resolve(), given.sample, given.seed) for one in given.targets), Counter[str]())
    print(word(became))
    sys.exit(score(became) < given.least)


if __name__ == "__main__":
    main()
