"""Codes of the day, the licence and the venue."""

from paperwork.codes.row import Code

TABLE: tuple[Code, ...] = (
    Code(
        name="time-backwards",
        severity="warning",
        stage="sense",
        says="{what}",
        fix="correct one of the two times",
        explains="Two times stand in the wrong order. Nothing is concluded from them until one is corrected.",
    ),
    Code(
        name="bows-by-clock",
        severity="warning",
        stage="sense",
        says="bows {told} are counted from curtain up, so the show would go on for {told} h",
        fix="write {end} if the bows are over at {told} by the clock",
        explains="Times in a show count from curtain up. Hours of cells and the plan of changes follow the scenes until this is settled.",
    ),
    Code(
        name="scenes-by-clock",
        severity="warning",
        stage="sense",
        says="scene {scene} begins at {told}, counted from curtain up: nobody plays so long",
        fix="write {meant} if it begins at {told} by the clock; scenes, moves, intervals and bows all count from curtain up",
        explains="Times in a show count from curtain up, so that they hold on every day. Hours of cells are not reckoned until then.",
    ),
    Code(
        name="day-uneven",
        severity="warning",
        stage="sense",
        says="times of power-up: {ups}, times of curtain: {shows}",
        fix="tell one power-up for each show, or one for the whole day",
        explains="On a day of two shows, packs are switched on once for both or once for each.",
    ),
    Code(
        name="licence-dates",
        severity="warning",
        stage="sense",
        says="the licence holds from {start} to {end}, and the show plays on {day}",
        fix="renew the licence, or correct licensed: or dates:",
        explains="The show has a day outside the licence. A plan that is clean is no permission to transmit.",
    ),
    Code(
        name="licence-place",
        severity="warning",
        stage="sense",
        says="the licence holds for {town}, and the show plays at {venue}",
        fix="get a licence for the place, or correct licensed for:",
        explains="The licence is for another place than the show's venue.",
    ),
    Code(
        name="overlay-field-barred",
        severity="error",
        stage="reference",
        says="row {row} changes {name} of {section}, which an overlay may not change",
        fix="it may change {allowed}",
        explains=(
            "A venue changes the spectrum, the frequencies, the racks and the day. Who plays what, and everything else, "
            "stays the same from town to town; a change there belongs in the section itself."
        ),
    ),
    Code(
        name="overlay-record-unknown",
        severity="error",
        stage="reference",
        says="row {row} changes {record} of {section}, and there is no such record",
        fix="correct the row{hint}",
        explains="A row of venues names the record that is different in a venue. This one does not exist.",
    ),
    Code(
        name="venue-unknown",
        severity="error",
        stage="reference",
        says="there is no venue {venue} in venues",
        fix="{known}{hint}",
        explains="The option --venue names a venue for which the show file has no rows.",
    ),
)
