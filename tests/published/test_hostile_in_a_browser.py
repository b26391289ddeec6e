"""guide.html of a hostile project in Chromium: no script of it runs, and nothing is loaded. Left out where there is none.

Content Security Policy Level 3, W3C: the page's own policy forbids both, and its markup gives neither a chance; the
second test shows that the policy alone would do, the third that the browser would have told.
"""

import re
import subprocess
import sys
import threading
from collections.abc import Iterator
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import pytest
from chromium import BROWSER, PATIENCE

from witnessmark.examination import examine
from witnessmark.publication.build import build

sys.path.insert(0, str(Path(__file__).parents[1] / "hostile"))
from hostile import PAYLOADS, hostile_project

ELSEWHERE = "127.0.0.1:9"
"""Where the texts of payloads.toml would load from."""

pytestmark = pytest.mark.skipif(BROWSER is None, reason="no Chromium is installed")


@pytest.fixture
def asked() -> Iterator[tuple[str, list[str]]]:
    """The address of a server, and every path that is asked of it."""
    paths: list[str] = []

    class Listening(BaseHTTPRequestHandler):
        def do_GET(self) -> None:
            paths.append(self.path)
            self.send_error(404)

        def log_message(self, format: str, *args: object) -> None:
            pass

    with ThreadingHTTPServer(("127.0.0.1", 0), Listening) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield f"127.0.0.1:{server.server_port}", paths
        server.shutdown()


@pytest.fixture
def page(tmp_path: Path, asked: tuple[str, list[str]]) -> str:
    """guide.html with every payload in it, those that load aimed at the server that listens."""
    text = " ".join(PAYLOADS.values()).replace(ELSEWHERE, asked[0])
    folder = hostile_project(tmp_path / "project", text)
    build(examine(folder), folder / "out", ["guide.html"])
    return (folder / "out" / "guide.html").read_text(encoding="utf-8")


def dumped(page: str, folder: Path) -> str:
    """The page as it stands once the browser is done with it."""
    assert BROWSER is not None
    (folder / "page.html").write_text(page, encoding="utf-8")
    flags = ("--headless", "--no-sandbox", "--disable-gpu", "--virtual-time-budget=5000", "--window-size=400,800")
    address = (folder / "page.html").as_uri()
    command = [BROWSER, *flags, f"--user-data-dir={folder / 'profile'}", "--dump-dom", address]
    return subprocess.run(command, capture_output=True, timeout=PATIENCE, check=True).stdout.decode("utf-8")


def title(dom: str) -> str:
    found = re.search(r"<title>(.*?)</title>", dom, re.S)
    assert found, dom[:2000]
    return found[1]


def test_no_script_runs_and_nothing_is_loaded(page: str, tmp_path: Path, asked: tuple[str, list[str]]) -> None:
    dom = dumped(page, tmp_path)
    assert title(dom) != "MARK" and "&lt;script&gt;" in title(dom)
    assert asked[1] == []


def raw(page: str) -> str:
    """The page with the payloads in it as a careless writer would print them: none inside another, none reloads it."""
    texts = (each.replace("http-equiv=refresh", "") for each in PAYLOADS.values())
    return page.replace("</body>", " --></svg> ".join(texts) + "</body>")


def test_the_policy_alone_would_stop_them(page: str, tmp_path: Path, asked: tuple[str, list[str]]) -> None:
    bare = raw(page).replace(ELSEWHERE, asked[0])
    dom = dumped(bare, tmp_path)
    assert title(dom) != "MARK" and asked[1] == []


def test_without_both_they_would_run(page: str, tmp_path: Path, asked: tuple[str, list[str]]) -> None:
    bare = re.sub(r"<meta http-equiv=\"Content-Security-Policy\".*?>", "", raw(page)).replace(ELSEWHERE, asked[0])
    dom = dumped(bare, tmp_path)
    assert title(dom) == "MARK" and asked[1]
