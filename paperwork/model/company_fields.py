"""The fields of the company and its evening, in the order of the published schema."""

from typing import get_args

from paperwork.model import kinds as k
from paperwork.model.company import (
    Audience,
    Channel,
    Cover,
    Follows,
    Look,
    Move,
    Performance,
    PerformanceKind,
    Person,
    Role,
    Scene,
    SceneKind,
)
from paperwork.model.house_fields import ASKED, BILL, DAY, GRANTED, MUST, ZONE
from paperwork.model.kinds import one_of
from paperwork.model.outside import VenueRow
from paperwork.model.row import Field, Section, rows

# fmt: off
PEOPLE = Section(
    "people", Person, "person", "The company by name: everybody, or only those with something to note.",
    "One person. The key is the name as printed.", "wardrobe",
    rows(
        Field("short", k.TEXT, "What fits on a small label.", "Mara", label="Short name"),
        Field("room", k.TEXT, "The dressing room.", "12", marks="brief place venue"),
        Field("belt", k.TEXT, "The size of the belt.", "M"),
        Field("pouch", k.TEXT, "The number or name of the pouch.", "p3", marks="brief"),
        Field("second pouch", k.TEXT, "The number or name of the pouch for a second pack.", "p9"),
        Field("colour", k.TEXT, "The capsule colour that suits, in your own code.", "beige"),
        Field("team", k.TEXT, "The cast or children's team that plays on the same days.", "red", marks="shared"),
        Field("child", k.YES, "Yes for a child: papers show initials only.", default="no"),
        marks="personal",
    ),
)

ROLES = Section(
    "roles", Role, "role", "Roles by id.", "One role.", "patch wardrobe",
    rows(
        Field("by", k.NAME, "Who plays the role.", acts="wardrobe", marks="personal brief tonight", refers="people"),
        Field("alternates", k.NAMES, "Who plays the role on other days. The day's team decides.", acts="wardrobe",
              marks="personal", refers="people"),
        Field("group", k.LINES, "The roles or people in this group, as in a chorus.", "VERA, TOM",
              marks="personal", refers="roles"),
        Field("short", k.TEXT, "Up to eight letters for codes and desks.", "VERA", "patch", label="Short name"),
        Field("unmiked", k.YES, "Yes if the role may be live without a microphone.", acts="wardrobe", default="no"),
    ),
)

