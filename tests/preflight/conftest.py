"""These tests run only where they are asked for: whoever leaves out other marks has no Java for it."""

import pytest


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Take the tests of this folder out, unless the marks that were asked for are this one."""
    if config.getoption("markexpr") != "preflight":
        own = [item for item in items if item.get_closest_marker("preflight")]
        items[:] = [item for item in items if item not in own]
        config.hook.pytest_deselected(items=own)
