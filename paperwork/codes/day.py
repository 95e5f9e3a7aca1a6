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
        "Two times are in the wrong order. Both are ignored until one is corrected. A time of day after midnight is written as "
        "24:30, or with its date.",
    ),
    Code(
        "bows-by-clock",
        "warning",
        "bows at {given} count from curtain up, so the show would run for {given} h",
        "write `{edit}` if the bows are at {given} by the clock, or `times: clock` in day if scenes, moves and intervals "
        "are too",
        "Times in a show count from curtain up, unless the day says `times: clock`. Battery hours and the plan of changes use the scenes until this is "
        "corrected.",
        advice="write the bows as a time from curtain up, not by the clock",
        edit="day/bows={end}",
        decides=True,
    ),
    Code(
        "scenes-by-clock",
        "warning",
        "scene {scene} begins {given} after curtain up: no show runs that long",
        "write {meant} if it begins at {given} by the clock, or `times: clock` in day if scenes, moves, intervals, bows "
        "and parts of the bill all are times of day",
        "Times in a show count from curtain up, so that they hold on every day, unless the day says `times: clock`. "
        "Battery hours are not worked out until this is corrected.",
        advice="write times: clock in day if all times are by the clock; else write those of scenes, moves, intervals and "
        "bows from curtain up",
    ),
    Code(
        "day-uneven",
        "warning",
        "power-up has {ups} times, curtain has {shows}",
        "give one power-up for each show, or one for the whole day",
        "On a day of two shows, packs are switched on once for both or once for each.",
    ),
    Code(
        "hire-short",
        "warning",
        "the hire of {items} from {firm} {what}, but {day}",
        "hire it for all days of the show, or correct dates",
        "Hired gear that comes after the first day or goes back before the last one is missing on some days.",
    ),
    Code(
        "licence-dates",
        "warning",
        "the licence is for {start} to {end}, but the show plays on {day}",
        "renew the licence, or correct licensed or dates",
        "The show plays on a day outside the licence. A clean plan is not a licence.",
    ),
    Code(
        "licence-place",
        "warning",
        "the licence is for {town}, but the show plays at {venue}",
        "get a licence for the place, or correct licensed for",
        "The licence is for another place than the show's venue.",
    ),
    _reference(
        "overlay-field-barred",
        "error",
        "row {row} changes {name} of {section}, which cannot be changed here",
        "it may change {allowed}",
        "A venue can change the spectrum, the frequencies, the racks and the day. Who plays what, and everything "
        "else, stays the same from town to town, so change it in its own section.",
        advice="change it in its own section",
    ),
    _reference(
        "overlay-record-unknown",
        "error",
        "row {row} changes {record} of {section}, which does not exist",
        "correct the row{hint}",
        "A row names the record that is different in a venue or for one night. This one does not exist. Only a rack may be "
        "a venue's own: one of its rows then gives the channels in it.",
        edit="{at}/record={near}",
    ),
    _reference(
        "overlay-row-doubled",
        "error",
        "row {row} gives {name} of {record} again: {value}, and row {first} has {other}",
        "keep the row that is right",
        "Two rows give one field of one record in the same venue, or for the same night, with different values.",
    ),
    _reference(
        "venue-unknown",
        "error",
        "there is no venue {venue} in venues",
        "{known}{hint}",
        "The option --venue names a venue that has no rows in the show file.",
        advice="name a venue that the section venues has",
    ),
    Code(
        "performance-outside-run",
        "warning",
        "performance {performance} is on {date}, but the show plays from {start} to {end}",
        "correct date, or dates of show",
        "A performance is on a day that the dates of the show leave out; a rehearsal may be before them.",
    ),
    Code(
        "performances-many",
        "warning",
        "more than {most} performances differ in cast or times; from this one on they were not judged",
        "judge each of them with check --on",
        "A check looks at each performance with its own cast and times. Their number is limited.",
    ),
    _reference(
        "performance-unknown",
        "error",
        "{name} is not the name of one performance",
        "{known}{hint}",
        "The option --on names a performance that is not in the section performances, or a date on which there are several.",
        advice="name a performance that the section performances has",
    ),
)
