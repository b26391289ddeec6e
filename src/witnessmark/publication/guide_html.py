"""guide.html: the written guide as one file that is read on a phone in the workshop, or printed."""

from collections.abc import Sequence
from typing import Any

from witnessmark.publication.chapters import ChapterSpan, chapter_spans
from witnessmark.publication.guide import Guide, GuideChapter, GuideTool, guide_of
from witnessmark.publication.manuscript import Manuscript
from witnessmark.publication.render import data_block, render
from witnessmark.publication.values import shown_value


def guide_html(manuscript: Manuscript) -> str:
    """The text of guide.html. Raises InputError where the project's own template is wrong."""
    guide = guide_of(manuscript)
    folder = manuscript.examination.project.folder
    return render("guide.html.j2", folder, guide=guide, how_to=data_block(how_to(guide, chapter_spans(manuscript))))


def how_to(guide: Guide, spans: Sequence[ChapterSpan]) -> dict[str, Any]:
    """The guide as schema.org HowTo data (https://schema.org/HowTo). spans: the chapters of its video."""
    data = {
        "@context": "https://schema.org",
        "@type": "HowTo",
        "name": guide.title,
        "description": guide.statement,
        "tool": [{"@type": "HowToTool", "name": _full_name(each)} for each in guide.tools],
        "supply": [{"@type": "HowToSupply", "name": _full_name(each)} for each in guide.supplies],
        "step": [_section(chapter) for chapter in guide.chapters],
        "video": _video(guide, spans),
    }
    return _without_empty(data)


def _video(guide: Guide, spans: Sequence[ChapterSpan]) -> dict[str, Any]:
    """The recording with its chapters as Clips (https://schema.org/Clip), in seconds; where it is kept is not known."""
    clips = [
        {"@type": "Clip", "name": span.title, "startOffset": span.start / 1000, "endOffset": span.end / 1000}
        for span in spans
    ]
    video = {"@type": "VideoObject", "name": guide.title, "description": guide.statement, "hasPart": clips}
    return _without_empty(video)


def _section(chapter: GuideChapter) -> dict[str, Any]:
    steps = [
        {"@type": "HowToStep", "position": step.number, "text": step.text, "url": f"#step-{step.number}"}
        for step in chapter.steps
    ]
    return {"@type": "HowToSection", "name": chapter.title, "itemListElement": steps}


def _without_empty(data: dict[str, Any]) -> dict[str, Any]:
    return {name: value for name, value in data.items() if value != []}


def _full_name(thing: GuideTool) -> str:
    return f"{thing.name}, {shown_value(thing.size)}" if thing.size else thing.name
