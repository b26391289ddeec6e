"""A tiny project of a few caption lines, examined by the real pipeline."""

from collections.abc import Callable
from pathlib import Path

import pytest

from witnessmark.examination import examine
from witnessmark.proof.model import Finding

FindingsOf = Callable[..., list[Finding]]
COLUMNS = "item,also_called,property,value,tool_size,source"
SECONDS = 4  # of each caption line


def write_project(folder: Path, captions: str, specs: str = "", extra: str = "") -> Path:
    """A project of caption lines, one a cue, and specification rows without header. extra: lines of repair.toml."""
    lines = [line.strip() for line in captions.strip().splitlines() if line.strip()]
    cues = [f"{_clock(i * SECONDS)} --> {_clock((i + 1) * SECONDS)}\n{line}\n" for i, line in enumerate(lines)]
    (folder / "captions.vtt").write_text("\n".join(["WEBVTT\n", *cues]), encoding="utf-8")
    header = COLUMNS + (",thread" if specs.strip() and specs.strip().splitlines()[0].count(",") == 6 else "")
    (folder / "specs.csv").write_text("\n".join([header, *_lines(specs)]) + "\n", encoding="utf-8")
    named = ["specs.csv"] if specs.strip() else []
    (folder / "repair.toml").write_text(
        f'title = "An invented repair"\ncaptions = "captions.vtt"\nspecs = {named}\n{extra}\n'.replace("'", '"'),
        encoding="utf-8",
    )
    return folder


def _lines(text: str) -> list[str]:
    return [line.strip() for line in text.strip().splitlines() if line.strip()]


def _clock(seconds: int) -> str:
    return f"00:{seconds // 60:02d}:{seconds % 60:02d}.000"


@pytest.fixture
def findings_of(tmp_path: Path) -> FindingsOf:
    """All findings of caption lines and specification rows; only those of one check where it is named."""

    def examine_lines(captions: str, specs: str = "", check: str | None = None, extra: str = "") -> list[Finding]:
        found = examine(write_project(tmp_path, captions, specs, extra)).findings
        return [finding for finding in found if check in (None, finding.check)]

    return examine_lines