CHANNELS = Section(
    "channels", Channel, "channel", "Channels by number.",
    "One radio path. The key is its number as printed.", "pack patch wardrobe coordinator",
    rows(
        Field("role", k.LINES, "The role on this channel; several if the pack is handed on.", "VERA",
              "patch wardrobe", refers="roles", attr="roles"),
        Field("by", k.NAME, "Who plays that role.", acts="wardrobe", marks="personal tonight", refers="people"),
        Field("shared", k.PAIRS,
              "Roles and their performers who share the pack, as in {SAILOR: Max Ried, WIDOW: Ana Cole}, or as text: "
              "SAILOR: Max Ried, WIDOW: Ana Cole.",
              marks="personal tonight", refers="roles", attr="-"),
        Field("radio", k.TEXT, "Its radio type.", "belt", "pack coordinator",
              "that of its pack, else of its rack, else the first of the file", refers="radios"),
        Field("spare", k.SPARE, "Makes the channel a spare, of this radio type; or yes, with the type in radio.",
              acts="patch wardrobe", marks="tonight", refers="radios", attr="spare radio"),
        Field("backs", k.IDS, "The channels that this spare is for, as in 01-06.", acts="know", marks="tonight",
              refers="channels"),
        Field("mhz", k.CARRIER, "Its frequency, as set on the radios.", acts="pack coordinator",
              marks="unique brief venue tonight", label="Frequency", attr="hz"),
        MUST,
        ASKED,
        GRANTED,
        Field("backup", k.BACKUP,
              "The frequency to go to when its own goes bad; yes to have one found. Channels may share one.",
              acts="pack coordinator", default="none", marks="venue tonight", label="Backup frequency",
              attr="backup_hz wants_backup"),
        Field("pack", k.TEXT, "The transmitter's number or id.", "P1", "pack wardrobe", "the channel's number",
              "unique brief tonight", "transmitters"),
        Field("capsule", k.TEXT, "The capsule: an id of the section capsules if there is one, else any words.",
              "beige", "wardrobe", marks="brief tonight", refers="capsules"),
        Field("tape", k.TEXT, "The colour of its tape, as a word; papers add a mark of two letters that a grey copy keeps.",
              "red", "pack wardrobe", "that of its pack", "tonight", label="Tape colour"),
        Field("slot", k.SLOT, "Its place in a rack, as in R1.3. Given here or in the rack.", acts="patch",
              marks="unique brief place venue", refers="racks", attr="slots"),
        Field("doubles", k.TEXT, "The channel that this is the second pack of.", "02", "patch wardrobe",
              refers="channels"),
        Field("alternate", k.TEXT, "The channel it may share a desk input with.", "02", "patch",
              refers="channels"),
        Field("exclusive", k.TEXT, "A name for channels of which only one is on at a time.", "act one",
              "coordinator", marks="shared"),
        ZONE,
        BILL,
        Field("carrier", k.TEXT,
              "A name for a wide carrier that holds several channels: they share its frequency, given on one of them.",
              "W1", "pack coordinator", marks="shared"),
        Field("notes", k.TEXT, "Free words, printed for the readers in notes for.", "buzzes when wet",
              "know", marks="personal"),
        Field("notes for", one_of(*get_args(Audience)),
              "Whose papers print the notes: deck (sound), wardrobe, or all.", acts="know",
              default="all"),
    ),
)

SCENES = Section(
    "scenes", Scene, "scene", "Scenes by id, in show order.",
    "A stretch of the show. Rows are in show order.", "patch wardrobe",
    rows(
        Field("name", k.TEXT, "The printed name, as in 1.1 Quay.", "1.1 Quay", "know"),
        Field("act", k.TEXT, "The act it belongs to.", "Act one", "know"),
        Field("page", k.TEXT, "Its page in the script.", "3", "know"),
        Field("kind", one_of(*get_args(SceneKind)), "What it is: a scene, a segment of a match, or a set on a bill.",
              acts="know", default="scene"),
        Field("at", k.CLOCK, "When it starts, as in 0:05 (h:mm) from curtain up, or clock time if day: times says so.", acts="wardrobe",
              marks="brief place venue"),
        Field("until", k.CLOCK, "When it ends.", "0:12", "wardrobe", "when the next one starts",
              "place venue"),
        Field("live", k.LIVE, "The roles that are live in it.", marks="brief venue", refers="roles"),
        Field("cut", k.YES, "Yes if it is not played: papers and checks leave it out.", default="no", marks="venue",
              attr="-"),
    ), order="patch wardrobe",
)

MOVES = Section(
    "moves", Move, "move", "Entrances and exits by id.", "One entrance and exit of one role in one scene.", "wardrobe",
    rows(
        Field("role", k.TEXT, "The role.", "VERA", marks="required", refers="roles"),
        Field("scene", k.TEXT, "The scene.", "s1", marks="required brief", refers="scenes"),
        Field("enter", k.TEXT, "The side of the entrance, as in SL.", "SL", marks="brief venue"),
        Field("exit", k.TEXT, "The side of the exit, as in SR.", "SR", marks="brief venue"),
        Field("from", k.CLOCK, "When the role enters, as in 0:41 or 0:41:30.", "0:41", marks="venue"),
        Field("to", k.CLOCK, "When the role is off.", "0:58:30", marks="venue"),
        Field("channel", k.TEXT,
              "The channel that the role wears or holds there, if not its own. Two rows of one role, or of one channel, in one "
              "scene are a handover within it, in the order of their times, else of their ids.",
              "12", "pack wardrobe", "the role's own", "brief", "channels"),
    ),
)

