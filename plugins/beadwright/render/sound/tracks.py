"""Tracks: a problem said part by part, with a pause of exactly the set length after each part."""

from __future__ import annotations

import json
import struct
import subprocess
import sys
from array import array
from collections.abc import Sequence
from dataclasses import dataclass
from importlib.util import find_spec
from io import BytesIO
from math import sqrt
from pathlib import Path

from beadwright.render.words import Words

MISSING = (
    "Sound is not made: it needs espeakng-loader and soundfile. Install them with: pip install 'beadwright[sound]'"
)
SLOWEST, FASTEST = 80, 300
LONGEST_PAUSE = 60
LEAD = 0.5
"""Seconds before the first word, which a player or a wireless speaker that is still waking up would swallow."""
LOUDNESS = 0.1
"""The root mean square that speech is brought to, of a full scale of 1 (-20 dBFS)."""
PEAK = 0.89
SILENT = 200
"""Samples up to this, of 32767, count as silence at the ends of what the voice says."""


class SoundError(Exception):
    """The voice refused; the message says what."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SoundStyle:
    """Words a minute (80 to 300), seconds of pause after each part (0 to 60); `ValueError` outside these."""

    pace: int = 140
    pause: float = 2.0
    language: str = "en"

    def __post_init__(self) -> None:
        if not SLOWEST <= self.pace <= FASTEST:
            raise ValueError(f"the pace is {SLOWEST} to {FASTEST} words a minute, not {self.pace}")
        if not 0 <= self.pause <= LONGEST_PAUSE:
            raise ValueError(f"a pause is 0 to {LONGEST_PAUSE} seconds, not {self.pause:g}")


@dataclass(frozen=True, slots=True)
class Track:
    """What is said: parts with a pause after each; the last pause is `ending` seconds long."""

    parts: tuple[str, ...]
    ending: float = 0.5

    @property
    def text(self) -> str:
        """All that is said, as text to stand beside the sound."""
        return " ".join(self.parts)


@dataclass(frozen=True, slots=True)
class Recording:
    """An mp3 file and how long it is; `speech` are the seconds of each part."""

    data: bytes
    seconds: float
    speech: tuple[float, ...]


def find_voice() -> bool:
    """Whether voice and writer are installed."""
    return find_spec("espeakng_loader") is not None and find_spec("soundfile") is not None


def build_track(number: int, said: Sequence[str], words: Words, *, ending: float = 0.5) -> Track:
    """The track of a problem: its number, then its parts, as `split_said` gives them."""
    return Track((words.text("contest.script_problem", number=number), *said), ending)


def build_header(sentences: Sequence[str], *, ending: float = 1.0) -> Track:
    """The track that comes before the problems: title, time, conditions."""
    return Track(tuple(sentences), ending)


def record(track: Track, style: SoundStyle) -> Recording:
    """The track as mp3, the same bytes for the same track; raises `SoundError`, or `ModuleNotFoundError`."""
    rate, said = _say(track, style)
    spoken = [_trim(part) for part in said]
    silences = [style.pause] * (len(spoken) - 1) + [track.ending]
    samples = array("h", bytes(2 * round(LEAD * rate)))
    for part, pause in zip(_level(spoken), silences, strict=True):
        samples.extend(part)
        samples.extend(array("h", bytes(2 * round(pause * rate))))
    return Recording(
        _encode(samples, rate),
        len(samples) / rate,
        tuple(len(part) / rate for part in spoken),
    )


def record_parts(parts: Sequence[str], style: SoundStyle) -> tuple[Recording, ...]:
    """Each part as an mp3 of its own, all equally loud, the same bytes for the same parts; raises as `record` does."""
    if not parts:
        return ()
    rate, said = _say(Track(tuple(parts)), style)
    spoken = _level([_trim(part) for part in said])
    return tuple(Recording(_encode(part, rate), len(part) / rate, (len(part) / rate,)) for part in spoken)


def _say(track: Track, style: SoundStyle) -> tuple[int, list[array[int]]]:
    """Samples a second, and the samples of each part, by a voice that has said nothing before."""
    asked = json.dumps({"language": style.language, "pace": style.pace, "parts": track.parts})
    program = str(Path(__file__).with_name("voice.py"))
    done = subprocess.run([sys.executable, "-I", program], input=asked.encode(), capture_output=True, check=False)  # noqa: S603
    if done.returncode != 0:
        lines = done.stderr.decode(errors="replace").strip().splitlines() or ["the voice stopped"]
        raise SoundError(lines[-1])
    (rate,) = struct.unpack_from("=I", done.stdout)
    parts, place = [], 4
    for _ in track.parts:
        (count,) = struct.unpack_from("=I", done.stdout, place)
        samples = array("h")
        samples.frombytes(done.stdout[place + 4 : place + 4 + 2 * count])
        parts.append(samples)
        place += 4 + 2 * count
    return rate, parts


def _trim(samples: array[int]) -> array[int]:
    """What is said without the silence around it, so that pauses are as long as they are set."""
    loud = [place for place, sample in enumerate(samples) if abs(sample) > SILENT]
    return samples[loud[0] : loud[-1] + 1] if loud else array("h")


def _level(parts: Sequence[array[int]]) -> list[array[int]]:
    """All parts made equally much louder or softer: to the set loudness, and never so loud that a peak is cut."""
    count = sum(map(len, parts))
    if count == 0:
        return list(parts)
    loudness = sqrt(sum(sample * sample for part in parts for sample in part) / count) / 32768
    peak = max(abs(sample) for part in parts for sample in part) / 32768
    gain = min(LOUDNESS / loudness, PEAK / peak)
    return [array("h", (round(sample * gain) for sample in part)) for part in parts]


def _encode(samples: array[int], rate: int) -> bytes:
    import numpy as np
    import soundfile

    buffer = BytesIO()
    wave = np.frombuffer(samples, dtype=np.int16)
    soundfile.write(buffer, wave, rate, format="MP3", subtype="MPEG_LAYER_III")
    return buffer.getvalue()
