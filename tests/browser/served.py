"""A built site in a folder, answered for from this machine only."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Thread


class Site:
    """A folder served on 127.0.0.1, which can go away and come back at the same address.

    `replaced` (path without the leading slash -> bytes) stands in for files of the folder, as if a newer site
    had been published; `refused` (the same paths -> status) are answered with an error. `folder` may be
    changed while it serves.
    """

    def __init__(self, folder: Path) -> None:
        self.folder, self.replaced, self.refused, self._server, self._port = folder, {}, {}, None, 0
        self.start()

    @property
    def base(self) -> str:
        return f"http://127.0.0.1:{self._port}/"

    def start(self) -> None:
        self._server = ThreadingHTTPServer(
            ("127.0.0.1", self._port), partial(_Handler, self, directory=str(self.folder))
        )
        self._port = self._server.server_port
        Thread(target=self._server.serve_forever, daemon=True).start()

    def stop(self) -> None:
        """Nobody answers any more; a second stop does nothing."""
        if self._server:
            self._server.shutdown()
            self._server.server_close()
            self._server = None


@contextmanager
def served(folder: Path) -> Iterator[Site]:
    site = Site(folder)
    try:
        yield site
    finally:
        site.stop()


class _Handler(SimpleHTTPRequestHandler):
    """Answers as a plain web host does: its own page for what is not there."""

    def __init__(self, site: Site, *arguments, **more) -> None:
        self.site = site
        super().__init__(*arguments, **more)

    def do_GET(self) -> None:
        path = self.path.lstrip("/").split("?")[0]
        replaced, refused = (
            self.site.replaced.get(path),
            self.site.refused.get(path, self.site.refused.get("*")),
        )
        self.directory = str(self.site.folder)
        if refused:
            self._send(refused, "text/plain", b"refused")
        elif replaced is None:
            super().do_GET()
        else:
            self._send(
                200,
                self.guess_type(f"{self.path}index.html" if self.path.endswith("/") else self.path),
                replaced,
            )

    def send_error(self, code: int, message: str | None = None, explain: str | None = None) -> None:
        self._send(code, "text/html; charset=utf-8", (self.site.folder / "404.html").read_bytes())

    def _send(self, code: int, kind: str, content: bytes) -> None:
        self.send_response(code)
        self.send_header("Content-Type", kind)
        self.send_header("Content-Length", str(len(content)))
        self.end_headers()
        self.wfile.write(content)

    def log_message(self, *_) -> None:
        """Silent: a test's output is about the site."""
