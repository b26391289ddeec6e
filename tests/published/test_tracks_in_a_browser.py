"""Text tracks against Chromium's own WebVTT parser: a page loads each file as a `<track>` and tells the cues it has.

WebVTT: W3C; `TextTrack` and its cues: the HTML standard. Left out where no Chromium is installed.
"""

import html
import json
import re
import subprocess
import threading
from collections.abc import Iterator
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import pytest
from chromium import BROWSER, PATIENCE

from witnessmark.publication.caption_changes import caption_changes
from witnessmark.publication.caption_cues import caption_cues
from witnessmark.publication.captions_vtt import captions_vtt
from witnessmark.publication.chapters import chapter_spans
from witnessmark.publication.chapters_vtt import chapters_vtt
from witnessmark.publication.corrections import corrections
from witnessmark.publication.corrections_vtt import corrections_vtt
from witnessmark.publication.manuscript import Manuscript

TRACKS = (
    ("captions", "captions.corrected.vtt"),
    ("captions", "corrections.vtt"),
    ("chapters", "chapters.vtt"),
)
PAGE = """<!doctype html><meta charset="utf-8"><video id="v">{tracks}</video><pre id="told"></pre><script>
const tracks = [...document.querySelectorAll("track")];
const shown = (cue) => [Math.round(cue.startTime * 1000), Math.round(cue.endTime * 1000), cue.getCueAsHTML().textContent];
const tell = () => {{
  if (tracks.every((each) => each.readyState > 1))
    document.getElementById("told").textContent =
      JSON.stringify(tracks.map((each) => [each.readyState, [...each.track.cues].map(shown)]));
}};
for (const each of tracks) {{
  for (const event of ["load", "error"]) each.addEventListener(event, tell);
  each.track.mode = "showing";
}}
</script>"""


class Quiet(SimpleHTTPRequestHandler):
    """Serves files without telling each one."""

    def log_message(self, format: str, *args: object) -> None:
        """Say nothing."""


@pytest.fixture
def address(tmp_path: Path) -> Iterator[str]:
    with ThreadingHTTPServer(("127.0.0.1", 0), partial(Quiet, directory=str(tmp_path))) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{server.server_port}"
        server.shutdown()


def dumped(page: str, profile: Path) -> str:
    assert BROWSER is not None
    flags = ("--headless", "--no-sandbox", "--disable-gpu", "--virtual-time-budget=20000", f"--user-data-dir={profile}")
    ran = subprocess.run([BROWSER, *flags, "--dump-dom", page], capture_output=True, timeout=PATIENCE, check=True)
    return ran.stdout.decode("utf-8")


@pytest.mark.skipif(BROWSER is None, reason="no Chromium is installed")
def test_chromium_has_the_same_cues(published: Manuscript, tmp_path: Path, address: str) -> None:
    for name, write in (
        ("captions.corrected.vtt", captions_vtt),
        ("corrections.vtt", corrections_vtt),
        ("chapters.vtt", chapters_vtt),
    ):
        (tmp_path / name).write_text(write(published), encoding="utf-8", newline="\n")
    tracks = "".join(f'<track kind="{kind}" src="{name}">' for kind, name in TRACKS)
    (tmp_path / "page.html").write_text(PAGE.format(tracks=tracks), encoding="utf-8")
    dom = dumped(f"{address}/page.html", tmp_path / "profile")
    told = re.search(r'<pre id="told">(.*?)</pre>', dom, re.S)
    assert told and told[1], dom
    captions, switched_on, chapters = json.loads(html.unescape(told[1]))

    examination = published.examination
    cues = caption_cues(examination.reading.speech.transcript, caption_changes(examination).made)
    loaded = 2  # HTMLTrackElement.LOADED
    assert captions == [loaded, [[cue.start, cue.end, "\n".join(cue.lines)] for cue in cues]]
    assert chapters == [loaded, [[span.start, span.end, span.title] for span in chapter_spans(published)]]
    cards = [[card.start, card.end, " ".join(card.text.split())] for card in corrections(examination.findings)]
    if cards:
        state, shown = switched_on
        assert (state, [[start, end, text.replace("\n", " ")] for start, end, text in shown]) == (loaded, cards)
