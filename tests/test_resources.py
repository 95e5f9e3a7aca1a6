"""Templates, schemas and data are found from a checkout and from an installed package."""

import importlib.util
import subprocess
import sys
from pathlib import Path
from types import ModuleType

import pytest

from paperwork import resources


def _load_copy(package: Path) -> ModuleType:
    """The module as it would run from another place."""
    package.mkdir(parents=True, exist_ok=True)
    copy = package / "resources.py"
    copy.write_bytes(Path(resources.__file__).read_bytes())
    spec = importlib.util.spec_from_file_location("resources_copy", copy)
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_checkout_serves_schemas_from_its_root(tmp_path: Path) -> None:
    copy = _load_copy(tmp_path / "top" / "paperwork")
    (tmp_path / "top" / "pyproject.toml").touch()
    (tmp_path / "top" / "schemas").mkdir()
    (tmp_path / "top" / "schemas" / "a.json").write_text("œ", encoding="utf-8")
    assert copy.read_text("schemas", "a.json") == "œ"


def test_installed_package_serves_its_own_folder_first(tmp_path: Path) -> None:
    copy = _load_copy(tmp_path / "paperwork")
    (tmp_path / "pyproject.toml").touch()
    for folder, text in ((tmp_path / "templates", "outer"), (tmp_path / "paperwork" / "templates", "inner")):
        folder.mkdir()
        (folder / "page.html").write_text(text)
    assert copy.read_text("templates", "page.html") == "inner"


def test_folder_beside_an_installed_package_is_not_ours(tmp_path: Path) -> None:
    copy = _load_copy(tmp_path / "site-packages" / "paperwork")
    (tmp_path / "site-packages" / "templates").mkdir()
    with pytest.raises(FileNotFoundError, match="templates folder is missing"):
        copy.find_folder("templates")


def test_toml_is_read_from_the_package(tmp_path: Path) -> None:
    copy = _load_copy(tmp_path / "paperwork")
    (tmp_path / "paperwork" / "data").mkdir()
    (tmp_path / "paperwork" / "data" / "stocks.toml").write_text("[a4]\nwidth_um = 210000\n")
    assert copy.read_toml("stocks.toml") == {"a4": {"width_um": 210000}}


def test_import_leaves_the_slow_libraries_alone() -> None:
    code = "import sys, paperwork.resources; print(sorted({'importlib.resources', 'tomllib'} & set(sys.modules)))"
    found = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert found.stdout.strip() == "[]"
