"""What outside programs are given: files of the samples, and of a recording whose titles and words are hostile."""

from dataclasses import replace
from pathlib import Path

import pytest
from guide_pages import manuscript

from witnessmark.examination import examine
from witnessmark.procedure.model import Chapter
from witnessmark.publication.manuscript import Manuscript, prepare

HOSTILE = 'a=b; #1 \\x <script>alert(1)</script> --> & "q" ünï'
CAPTIONS = """WEBVTT

00:00:01.000 --> 00:00:04.500
Undo &lt;b&gt;it&lt;/b&gt; --&gt; R&amp;D &amp;amp; 5 &lt; 6

00:00:20.000 --> 00:00:26.000
Tighten the bracket bolts to 25 newton metres, {curly} and "quoted".

00:01:10.000 --> 00:01:15.000
Fit the wheel.
"""
NAMES = ("chain_and_sprockets", "circulation_pump", "front_brakes", "hostile", "one chapter")


@pytest.fixture(params=NAMES)
def published(request: pytest.FixtureRequest, tmp_path: Path) -> Manuscript:
    """A manuscript of each sample; of titles and words full of markup; and of a recording without chapters."""
    if request.param in ("hostile", "one chapter"):
        return _hostile(tmp_path, chapters=3 if request.param == "hostile" else 0)
    return manuscript(request.param)


def _hostile(folder: Path, chapters: int) -> Manuscript:
    (folder / "captions.vtt").write_text(CAPTIONS, encoding="utf-8")
    (folder / "repair.toml").write_text(f"title = '''{HOSTILE}'''\ncaptions = \"captions.vtt\"\n", encoding="utf-8")
    manuscript = prepare(examine(folder))
    marks = tuple(Chapter(20.0 * n, f"{HOSTILE}\n{n}") for n in range(chapters))
    procedure = replace(manuscript.examination.procedure, steps=(), chapters=marks)
    return prepare(replace(manuscript.examination, procedure=procedure))
