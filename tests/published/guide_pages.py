"""guide.html as outside programs are given it: of the samples, of recordings, of a hostile project, and of odd ones."""

import sys
from collections.abc import Callable
from functools import cache, partial
from pathlib import Path
from tempfile import TemporaryDirectory

from witnessmark.examination import examine
from witnessmark.publication.guide_html import guide_html
from witnessmark.publication.manuscript import Manuscript, prepare
from witnessmark.publication.media import illustrated
from witnessmark.publication.note import unheard

sys.path.insert(0, str(Path(__file__).parents[1] / "hostile"))
from hostile import PAYLOADS, hostile_project

ROOT = Path(__file__).parents[2]

SAMPLES = ("chain_and_sprockets", "circulation_pump", "front_brakes", "wheelbarrow_wheel")
RECORDINGS = ("fork_seals", "tumble_dryer_belt", "winch_service")
LONG_WORD = (
    "frontbrakecaliperguidepinprotectivecapretainingclip" * 2
)  # English, or the checker takes the page for German


def _of(folder: Path) -> Manuscript:
    return illustrated(prepare(examine(folder)), True, unheard)


def _made(make: Callable[[Path], Path]) -> Manuscript:
    with TemporaryDirectory() as folder:
        return _of(make(Path(folder) / "project"))


def _nothing_said(folder: Path) -> Path:
    """An invented recording without chapters, steps, values or a table."""
    folder.mkdir()
    (folder / "captions.vtt").write_text("WEBVTT\n\n00:01.000 --> 00:03.000\nHello.\n", encoding="utf-8")
    (folder / "repair.toml").write_text('title = "Hello"\ncaptions = "captions.vtt"\n', encoding="utf-8")
    return folder


_MADE: dict[str, Callable[[], Manuscript]] = {
    **{name: partial(_of, ROOT / "sample_projects" / name) for name in SAMPLES},
    **{name: partial(_of, ROOT / "benchmarks" / "recordings" / name) for name in RECORDINGS},
    "hostile": partial(_made, partial(hostile_project, text=" ".join(PAYLOADS.values()))),
    "long_words": partial(_made, partial(hostile_project, text=LONG_WORD)),
    "nothing_said": partial(_made, _nothing_said),
}
NAMES = tuple(_MADE)


@cache
def page(name: str) -> str:
    """The text of a guide.html."""
    return guide_html(manuscript(name))


@cache
def manuscript(name: str) -> Manuscript:
    """What a guide.html is written from."""
    return _MADE[name]()
