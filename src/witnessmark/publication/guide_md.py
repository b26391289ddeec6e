"""guide.md: the written guide for a static site."""

from witnessmark.publication.guide import guide_of
from witnessmark.publication.manuscript import Manuscript
from witnessmark.publication.render import render


def guide_md(manuscript: Manuscript) -> str:
    """The text of guide.md. Raises InputError where the project's own template is wrong."""
    return render("guide.md.j2", manuscript.examination.project.folder, guide=guide_of(manuscript))
