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
from paperwork.model.house_fields import DAY
from paperwork.model.kinds import one_of
from paperwork.model.outside import VenueRow
from paperwork.model.row import Field, Section, rows
from paperwork.model.shared_fields import ASKED, BILL, GRANTED, MUST, ZONE

# fmt: off
PEOPLE = Section(
    "people", Person, "person", "The company by name: all of it, or only those of whom there is something to say.",
    "Somebody in the company. The key is the name as it is printed.", "wardrobe",
    rows(
        Field("short", k.TEXT, "What fits on a small label.", "Mara", label="Short name"),
        Field("room", k.TEXT, "The dressing room.", "12", marks="brief place venue"),
        Field("belt", k.TEXT, "The size of the belt.", "M"),
        Field("pouch", k.TEXT, "The number or name of the pouch.", "p3", marks="brief"),
        Field("second pouch", k.TEXT, "The number or name of the pouch for a second pack.", "p9"),
        Field("colour", k.TEXT, "The capsule colour that suits, in your own code.", "beige"),
        Field("team", k.TEXT, "The cast or children's team that plays on the same days.", "red", marks="shared"),
        Field("child", k.YES, "Whether this is a child, whom papers name by initials alone.", default="no"),
        marks="personal",
    ),
)

ROLES = Section(
    "roles", Role, "role", "Roles by id.", "Somebody who is played.", "patch wardrobe",
    rows(
        Field("by", k.NAME, "Who plays the role.", acts="wardrobe", marks="personal brief tonight", refers="people"),
        Field("alternates", k.NAMES, "Who plays the role on other days. The day's team decides.", acts="wardrobe",
              marks="personal", refers="people"),
        Field("group", k.LINES, "The roles or people that this one means, as in a chorus.", "VERA, TOM",
              marks="personal", refers="roles"),
        Field("short", k.TEXT, "Up to eight letters for codes and desks.", "VERA", "patch", label="Short name"),
        Field("unmiked", k.YES, "Whether the role may be live without a channel.", acts="wardrobe", default="no"),
    ),
)

CHANNELS = Section(
    "channels", Channel, "channel", "Channels by number.",
    "One radio path. The key is its number as it is printed.", "pack patch wardrobe coordinator",
    rows(
        Field("role", k.LINES, "Who is played on this channel; several, if the pack is handed on.", "VERA",
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
        Field("mhz", k.CARRIER, "The carrier, as it is set on the radios.", acts="pack coordinator",
              marks="unique brief venue tonight", label="Frequency", attr="hz"),
        MUST,
        ASKED,
        GRANTED,
        Field("backup", k.BACKUP,
              "The frequency that its pack and its receiver are set to when its own goes bad; yes, where one is to be "
              "found. Channels may have one together.",
              acts="pack coordinator", default="none", marks="venue tonight", label="Backup frequency",
              attr="backup_hz wants_backup"),
        Field("pack", k.TEXT, "The transmitter's number or id.", "P1", "pack wardrobe", "the channel's number",
              "unique brief tonight", "transmitters"),
        Field("capsule", k.TEXT, "The capsule: an id of the section capsules where there is one, else any words.",
              "beige", "wardrobe", marks="brief tonight", refers="capsules"),
        Field("tape", k.TEXT, "The colour of its tape, as a word; papers add a mark of two letters that a grey copy keeps.",
              "red", "pack wardrobe", "that of its pack", "tonight", label="Tape colour"),
        Field("slot", k.SLOT, "Its place in a rack, as in R1.3. Given here or in the rack.", acts="patch",
              marks="unique brief place venue", refers="racks", attr="slots"),
        Field("doubles", k.TEXT, "The channel whose wearer has this one as a second pack.", "02", "patch wardrobe",
              refers="channels"),
        Field("alternate", k.TEXT, "The channel with which it may share one desk input.", "02", "patch",
              refers="channels"),
        Field("exclusive", k.TEXT, "A name for a group of channels of which only one is ever powered.", "act one",
              "coordinator", marks="shared"),
        ZONE,
        BILL,
        Field("carrier", k.TEXT,
              "A name for a wide carrier that holds several channels: they share its frequency, given on one of them.",
              "W1", "pack coordinator", marks="shared"),
        Field("notes", k.TEXT, "Free words. They are printed for those whom notes for names.", "buzzes when wet",
              "know", marks="personal"),
        Field("notes for", one_of(*get_args(Audience)),
              "Whose papers print the notes: those of the deck (sound), those of wardrobe, or all.", acts="know",
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
        Field("at", k.CLOCK, "When it starts, as in 0:05 (h:mm) from curtain up, or by the clock where day: times says so.", acts="wardrobe",
              marks="brief place venue"),
        Field("until", k.CLOCK, "When it ends.", "0:12", "wardrobe", "when the next one starts",
              "place venue"),
        Field("live", k.LIVE, "The roles that are live in it.", marks="brief venue", refers="roles"),
        Field("cut", k.YES, "Whether it is not played: the show is then as without it.", default="no", marks="venue",
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
              "The channel whose pack the role wears or holds in it, where that is not its own. Two rows of one role, "
              "or of one channel, in one scene are a handover within it, in the order of their times, else of their ids.",
              "12", "pack wardrobe", "the role's own", "brief", "channels"),
    ),
)

LOOKS = Section(
    "looks", Look, "look", "Costumes and what they do to the pack, by id.",
    "What one person wears from one scene on.", "wardrobe",
    rows(
        Field("by", k.NAME, "The person.", marks="required personal", refers="people"),
        Field("scene", k.TEXT, "The scene from which it is worn.", "s1", default="the first", marks="brief",
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
        Field("scenes", k.ITEMS, "The scenes covered.", "s1, s2", default="all", marks="brief", refers="scenes"),
        Field("follows", one_of(*get_args(Follows)),
              "What the pack follows: the role, whose channel goes on the cover, or the person, who keeps the channel "
              "already worn.",
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
        Field("venue", k.TEXT, "The venue, as it is named with --venue.", "Town Hall", marks="required brief"),
        Field("section", k.TEXT, "The section that is different there.", "racks", marks="required brief"),
        Field("record", k.TEXT, "The record in it, or a rack that only this venue has, whose channels are given. Not used for show, day and spectrum.", "R1", marks="brief"),
        Field("field", k.TEXT, "The field.", "window", marks="required", attr="name"),
        Field("value", k.TEXT, "What it says there.", "514-538", marks="required brief"),
    ),
)

PERFORMANCES = Section(
    "performances", Performance, "performance", "The performances of the run by name, in order of their dates.",
    "One performance, and what differs in it from the day and the roles. Printed with --on.", "wardrobe",
    rows(
        Field("date", k.DATE, "Its date.", marks="brief place"),
        Field("kind", one_of(*get_args(PerformanceKind)), "What it is: a show, or a rehearsal.", acts="know",
              default="show"),
        *(DAY.fields[name]._replace(default="as in day", marks="") for name in ("curtain", "interval", "bows")),
        *(DAY.fields[name]._replace(default="as long before curtain up as in day", marks="")
          for name in ("power-up", "checks", "half")),
        Field("team", k.TEXT, "The cast or team that plays.", "red", default="as in day", marks="shared"),
        Field("cast", k.CAST, "Who plays which role, where the team does not decide it, as in VERA: Ana Cole.",
              marks="personal", refers="roles"),
    ),
)
COMPANY = (PEOPLE, ROLES, CHANNELS, SCENES, MOVES, LOOKS, COVERS, VENUES, PERFORMANCES)
# fmt: on
