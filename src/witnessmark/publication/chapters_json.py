"""chapters.json: chapters as podcast players and web players take them."""

import json
from typing import Any

from witnessmark.publication.chapters import chapter_spans
from witnessmark.publication.escape import printable
from witnessmark.publication.manuscript import Manuscript

VERSION = "1.2.0"


def chapters_json(manuscript: Manuscript) -> str:
    """The text of chapters.json: JSON Chapters Format 1.2 of the Podcast Namespace; times in seconds.

    What the format also has room for (pictures, addresses, places) is not known and left out.
    """
    data: dict[str, Any] = {
        "version": VERSION,
        "title": printable(manuscript.examination.project.title),
        "chapters": [
            {"startTime": span.start / 1000, "endTime": span.end / 1000, "title": span.title}
            for span in chapter_spans(manuscript)
        ],
    }
    return json.dumps(data, ensure_ascii=False, indent=1) + "\n"
