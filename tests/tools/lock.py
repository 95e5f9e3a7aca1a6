"""The exact versions that the papers of today are made with, as pip's constraints: what they need, and nothing of the tests.

python -m tests.tools.lock        writes tests/data/lock.txt from the libraries that are installed here
"""

from pathlib import Path

from paperwork.archive.bundle import list_versions

LOCK = Path(__file__).parents[1] / "data" / "lock.txt"
EXTRAS = ("scripts", "cjk")
"""The extras that draw; those of the page and of audit make no paper."""


def write_lock() -> str:
    """A line `name==version` for each library, in order."""
    versions = list_versions(EXTRAS)
    return "".join(f"{name}=={versions[name]}\n" for name in sorted(versions.keys() - {"paperwork", "python", "zlib"}))


if __name__ == "__main__":
    LOCK.write_text(write_lock(), encoding="utf-8")
