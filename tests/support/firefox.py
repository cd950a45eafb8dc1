"""Firefox, driven over WebDriver BiDi: its own remote agent and a socket, with no driver program between."""

import base64
import json
import os
import shutil
import socket
import struct
import subprocess
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

KEYS = {
    "Tab": "\ue004",
    "Enter": "\ue006",
    "Backspace": "\ue003",
    "Space": " ",
    "ArrowUp": "\ue013",
    "ArrowDown": "\ue015",
    "ArrowRight": "\ue014",
    "ArrowLeft": "\ue012",
    "PageUp": "\ue00e",
    "Shift": "\ue008",
    "Escape": "\ue00c",
}
# The remote agent relaxes rules for tests, among them the one that keeps the storage of files apart: none of that here.
PREFERENCES = """
user_pref("remote.prefs.recommended", false);
user_pref("security.fileuri.strict_origin_policy", true);
user_pref("app.update.enabled", false);
user_pref("browser.shell.checkDefaultBrowser", false);
user_pref("datareporting.policy.dataSubmissionEnabled", false);
user_pref("browser.aboutwelcome.enabled", false);
user_pref("network.captive-portal-service.enabled", false);
user_pref("network.connectivity-service.enabled", false);
user_pref("accessibility.tabfocus", 7);
"""


def find_firefox() -> str | None:
    """The Firefox to use: `BEADWRIGHT_FIREFOX`, else Debian's; None where there is none."""
    return os.environ.get("BEADWRIGHT_FIREFOX") or shutil.which("firefox-esr") or shutil.which("firefox")


class Channel:
    """A WebSocket to the remote agent, as much of one as BiDi needs: whole text messages."""

    def __init__(self, port: int) -> None:
        self._socket = socket.create_connection(("127.0.0.1", port), timeout=30)
        key = base64.b64encode(os.urandom(16)).decode()
        lines = [
            "GET /session HTTP/1.1",
            f"Host: 127.0.0.1:{port}",
            "Upgrade: websocket",
            "Connection: Upgrade",
            f"Sec-WebSocket-Key: {key}",
            "Sec-WebSocket-Version: 13",
        ]
        self._socket.sendall(("\r\n".join(lines) + "\r\n\r\n").encode())
        self._pending = b""
        while b"\r\n\r\n" not in self._pending:
            self._pending += self._socket.recv(4096)
        head, _, self._pending = self._pending.partition(b"\r\n\r\n")
        assert b" 101 " in head.splitlines()[0], head

    def send(self, text: str) -> None:
        data, mask = text.encode(), os.urandom(4)
        size = len(data)
        head = struct.pack("!BB", 0x81, 0x80 | size) if size < 126 else struct.pack("!BBH", 0x81, 0xFE, size)
        if size > 65_535:
            head = struct.pack("!BBQ", 0x81, 0xFF, size)
        self._socket.sendall(head + mask + bytes(byte ^ mask[at % 4] for at, byte in enumerate(data)))

    def receive(self) -> str:
        text = b""
        while True:
            first, size = self._read(2)
            size &= 0x7F
            if size == 126:
                [size] = struct.unpack("!H", self._read(2))
            elif size == 127:
                [size] = struct.unpack("!Q", self._read(8))
            payload = self._read(size)
            if first & 0x0F in (0, 1):
                text += payload
                if first & 0x80:
                    return text.decode()

    def _read(self, size: int) -> bytes:
        while len(self._pending) < size:
            more = self._socket.recv(65_536)
            assert more, "Firefox closed the connection"
            self._pending += more
        found, self._pending = self._pending[:size], self._pending[size:]
        return found

    def close(self) -> None:
        self._socket.close()


