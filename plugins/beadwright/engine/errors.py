"""What the engine says when a problem cannot be worked. Nothing has moved when one of these is raised."""

from __future__ import annotations


class EngineError(ValueError):
    """A problem that the engine turns down.

    `code` is a short stable name, `reason` says why in the trade's words, and `next_step` what to do instead.
    """

    def __init__(self, code: str, reason: str, next_step: str) -> None:
        super().__init__(code, reason, next_step)
        self.code = code
        self.reason = reason
        self.next_step = next_step

    def __str__(self) -> str:
        # Made from the three and not kept as one text, so that an error can be copied and sent to another process.
        return f"{self.reason}. {self.next_step}"


class ProblemError(EngineError):
    """Malformed: the text is not a problem. `position` counts characters from 0 where reading stopped."""

    def __init__(self, code: str, reason: str, next_step: str, *, position: int = 0) -> None:
        super().__init__(code, reason, next_step)
        self.position = position


class FrameError(EngineError):
    """Impossible on this frame: a bead, a column or a number that the frame does not have.

    `missing` says how many more columns would do (0 when more columns would not help).
    """

    def __init__(self, code: str, reason: str, next_step: str, *, missing: int = 0) -> None:
        super().__init__(code, reason, next_step)
        self.missing = missing


class MethodError(EngineError):
    """The problem is sound and the frame is large enough, but this method does not do it."""
