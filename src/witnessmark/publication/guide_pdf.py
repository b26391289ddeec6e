"""guide.pdf: the written guide on paper, from the print style of guide.html."""

from witnessmark.errors import InputError
from witnessmark.publication.guide_html import guide_html
from witnessmark.publication.manuscript import Manuscript

IDENTIFIER = b"witnessmark-guide"
"""In place of the random one: the same guide gives the same bytes."""

RUNNING_TITLE = """
h1 { string-set: title content(); }
@page { @bottom-left { content: string(title); font: 8pt system-ui, "Noto Sans", "DejaVu Sans", sans-serif; color: #444; } }
"""
"""CSS Generated Content for Paged Media, W3C: no browser knows it, so it does not stand in guide.html."""


def guide_pdf(manuscript: Manuscript) -> bytes:
    """The bytes of guide.pdf. Raises InputError where the page library lacks what it needs of the system."""
    try:
        from weasyprint import CSS, HTML
        from weasyprint.urls import URLFetcher
    except OSError:
        raise InputError(
            "WeasyPrint", "a library of the system is missing", "install Pango, as its handbook tells"
        ) from None

    page = HTML(string=guide_html(manuscript), url_fetcher=URLFetcher(allowed_protocols=("data",)))
    data: bytes = page.write_pdf(stylesheets=[CSS(string=RUNNING_TITLE)], pdf_identifier=IDENTIFIER, pdf_tags=True)
    return data
