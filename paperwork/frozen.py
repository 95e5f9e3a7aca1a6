"""Records as `dataclass(frozen=True, slots=True)` makes them, at a tenth of what such a class costs.

For each class the library writes six functions as text and compiles them, half a millisecond in all, and a command has
a hundred classes. Here what a record does is the same few functions for all classes, but for `__init__`, which is
written once a class has had a few records: most have no more. Their fields are the library's: `field`, `fields`, `replace` and
`asdict` hold, and type checkers see no difference.
"""

from collections.abc import Callable
from dataclasses import MISSING, FrozenInstanceError, dataclass, field, fields
from operator import attrgetter
from typing import Any, TypeVar, cast, dataclass_transform

T = TypeVar("T")


@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def frozen(cls: type[T]) -> type[T]:
    """The class as a record: its fields in slots, equal by those that are compared, and never changed."""
    cls.__doc__ = cls.__doc__ or cls.__name__  # for a class without one the library would write its signature
    made: Any = dataclass(init=False, repr=False, eq=False, slots=True)(cls)
    known = fields(made)
    compared = [one.name for one in known if one.compare]
    made._compared = attrgetter(*compared) if compared else lambda _: ()
    made._filled = 0
    made.__init__, made.__eq__, made.__hash__, made.__repr__ = _fill_first, _equal, _hash, _show
    made.__setattr__ = made.__delattr__ = _refuse
    made.__reduce__ = _take_apart
    return made  # type: ignore[no-any-return]


FEW = 8
"""Records that are filled one field after the other before it is worth writing a function for them. Measured."""


def _fill_first(self: Any, /, *values: Any, **named: Any) -> None:
    """The `__init__` of the first records of a class."""
    made = type(self)
    made._filled += 1
    names = made.__match_args__
    given: dict[str, Any] = dict(zip(names, values, strict=False), **named)
    known = fields(made)
    needed = {one.name for one in known if one.default is MISSING and one.default_factory is MISSING}
    fits = len(given) == len(values) + len(named) and needed <= given.keys() <= set(names)
    if made._filled > FEW or not fits:  # what does not fit is refused in the words of Python
        made.__init__ = _write_init(made)
        made.__init__(self, *values, **named)
        return
    for one in known:
        value = given.get(one.name, one.default)
        if value is MISSING:
            value = cast(Callable[[], Any], one.default_factory)()
        object.__setattr__(self, one.name, value)
    if hasattr(made, "__post_init__"):
        self.__post_init__()


def _write_init(made: Any) -> Callable[..., None]:
    """`__init__` with the fields of a record as its arguments. It fills slots past `__setattr__`, which refuses."""
    given: dict[str, Any] = {"MISSING": MISSING}
    heads, lines = [], []
    for one in fields(made):
        given |= {f"put_{one.name}": getattr(made, one.name).__set__, f"default_{one.name}": one.default}
        value = one.name
        if one.default_factory is not MISSING:
            given[f"make_{one.name}"] = one.default_factory
            value = f"make_{one.name}() if {one.name} is MISSING else {one.name}"
        needed = one.default is MISSING and one.default_factory is MISSING
        heads.append(one.name if needed else f"{one.name}=default_{one.name}")
        lines.append(f"put_{one.name}(self, {value})")
    if hasattr(made, "__post_init__"):
        lines.append("self.__post_init__()")
    exec(f"def __init__({', '.join(['self', *heads])}):\n " + "\n ".join(lines or ["pass"]), given)
    written: Callable[..., None] = given["__init__"]
    return written


def _equal(self: Any, other: Any) -> Any:
    if other.__class__ is not self.__class__:
        return NotImplemented
    values = self._compared
    return values(self) == values(other)


def _hash(self: Any) -> int:
    return hash(self._compared(self))


def _show(self: Any) -> str:
    shown = ", ".join(f"{one.name}={getattr(self, one.name)!r}" for one in fields(self) if one.repr)
    return f"{self.__class__.__qualname__}({shown})"


def _refuse(_: Any, name: str, *__: Any) -> None:
    raise FrozenInstanceError(f"cannot change field {name!r}")


def _take_apart(self: Any) -> tuple[Any, ...]:
    """How a record travels to another process, or is copied."""
    return self.__class__, tuple(getattr(self, one.name) for one in fields(self))
