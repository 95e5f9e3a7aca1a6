"""Tape colours: the word of each channel's tape, and a mark of two letters that a copy in grey keeps."""

import unicodedata
from collections.abc import Mapping

from paperwork.model import Channel, Show
from paperwork.text.names import fold


def tape_of(show: Show, channel: Channel) -> str:
    """The colour of a channel's tape, else that on its pack; "" where neither says one."""
    pack = show.transmitters.get(channel.pack)
    return channel.tape or (pack.tape if pack else "")


def mark_tapes(show: Show) -> Mapping[str, str]:
    """By folded colour its mark: its first and last letter, or the first and another where two would be alike."""
    words = {fold(word) for one in show.channels.values() if (word := tape_of(show, one))}
    marks: dict[str, str] = {}
    for word in sorted(words):
        letters = [sign for sign in unicodedata.normalize("NFD", word).upper() if sign.isalnum()] or ["?"]
        options = (letters[0] + last for last in (letters[-1], *letters[1:]))
        marks[word] = next((one for one in options if one not in marks.values()), f"{letters[0]}{len(marks) + 1}")
    return marks


def name_tape(show: Show, channel: Channel) -> str:
    """The mark and the word, `RD red`; "" where the tape has no colour."""
    word = tape_of(show, channel)
    return f"{mark_tapes(show)[fold(word)]} {word}" if word else ""
