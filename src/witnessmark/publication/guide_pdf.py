"""guide.pdf: the written guide on paper, from the print style of guide.html."""

from witnessmark.errors import InputError
from witnessmark.publication.guide_html import guide_html
from witnessmark.publication.manuscript import Manuscript

IDENTIFIER = b"witnessmark-guide"
"""In place of the random one: the same guide gives the same bytes."""


def guide_pdf(manuscript: Manuscript) -> bytes:
    """The bytes of guide.pdf. Raises InputError where the page library lacks what it needs of the system."""
    try:
        from weasyprint import HTML
        from weasyprint.urls import URLFetcher
    except OSError:
        raise InputError(
            "WeasyPrint", "a library of the system is missing", "install Pango, as its handbook tells"
        ) from None

    page = HTML(string=guide_html(manuscript), url_fetcher=URLFetcher(allowed_protocols=("data",)))
    data: bytes = page.write_pdf(pdf_identifier=IDENTIFIER, pdf_tags=True)
    return data
