"""Sound: problems as tracks to listen to, spoken by eSpeak NG where it is installed, with pauses of set length."""

from beadwright.render.sound.tracks import (
    MISSING,
    Recording,
    SoundError,
    SoundStyle,
    Track,
    build_header,
    build_track,
    find_voice,
    record,
    record_parts,
)

__all__ = [
    "MISSING",
    "Recording",
    "SoundError",
    "SoundStyle",
    "Track",
    "build_header",
    "build_track",
    "find_voice",
    "record",
    "record_parts",
]
