"""The one home of the template engine: strict, autoescaped, templates from the shipped folder only."""

from collections.abc import Sequence
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


def render_policy(
    *, styles: Sequence[str], scripts: Sequence[str] = (), images: str = "", linked: bool = False, more: str = ""
) -> str:
    """A Content-Security-Policy (W3C, level 3) that allows nothing but the named shipped texts, set inline.

    `images` are the sources that pictures may come from, `more` further directives. `linked`: a style may come from the
    page's own server too.
    """
    own = ("'self'",) if linked else ()
    parts = [
        "default-src 'none'",
        f"style-src {' '.join((*map(_hash, styles), *own))}",
        f"script-src {' '.join(map(_hash, scripts))}" if scripts else "",
        "base-uri 'none'",
    ]
    parts += [f"img-src {images}" if images else "", more]
    return "; ".join(filter(None, parts))


def _hash(name: str) -> str:
    from base64 import b64encode
    from hashlib import sha256

    return f"'sha256-{b64encode(sha256(render_template(name).encode('utf-8')).digest()).decode('ascii')}'"
