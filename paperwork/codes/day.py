"""Codes of the day, the licence and the venue."""

from functools import partial

from paperwork.codes.row import Code

_reference = partial(Code, stage="reference")

TABLE: tuple[Code, ...] = (
    Code(
        "time-backwards",
        "warning",
        "{what}",
        "correct one of the two times",
        "Two times are in the wrong order. Neither is used until one is corrected. After midnight write 24:30, or the "
        "date with the time.",
    ),
    Code(
        "bows-by-clock",
        "warning",
        "bows at {given} count from curtain up: the show would run for {longest} h",
        "write `{edit}` if that is clock time; if scenes, moves and intervals are too, write `times: clock` in day",
        "Times count from curtain up, unless the day says `times: clock`. Until this is corrected, battery hours and "
        "the plan of changes follow the scenes.",
        advice="write the bows as a time from curtain up, not a clock time",
        edit="day/bows={end}",
        decides=True,
    ),
    Code(
        "scenes-by-clock",
        "warning",
        "scene {scene} begins {given} after curtain up: no show runs that long",
        "write {meant} if {given} is clock time; if scenes, moves, intervals, bows and parts of the bill all are, "
        "write `times: clock` in day",
        "Times count from curtain up, so that they are right on every day, unless the day says `times: clock`. Battery "
        "hours are not worked out until this is corrected.",
        advice="write times: clock in day if all times are clock times; if not, write scenes, moves, intervals and "
        "bows from curtain up",
    ),
    Code(
        "day-uneven",
        "warning",
        "{field} has {count} times, {other} has {shows}",
        "give {field} one time for each, or one for all",
        "On a day of two shows, packs go on once for both, or once for each; bows are one for both, or one for each.",
        advice="give as many times as there are shows, or one for all",
    ),
    Code(
        "hire-short",
        "warning",
        "the hire of {items} from {firm} {what}, but {day}",
        "hire it for every day of the show, or correct dates",
        "Hired gear comes after the first day, or goes back before the last: it is missing on some days.",
    ),
    Code(
        "licence-dates",
        "warning",
        "the licence is for {start} to {end}, but the show plays on {day}",
        "renew the licence, or correct licensed or dates",
        "The show plays on a day that the licence does not cover. A clean plan is not a licence.",
    ),
    Code(
        "licence-place",
        "warning",
        "the licence is for {town}, but the show plays at {venue}",
        "get a licence for this place, or correct licensed for",
        "The licence is for another place than the venue of the show.",
    ),
    _reference(
        "overlay-field-barred",
        "error",
        "row {row} changes {name} of {section}, which a venue or a night cannot change",
        "it can change {allowed}",
        "A venue can change the spectrum, frequencies, racks and the day. Everything else is the same in every town, "
        "so change it in its own section.",
        advice="change it in its own section",
    ),
    _reference(
        "overlay-record-unknown",
        "error",
        "row {row} changes {record} of {section}, which is not in the show",
        "correct the row{hint}",
        "A row names the record that differs in a venue or on one night. This one is not in the show. Only a rack may "
        "be new in a venue: one of its rows then gives its channels.",
        edit="{at}/record={near}",
    ),
    _reference(
        "overlay-row-doubled",
        "error",
        "row {row} gives {name} of {record} as {value}, and row {first} as {other}",
        "keep the row that is right",
        "Two rows give different values for one field, in one venue or on one night.",
    ),
    _reference(
        "venue-unknown",
        "error",
        "venues has no venue {venue}",
        "{known}{hint}",
        "--venue names a venue that has no rows in the show file.",
        advice="name a venue of the section venues",
    ),
    Code(
        "performance-outside-run",
        "warning",
        "performance {performance} is on {date}, but the show plays from {start} to {end}",
        "correct its date, or dates of the show",
        "A performance is on a day outside the dates of the show. A rehearsal may be before them.",
    ),
    Code(
        "performances-many",
        "warning",
        "more than {most} performances differ in cast or times; this one and those after it were not checked",
        "check each of them with check --on",
        "A check looks at each performance with its own cast and times, up to a limit.",
    ),
    _reference(
        "performance-unknown",
        "error",
        "no single performance is called {name}",
        "{known}{hint}",
        "--on names a performance that is not in the section performances, or a date with several.",
        advice="name a performance of the section performances",
    ),
)
