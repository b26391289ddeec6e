"""captions.review.md: what the corrected captions write otherwise than the captions, and what is still open."""

from collections.abc import Iterator

from witnessmark.language.speech import UNTIMED
from witnessmark.proof.misheard import NAME as MISHEARD
from witnessmark.proof.model import Finding
from witnessmark.proof.wording import bare
from witnessmark.publication.caption_changes import UNIT, Change, Changes, caption_changes
from witnessmark.publication.escape import markdown, precise
from witnessmark.publication.findings import is_open
from witnessmark.publication.manuscript import Manuscript
from witnessmark.transcript.model import Transcript


def captions_review_md(manuscript: Manuscript) -> str:
    """The text of captions.review.md."""
    examination = manuscript.examination
    changes = caption_changes(examination)
    transcript = examination.reading.speech.transcript
    lines = [f"# Corrected captions: {markdown(examination.project.title)}", "", *_about(transcript)]
    words = [change for change in changes.made if change.why != UNIT]
    lines += _table("Words and values", words, transcript)
    lines += _table("Units", [change for change in changes.made if change.why == UNIT], transcript)
    if not changes.made:
        lines += ["Nothing is written otherwise than it was captioned.", ""]
    lines += _open(changes, examination.findings)
    return "\n".join(lines).rstrip("\n") + "\n"


def _about(transcript: Transcript) -> Iterator[str]:
    yield "Watch the changed places before you publish these captions. Each caption keeps its time."
    if transcript.format in UNTIMED:
        yield ""
        yield (
            f"The captions are {transcript.format}, which times whole blocks: where one is parted, the time of each part "
            "is worked out from its syllables and can be off by a second or two."
        )
    yield ""


def _table(heading: str, changes: list[Change], transcript: Transcript) -> Iterator[str]:
    if not changes:
        return
    yield from (f"## {heading}", "", "| At | As captioned | As written | Why |", "| --- | --- | --- | --- |")
    for change in changes:
        cells = (change.captioned, change.written, change.why)
        yield f"| {precise(transcript.words[change.first].start)} | {' | '.join(map(markdown, cells))} |"
    yield ""


def _open(changes: Changes, findings: tuple[Finding, ...]) -> Iterator[str]:
    doubtful = [each for each in findings if each.check == MISHEARD and each.severity == "query" and is_open(each)]
    if doubtful:
        yield from ("## Left as captioned: not settled", "")
        yield 'Settle these with `witnessmark settle DIR FINDING --value "the right words"`, or add them to `[heard]`.'
        yield ""
        for each in doubtful:
            meant = each.fix.caption if each.fix else None
            yield f"- {precise(each.start)} {markdown(bare(each.said))}: {markdown(meant or 'other words')}? (`{each.id}`)"
        yield ""
    if changes.unplaced:
        yield from (
            "## Settled, to be mended by hand",
            "",
            "What was said lies in several places, or is not there.",
            "",
        )
        for each in changes.unplaced:
            wanted = each.fix.caption if each.fix else None
            yield f"- {precise(each.start)} {markdown(bare(each.said))}: {markdown(wanted or '')} (`{each.id}`)"
        yield ""
