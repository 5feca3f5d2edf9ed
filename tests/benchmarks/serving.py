"""A built site on this machine, compressed as a web host would send it: text with gzip, pages asked for again
from the browser's store."""

from __future__ import annotations

import gzip
from collections.abc import Iterator
from contextlib import contextmanager
from functools import lru_cache, partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Thread

TEXT = (".html", ".css", ".js", ".json", ".svg", ".webmanifest", ".xml")


@lru_cache(maxsize=None)
def compressed(path: Path) -> bytes:
    return gzip.compress(path.read_bytes(), 9)


class Handler(SimpleHTTPRequestHandler):
    protocol_version = "HTTP/1.1"

    def do_GET(self) -> None:
        path = Path(self.translate_path(self.path))
        path = path / "index.html" if path.is_dir() and self.path.split("?")[0].endswith("/") else path
        if not path.is_file() or path.suffix not in TEXT:
            return super().do_GET()
        content = compressed(path)
        self.send_response(200)
        for name, value in {
            "Content-Type": self.guess_type(str(path)),
            "Content-Encoding": "gzip",
            "Content-Length": len(content),
            "Cache-Control": "max-age=600",
        }.items():
            self.send_header(name, str(value))
        self.end_headers()
        self.wfile.write(content)

    def log_message(self, *_) -> None:
        """Silent."""


@contextmanager
def serving(folder: Path) -> Iterator[str]:
    """The address of the front page."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(Handler, directory=str(folder)))
    Thread(target=server.serve_forever, daemon=True).start()
    try:
        yield f"http://127.0.0.1:{server.server_port}/"
    finally:
        server.shutdown()
        server.server_close()
