"""One small invented project, examined once, and manuscripts made of it by hand."""

import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from hand_made import finding, step

from witnessmark.examination import Examination, examine
from witnessmark.procedure.model import Chapter, Procedure
from witnessmark.publication.manuscript import Manuscript, prepare

sys.path.insert(0, str(Path(__file__).parents[2] / "benchmarks"))

CAPTIONS = """WEBVTT

00:00:01.000 --> 00:00:05.000
You need a floor jack, a 13 mm socket and some brake cleaner.

00:00:20.000 --> 00:00:26.000
Fit the bracket bolts and tighten the bracket bolts to 25 newton metres.

00:00:40.000 --> 00:00:47.000
Then tighten the drain plug to 50 newton metres with a 17 mm socket.

00:01:10.000 --> 00:01:15.000
Fit the wheel and lower the car.
"""

SPECS = """item,also_called,property,value,tool_size,source
bracket bolts,,torque,25 N·m,13 mm,Manual p. 4
drain plug,,torque,30 N·m,17 mm,Manual p. 9
"""


@pytest.fixture(scope="session")
def project(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("project")
    (folder / "captions.vtt").write_text(CAPTIONS, encoding="utf-8")
    (folder / "specs.csv").write_text(SPECS, encoding="utf-8")
    (folder / "repair.toml").write_text(
        'title = "Bracket & <plug>"\ncaptions = "captions.vtt"\nspecs = ["specs.csv"]\n[machine]\nmake = "Morvane"\n',
        encoding="utf-8",
    )
    return folder


@pytest.fixture(scope="session")
def examined(project: Path) -> Examination:
    return examine(project)


@pytest.fixture
def manuscript(examined: Examination) -> Callable[..., Manuscript]:
    """A manuscript of two steps in two chapters, or with what a test puts in its place."""
    torque = {m.item: m.id for m in examined.reading.mentions if m.kind == "torque"}
    steps = (
        step(20.0, "Fit the bracket bolts.", torque["bracket bolts"]),
        step(40.0, "Fit the drain plug.", torque["drain plug"], chapter=1),
    )
    procedure = Procedure(steps, (Chapter(0.0, "Bracket"), Chapter(40.0, "Drain plug"), Chapter(60.0, "End")), (), ())

    def made(**changes: Any) -> Manuscript:
        usual: dict[str, Any] = {
            "procedure": procedure,
            "cautions": (),
            "findings": (finding(mentions=(torque["drain plug"],)),),
        }
        return prepare(replace(examined, **(usual | changes)))

    return made


@pytest.fixture
def filmed(examined: Examination, tmp_path: Path) -> Callable[..., Examination]:
    """The project with a video of its steps, drawn as a test asks for it; steps at other times than its captions'."""

    def made(
        duration: float = 12.0, ending: str = ".mp4", starts: tuple[float, ...] = (1.0, 6.0), **how: Any
    ) -> Examination:
        from draw_video import Moment, draw_video

        video = tmp_path / f"video{ending}"
        moments = [Moment(start, start + 4, f"Step at {start}") for start in starts]
        draw_video(video, moments, duration, **({"sound": False} | how))
        steps = tuple(replace(step(start, f"Fit thing {start:.0f}."), end=start + 2) for start in starts)
        procedure = Procedure(steps, (Chapter(0.0, "Bracket"), Chapter(5.0, "Drain plug")), (), ())
        project = replace(examined.project, video=video)
        return replace(examined, project=project, procedure=procedure, cautions=(), findings=(finding(),))

    return made
