"""A web host on this machine, for pages that are to come from one."""

import http.server
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from pathlib import Path


class _Quiet(http.server.SimpleHTTPRequestHandler):
    def log_message(self, *_: object) -> None:
        """Nothing: what is served is of no interest."""


@contextmanager
def serve_folder(folder: Path) -> Iterator[str]:
    """The address at which a folder is served, as long as the block runs; afterwards nothing answers there."""
    with http.server.ThreadingHTTPServer(("127.0.0.1", 0), partial(_Quiet, directory=str(folder))) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{server.server_port}"
        server.shutdown()
