"""Problems to listen to, measured in the sound itself: length, silences, loudness; and the words as text."""

from io import BytesIO
from pathlib import Path

import numpy as np
import pytest
import soundfile

from beadwright.engine import build_frame, parse_problem, work_problem
from beadwright.render import load_words
from beadwright.render.entry_data import split_said
from beadwright.render.sound import SoundError, SoundStyle, Track, build_header, build_track, record
from beadwright.render.sound import tracks as sound_tracks

WORDS = load_words("en")
TRACK = Track(("Problem 1.", "forty-eight", "plus thirty-seven"), ending=4)


def read(data: bytes) -> tuple[np.ndarray, int]:
    samples, rate = soundfile.read(BytesIO(data))
    return samples, rate


def find_silences(samples: np.ndarray, rate: int, *, longer_than: float = 0.4) -> list[float]:
    """The lengths in seconds of stretches that stay under a hundredth of full scale."""
    step = rate // 200
    quiet = [np.abs(samples[place : place + step]).max() < 0.01 for place in range(0, len(samples), step)]
    lengths, run = [], 0
    for is_quiet in [*quiet, False]:
        if is_quiet:
            run += 1
        else:
            lengths.append(run * step / rate)
            run = 0
    return [length for length in lengths if length > longer_than]


def test_a_track_is_an_mp3_of_one_channel_as_long_as_it_says() -> None:
    recording = record(TRACK, SoundStyle(pause=2))
    info = soundfile.info(BytesIO(recording.data))
    assert (info.format, info.channels) == ("MP3", 1)
    assert info.duration == pytest.approx(recording.seconds, abs=0.15)
    assert recording.seconds == pytest.approx(0.5 + sum(recording.speech) + 2 + 2 + 4, abs=0.01)


@pytest.mark.parametrize("pause", [1.0, 3.0])
def test_pauses_are_as_long_as_they_are_set(pause: float) -> None:
    samples, rate = read(record(TRACK, SoundStyle(pause=pause)).data)
    before, first, second, last = find_silences(samples, rate)
    assert before == pytest.approx(0.5, abs=0.1)
    assert first == pytest.approx(pause, abs=0.2)
    assert second == pytest.approx(pause, abs=0.2)
    assert last == pytest.approx(4, abs=0.25)


def test_speech_is_equally_loud_in_every_track_and_never_cut() -> None:
    for parts in (("one",), ("nine hundred ninety-nine thousand", "minus one")):
        samples, rate = read(record(Track(parts, ending=0), SoundStyle(pause=0)).data)
        samples = samples[rate // 2 :]  # what comes before the first word
        loudness = 20 * np.log10(np.sqrt(np.mean(samples**2)))
        assert loudness == pytest.approx(-20, abs=2)
        assert np.abs(samples).max() < 1


def test_a_faster_pace_takes_less_time() -> None:
    slow, fast = (sum(record(TRACK, SoundStyle(pace=pace)).speech) for pace in (100, 250))
    assert fast < 0.6 * slow


def test_the_same_track_gives_the_same_bytes() -> None:
    assert record(TRACK, SoundStyle()).data == record(TRACK, SoundStyle()).data


@pytest.mark.parametrize(
    ("problem", "parts"),
    [
        ("48 + 37", ("Problem 4.", "forty-eight", "plus thirty-seven")),
        ("105 - 20 - 3", ("Problem 4.", "one hundred five", "minus twenty", "minus three")),
    ],
)
def test_what_is_said_is_the_problem_in_words(problem: str, parts: tuple[str, ...]) -> None:
    walkthrough = work_problem(parse_problem(problem), build_frame())
    track = build_track(4, split_said(walkthrough, WORDS), WORDS)
    assert track.parts == parts
    assert track.text == " ".join(parts)


def test_a_header_says_its_sentences() -> None:
    assert build_header(("First level.", "You have 10 minutes.")).text == "First level. You have 10 minutes."


def test_another_language_has_its_own_voice() -> None:
    english, spanish = (record(Track(("seis",)), SoundStyle(language=name)).data for name in ("en", "es"))
    assert english != spanish
    with pytest.raises(SoundError, match="no voice"):
        record(TRACK, SoundStyle(language="xx"))


def test_settings_out_of_reach_are_refused() -> None:
    for settings in ({"pace": 20}, {"pace": 900}, {"pause": -1}, {"pause": 100}):
        with pytest.raises(ValueError, match="not"):
            SoundStyle(**settings)  # type: ignore[arg-type]


def test_the_voice_is_a_program_that_imports_nothing_of_ours() -> None:
    source = Path(sound_tracks.__file__).with_name("voice.py").read_text(encoding="utf-8")
    assert "import beadwright" not in source
    assert "from beadwright" not in source
