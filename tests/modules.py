"""The modules of the package as trees of syntax, each parsed once for all tests that read the code."""

import ast
from functools import cache
from pathlib import Path

import paperwork

PACKAGE = Path(paperwork.__file__).parent
MODULES = tuple(sorted(PACKAGE.rglob("*.py")))


@cache
def tree_of(path: Path) -> ast.Module:
    """The syntax of a module."""
    return ast.parse(path.read_text(encoding="utf-8"))


@cache
def nodes_of(path: Path) -> tuple[ast.AST, ...]:
    """Everything in a module, in no order of use."""
    return tuple(ast.walk(tree_of(path)))


def name_of(path: Path) -> str:
    """The name by which a module is imported."""
    return ".".join(path.relative_to(PACKAGE.parent).with_suffix("").parts).removesuffix(".__init__")


@cache
def imports_of(path: Path) -> frozenset[str]:
    """The full names that a module imports, also inside its functions."""
    found = set()
    for node in nodes_of(path):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: relative import"
            found |= {f"{node.module}.{alias.name}" for alias in node.names}
    return frozenset(found)
