"""The one home of the template engine: strict, autoescaped, templates from the shipped folder only."""

from functools import cache
from typing import TYPE_CHECKING, Any

from paperwork.resources import find_folder

if TYPE_CHECKING:
    from jinja2 import Environment


@cache
def _environment() -> "Environment":
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    return Environment(
        loader=FileSystemLoader(find_folder("templates")),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )


def render_template(name: str, **values: Any) -> str:
    """The text of a shipped template filled with values; every value is escaped, a missing one is an error."""
    return _environment().get_template(name).render(**values)
