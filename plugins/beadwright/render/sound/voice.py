"""The voice: eSpeak NG through its C interface, as the wheel espeakng-loader brings it. Text in, samples out.

Run as a program of its own, once a track: what eSpeak NG says hangs on what it has said before, and the same text shall
always give the same samples. Standard input has `language`, `pace` and `parts` as JSON. Standard output has the samples
a second, and for each part how many samples it has, in 32 bits each, then these in 16 bits. It imports nothing of ours,
so that it starts fast.
"""

from __future__ import annotations

import ctypes
import json
import struct
import sys
from array import array
from typing import Any

_RETRIEVAL = 1
_RATE = 1
_CHARACTERS = 1
_UTF8 = 1
_VOICES = {"en": "en-us"}

_Callback = ctypes.CFUNCTYPE(ctypes.c_int, ctypes.POINTER(ctypes.c_short), ctypes.c_int, ctypes.c_void_p)


class Voice:
    """One process's eSpeak NG."""

    def __init__(self, language: str, pace: int) -> None:
        import espeakng_loader

        self._library: Any = ctypes.CDLL(espeakng_loader.get_library_path())
        data = str(espeakng_loader.get_data_path()).encode()
        self.rate: int = self._library.espeak_Initialize(_RETRIEVAL, 0, data, 0)
        if self.rate <= 0:
            raise RuntimeError("eSpeak NG could not be started")
        self._heard = array("h")
        self._callback = _Callback(self._hear)
        self._library.espeak_SetSynthCallback(self._callback)
        if self._library.espeak_SetVoiceByName(_VOICES.get(language, language).encode()) != 0:
            raise RuntimeError(f"eSpeak NG has no voice for {language!r}")
        self._library.espeak_SetParameter(_RATE, pace, 0)

    def _hear(self, samples: Any, count: int, events: Any) -> int:
        if samples and count > 0:
            self._heard.extend(samples[:count])
        return 0

    def say(self, text: str) -> bytes:
        """The samples of a text: one channel, 16 bits, `rate` a second."""
        self._heard = array("h")
        spoken = text.encode() + b"\0"
        if self._library.espeak_Synth(spoken, len(spoken), 0, _CHARACTERS, 0, _UTF8, None, None) != 0:
            raise RuntimeError(f"eSpeak NG could not say {text[:60]!r}")
        self._library.espeak_Synchronize()
        return self._heard.tobytes()


def main() -> None:
    """Say what standard input asks for."""
    asked = json.load(sys.stdin)
    voice = Voice(asked["language"], asked["pace"])
    out = sys.stdout.buffer
    out.write(struct.pack("=I", voice.rate))
    for part in asked["parts"]:
        samples = voice.say(part)
        out.write(struct.pack("=I", len(samples) // 2) + samples)


if __name__ == "__main__":
    main()