class Firefox:
    """One tab: open a page, press keys, read what stands there."""

    def __init__(self, channel: Channel) -> None:
        self._channel = channel
        self._number = 0
        self.command("session.new", {"capabilities": {}})
        # A window of its own: the one that Firefox starts with never has the focus while there is no screen.
        self._tab = self.command("browsingContext.create", {"type": "window"})["context"]

    def command(self, method: str, params: dict[str, Any]) -> dict[str, Any]:
        """Send one command and wait for its answer; events in between are passed over."""
        self._number += 1
        self._channel.send(json.dumps({"id": self._number, "method": method, "params": params}))
        while True:
            answer: dict[str, Any] = json.loads(self._channel.receive())
            if answer.get("id") == self._number:
                assert answer["type"] == "success", answer
                result: dict[str, Any] = answer["result"]
                return result

    def open(self, address: str) -> None:
        """Go to an address, and wait until the page is there, a lesson that comes in pieces too."""
        self.command("browsingContext.navigate", {"context": self._tab, "url": address, "wait": "complete"})
        self.wait_for("!document.querySelector('html.bw-arriving, .bw-coming')")

    def evaluate(self, expression: str) -> Any:
        """What an expression gives, as JSON carries it."""
        result = self.command(
            "script.evaluate",
            {
                "expression": f"JSON.stringify({expression})",
                "target": {"context": self._tab},
                "awaitPromise": True,
            },
        )
        assert result["type"] == "success", result
        return json.loads(result["result"]["value"]) if result["result"]["type"] == "string" else None

    def press(self, *keys: str) -> None:
        """Press keys one after the other: names from `KEYS`, or signs; with Shift as in `Shift+Tab`."""
        actions = []
        for key in keys:
            values = [KEYS.get(part, part) for part in key.split("+")]
            actions += [{"type": "keyDown", "value": value} for value in values]
            actions += [{"type": "keyUp", "value": value} for value in reversed(values)]
        source = {"type": "key", "id": "keyboard", "actions": actions}
        self.command("input.performActions", {"context": self._tab, "actions": [source]})

    def activate(self) -> None:
        """Activate the button or the box that has the focus.

        By its click: keys sent by the remote agent reach a button as events, and no press follows from them as it does
        with links and fields. That Enter and Space press buttons is Firefox's own doing, and is not proved here.
        """
        self.evaluate(
            "document.activeElement.matches('button, [type=checkbox]') ? (document.activeElement.click(), 1) : 0"
        )

    def tab_to(self, selector: str, most: int = 400, *, back: bool = False) -> None:
        """Press Tab, or Shift and Tab, until the focus is on what the selector names."""
        for _ in range(most):
            self.press("Shift+Tab" if back else "Tab")
            if self.evaluate(f"document.activeElement.matches({json.dumps(selector)})"):
                return
        raise AssertionError(f"{most} presses of Tab do not reach {selector}")

    def wait_for(self, expression: str, seconds: float = 5) -> None:
        end = time.monotonic() + seconds
        while not self.evaluate(f"!!({expression})"):
            assert time.monotonic() < end, f"never came true: {expression}"
            time.sleep(0.05)


@contextmanager
def start_firefox(path: str, folder: Path) -> Iterator[Firefox]:
    """Firefox with a new profile in `folder`, ended afterwards."""
    profile = folder / "profile"
    profile.mkdir()
    (profile / "user.js").write_text(PREFERENCES, encoding="utf-8")
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    command = [path, "--headless", "--no-remote", "--profile", str(profile), f"--remote-debugging-port={port}"]
    environment = {**os.environ, "HOME": str(folder), "MOZ_CRASHREPORTER_DISABLE": "1"}
    quiet = subprocess.DEVNULL
    process = subprocess.Popen([*command, "about:blank"], env=environment, stdout=quiet, stderr=quiet)
    try:
        channel = _connect(port)
        yield Firefox(channel)
        channel.close()
    finally:
        process.terminate()
        process.wait(timeout=20)


def _connect(port: int) -> Channel:
    """The channel, as soon as Firefox listens."""
    end = time.monotonic() + 60
    while True:
        try:
            return Channel(port)
        except OSError:
            assert time.monotonic() < end, "Firefox did not listen within a minute"
            time.sleep(0.2)
