"""Every file that is published beside a video, in the order in which they are listed."""

from collections.abc import Callable
from pathlib import Path

from witnessmark.examination import Examination
from witnessmark.publication.chapters_txt import chapters_txt
from witnessmark.publication.facts import facts_json
from witnessmark.publication.findings_md import findings_md
from witnessmark.publication.guide_html import guide_html
from witnessmark.publication.guide_md import guide_md
from witnessmark.publication.kit_csv import kit_csv
from witnessmark.publication.kit_md import kit_md
from witnessmark.publication.manuscript import Manuscript, prepare
from witnessmark.publication.media import illustrated, media_files, whole_folders
from witnessmark.publication.note import Note, unheard
from witnessmark.publication.remux import with_chapters
from witnessmark.publication.write import Content, Written, scratch, write_files

Writer = Callable[[Manuscript], str]

WRITERS: tuple[tuple[str, Writer], ...] = (
    ("findings.md", findings_md),
    ("chapters.txt", chapters_txt),
    ("kit.md", kit_md),
    ("kit.csv", kit_csv),
    ("guide.md", guide_md),
    ("guide.html", guide_html),
    ("facts.json", facts_json),
)


def build(
    examination: Examination, out: Path, *, with_video: bool = False, note: Note = unheard
) -> tuple[Written, ...]:
    """Write every file into a folder, whole or not at all. Raises InputError where the folder cannot be written.

    with_video: a copy of the video with its chapters too. note: is told of each medium that could not be made.
    """
    manuscript = illustrated(prepare(examination), note)
    contents: dict[str, Content] = {name: write(manuscript) for name, write in WRITERS}
    contents |= media_files(manuscript, note)
    with scratch(out) as folder:
        if with_video:
            contents |= with_chapters(manuscript, out, folder, note)
        return write_files(out, contents, whole_folders())
