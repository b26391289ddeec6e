"""What is made of pictures and other formats, each by a library that need not be there: what cannot be made is left out.

A medium that cannot be made costs one note; the texts and the other media are written all the same.
"""

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from importlib.util import find_spec
from pathlib import Path

from witnessmark.errors import InputError
from witnessmark.publication.corrections import corrections
from witnessmark.publication.footage import look_at
from witnessmark.publication.manuscript import Manuscript
from witnessmark.publication.note import Note
from witnessmark.publication.write import edited

EXTRAS = {"video": ("av", "PIL", "numpy"), "edit": ("opentimelineio",), "pdf": ("weasyprint",)}
"""Extra of pyproject.toml: the modules that it brings."""


@dataclass(frozen=True, slots=True)
class Medium:
    """A kind of files. name: a file, or a folder that holds nothing else. extra: what it needs installed.

    make: the files, name to content, of a manuscript; raises InputError where they cannot be made.
    """

    name: str
    extra: str
    wanted: Callable[[Manuscript], bool]
    make: Callable[[Manuscript], Mapping[str, str | bytes]]


def illustrated(manuscript: Manuscript, stills: bool, note: Note) -> Manuscript:
    """A manuscript with the look of its video, where there is one that can be read. stills: with one for each step too."""
    video = manuscript.examination.project.video
    if video is None or not present("video"):
        return manuscript
    from witnessmark.publication.stills import find_stills

    try:
        manuscript = replace(manuscript, footage=look_at(video))
        return replace(manuscript, stills=find_stills(manuscript, note)) if stills else manuscript
    except InputError as why:
        note(f"{why}; there are no stills")
        return manuscript


def with_own_pictures(manuscript: Manuscript, out: Path, note: Note) -> Manuscript:
    """A manuscript that shows, of each still which a person has replaced in a folder, that picture.

    What is written to `stills/` stays the video's, so that the folder can tell which of them are a person's.
    """
    own = edited(out, (still.path for still in manuscript.stills.values()))
    if not own:
        return manuscript
    from witnessmark.publication.stills import replaced_by

    shown = dict(manuscript.stills)
    for number, still in manuscript.stills.items():
        if still.path in own:
            try:
                shown[number] = replaced_by(still, out / still.path)
            except InputError as why:
                note(f"{why}; guide.html shows the video's")
    return replace(manuscript, stills=shown)


def media_files(manuscript: Manuscript, asked: Collection[str], note: Note) -> dict[str, str | bytes]:
    """The files of every medium that is asked for by name, is wanted and can be made."""
    wanted = [medium for medium in MEDIA if medium.name in asked and medium.wanted(manuscript)]
    absent = [medium for medium in wanted if not present(medium.extra)]
    if absent:
        note(_absent(absent))
    files: dict[str, str | bytes] = {}
    for medium in wanted:
        if medium in absent:
            continue
        try:
            files |= medium.make(manuscript)
        except InputError as why:
            note(f"{medium.name} left out: {why}")
    return files


def whole_folders(asked: Collection[str]) -> tuple[str, ...]:
    """Folders asked for, in which nothing is left of an earlier build."""
    return tuple(name for name in FOLDERS if name in asked and present(EXTRA_OF[name]))


def present(extra: str) -> bool:
    """Whether the libraries of an extra are installed."""
    return all(find_spec(module) is not None for module in EXTRAS[extra])


def _absent(media: Sequence[Medium]) -> str:
    names = ", ".join(medium.name for medium in media)
    extras = ",".join(dict.fromkeys(medium.extra for medium in media))
    return f"left out: {names}; to have them, install the extras: pip install 'witnessmark[{extras}]'"


def _stills(manuscript: Manuscript) -> Mapping[str, str | bytes]:
    from witnessmark.publication.contact_sheet import contact_sheet

    stills = {still.path: still.jpeg for still in manuscript.stills.values()}
    return {**stills, "contact_sheet.jpg": contact_sheet(manuscript)} if stills else {}


def _cards(manuscript: Manuscript) -> Mapping[str, str | bytes]:
    from witnessmark.publication.cards import cards

    return cards(manuscript)


def _edit_list(manuscript: Manuscript) -> Mapping[str, str | bytes]:
    from witnessmark.publication.edit_list import edit_list

    return edit_list(manuscript)


def _guide_pdf(manuscript: Manuscript) -> Mapping[str, str | bytes]:
    from witnessmark.publication.guide_pdf import guide_pdf

    return {"guide.pdf": guide_pdf(manuscript)}


def _has_video(manuscript: Manuscript) -> bool:
    return manuscript.examination.project.video is not None


def _has_corrections(manuscript: Manuscript) -> bool:
    return bool(corrections(manuscript.examination.findings))


FOLDERS = ("stills", "cards")
MEDIA: tuple[Medium, ...] = (
    Medium("stills", "video", _has_video, _stills),
    Medium("cards", "video", _has_corrections, _cards),
    Medium("corrections.otio", "edit", _has_corrections, _edit_list),
    Medium("guide.pdf", "pdf", lambda _: True, _guide_pdf),
)
EXTRA_OF = {medium.name: medium.extra for medium in MEDIA}