LOOKS = Section(
    "looks", Look, "look", "Costumes and what they do to the pack, by id.",
    "What one person wears from one scene on.", "wardrobe",
    rows(
        Field("by", k.NAME, "The person.", marks="required personal", refers="people"),
        Field("scene", k.TEXT, "The first scene it is worn in.", "s1", default="the first", marks="brief",
              refers="scenes"),
        Field("wears", k.TEXT, "The costume, hats and wigs included.", "blue coat", marks="personal brief"),
        Field("pouch", k.TEXT, "The pouch in this look.", "p3", default="the person's own", marks="personal"),
        Field("sits", k.TEXT, "Where the pack sits, as in small of back.", "small of back", marks="personal brief"),
        Field("second sits", k.TEXT, "Where a second pack sits, as in thigh.", "thigh", marks="personal"),
        Field("capsule", k.TEXT, "Where the capsule sits, as in hairline.", "hairline", marks="personal"),
    ),
)

COVERS = Section(
    "covers", Cover, "cover", "Covers by id, first choice first.", "Somebody who can go on for a role.", "wardrobe",
    rows(
        Field("role", k.TEXT, "The role.", "VERA", marks="required", refers="roles"),
        Field("by", k.NAME, "Who covers it.", marks="required personal brief", refers="people"),
        Field("scenes", k.RANGED, "The scenes covered, as in s1, s2 or 1-4.", "s1, s2", default="all", marks="brief", refers="scenes"),
        Field("follows", one_of(*get_args(Follows)),
              "Which channel the cover wears: that of the role, or the one the person has on already.",
              acts="pack wardrobe", default="role"),
        Field("channel", k.TEXT, "The channel used.", "12", "pack wardrobe", "the role's own", "brief", "channels"),
        Field("capsule", k.TEXT, "The capsule used.", "beige", default="the channel's own", refers="capsules"),
        Field("pouch", k.TEXT, "The pouch used.", "p3", default="the person's own", marks="personal"),
    ), order="know",
)

VENUES = Section(
    "venues", VenueRow, "venue", "What is different in a venue: one value a row.",
    "One value that is different in one venue.", "know",
    rows(
        Field("venue", k.TEXT, "The venue, by the name for --venue.", "Town Hall", marks="required brief"),
        Field("section", k.TEXT, "The section that is different there.", "racks", marks="required brief"),
        Field("record", k.TEXT, "The record in it, or a rack that only this venue has. Not for show, day and spectrum.", "R1", marks="brief"),
        Field("field", k.TEXT, "The field.", "window", marks="required", attr="name"),
        Field("value", k.TEXT, "What it says there.", "514-538", marks="required brief"),
    ),
)

PERFORMANCES = Section(
    "performances", Performance, "performance", "The performances of the run by name, in order of their dates.",
    "One performance, and what differs from the day and the roles. Printed with --on.", "wardrobe",
    rows(
        Field("date", k.DATE, "Its date.", marks="brief place"),
        Field("kind", one_of(*get_args(PerformanceKind)), "What it is: a show, or a rehearsal.", acts="know",
              default="show"),
        *(DAY.fields[name]._replace(default="as in day", marks="") for name in ("curtain", "interval", "bows")),
        *(DAY.fields[name]._replace(default="as long before curtain up as in day", marks="")
          for name in ("power-up", "checks", "half")),
        Field("team", k.TEXT, "The cast or team that plays.", "red", default="as in day", marks="shared"),
        Field("cast", k.CAST, "Who plays which role, if the team does not decide, as in VERA: Ana Cole.",
              marks="personal", refers="roles"),
    ),
)
COMPANY = (PEOPLE, ROLES, CHANNELS, SCENES, MOVES, LOOKS, COVERS, VENUES, PERFORMANCES)
# fmt: on
