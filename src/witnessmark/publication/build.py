"""Every file that is published beside a video, in the order in which they are listed."""

from collections.abc import Callable, Sequence
from pathlib import Path

from witnessmark.errors import InputError
from witnessmark.examination import Examination
from witnessmark.nearest import nearest
from witnessmark.publication.captions_review_md import captions_review_md
from witnessmark.publication.captions_srt import captions_srt
from witnessmark.publication.captions_vtt import captions_vtt
from witnessmark.publication.chapters_ffmeta import chapters_ffmeta
from witnessmark.publication.chapters_json import chapters_json
from witnessmark.publication.chapters_txt import chapters_txt
from witnessmark.publication.chapters_vtt import chapters_vtt
from witnessmark.publication.chapters_xml import chapters_xml
from witnessmark.publication.corrections_csv import corrections_csv
from witnessmark.publication.corrections_vtt import corrections_vtt
from witnessmark.publication.description_txt import description_txt
from witnessmark.publication.facts import facts_json
from witnessmark.publication.findings_md import findings_md
from witnessmark.publication.guide_html import guide_html
from witnessmark.publication.guide_md import guide_md
from witnessmark.publication.kit_csv import kit_csv
from witnessmark.publication.kit_md import kit_md
from witnessmark.publication.manuscript import Manuscript, prepare
from witnessmark.publication.media import MEDIA, illustrated, media_files, whole_folders, with_own_pictures
from witnessmark.publication.moves import scratch
from witnessmark.publication.note import Note, unheard
from witnessmark.publication.remux import with_chapters
from witnessmark.publication.write import Content, Written, write_files

COMES_WITH = {"contact_sheet.jpg": "stills", "corrections.edl": "corrections.otio"}
Writer = Callable[[Manuscript], str]

STILLS = "stills"
PICTURED = frozenset({"guide.md", "guide.html", "guide.pdf"})
"""Files that show the stills."""

WRITERS: tuple[tuple[str, Writer], ...] = (
    ("findings.md", findings_md),
    ("description.txt", description_txt),
    ("chapters.txt", chapters_txt),
    ("chapters.vtt", chapters_vtt),
    ("chapters.ffmeta", chapters_ffmeta),
    ("chapters.xml", chapters_xml),
    ("chapters.json", chapters_json),
    ("captions.corrected.vtt", captions_vtt),
    ("captions.corrected.srt", captions_srt),
    ("captions.review.md", captions_review_md),
    ("corrections.csv", corrections_csv),
    ("corrections.vtt", corrections_vtt),
    ("kit.md", kit_md),
    ("kit.csv", kit_csv),
    ("guide.md", guide_md),
    ("guide.html", guide_html),
    ("facts.json", facts_json),
)


def asked_for(only: Sequence[str] = (), skip: Sequence[str] = ()) -> tuple[str, ...]:
    """Names of the files to write: all, or only some, without those to skip. A guide brings its stills along.

    Raises InputError for a name that nothing written has, and where nothing is left.
    """
    only, skip = ([COMES_WITH.get(name, name) for name in names] for names in (only, skip))
    known = [*(name for name, _ in WRITERS), *(medium.name for medium in MEDIA)]
    for option, names in (("--only", only), ("--skip", skip)):
        unknown = next((name for name in names if name not in known), None)
        if unknown is not None:
            near = nearest(unknown, known)
            problem = f"no file {unknown!r} is written" + (f", the nearest is {near!r}" if near else "")
            raise InputError(f"build {option}", problem, f"known are {', '.join(known)}")
    if only and {*only} <= {*skip}:
        problem = f"--only and --skip both name {', '.join(dict.fromkeys(only))}, so nothing is left to write"
        raise InputError("build", problem, "name each file with one of the two")
    wanted = {*(only or known), *([STILLS] if PICTURED & {*only} else [])}
    asked = tuple(name for name in known if name in wanted and name not in skip)
    if not asked:
        raise InputError("build", "no file is left to write", "name one more with --only, or skip one less")
    return asked


def build(
    examination: Examination,
    out: Path,
    names: Sequence[str] | None = None,
    *,
    with_video: bool = False,
    note: Note = unheard,
) -> tuple[Written, ...]:
    """Write the files of these names (by default every file) into a folder, whole or not at all.

    with_video: a copy of the video with its chapters too. note: is told of each medium that could not be made.
    Raises InputError where the folder cannot be written.
    """
    asked = asked_for() if names is None else names
    manuscript = with_own_pictures(illustrated(prepare(examination), STILLS in asked, note), out, note)
    contents: dict[str, Content] = {name: write(manuscript) for name, write in WRITERS if name in asked}
    contents |= media_files(manuscript, asked, note)
    if not contents:
        note(f"nothing is written of {', '.join(asked)}: stills need a video, cards and timelines a correction")
    with scratch(out) as folder:
        if with_video:
            contents |= with_chapters(manuscript, out, folder, note)
        return write_files(out, contents, whole_folders(asked), folder)
