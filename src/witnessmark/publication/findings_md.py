"""findings.md: what to settle, look at or know before the video is published."""

from collections.abc import Iterator, Sequence

from witnessmark.proof.model import Finding
from witnessmark.proof.wording import clock
from witnessmark.publication.escape import markdown
from witnessmark.publication.findings import by_weight, details, is_open, left_out, stale_text
from witnessmark.publication.manuscript import Manuscript

HEADINGS = {
    "hold": ("Holds", "Do not publish before these are settled."),
    "query": ("Queries", "A person should look at these."),
    "note": ("Notes", "Worth knowing."),
}
LABELS = {
    "said": "Said",
    "expected": "Expected",
    "likely": "Likely cause",
    "caption": "Caption should read",
    "card": "On-screen correction",
    "question": "Question",
    "settled": "Settled",
}


def findings_md(manuscript: Manuscript) -> str:
    """The text of findings.md: holds first, settled findings last."""
    examination = manuscript.examination
    found = by_weight(examination.findings)
    lines = [f"# Findings: {markdown(examination.project.title)}", ""]
    lost = left_out(examination.project.captions.name, examination.reading.speech.transcript)
    if lost:
        lines += [
            "## Not read",
            "",
            "What is said here was left out and not checked: mend the captions, and build again.",
            "",
        ]
        lines += [*(f"- {markdown(each)}" for each in lost), ""]
    if not any(map(is_open, found)):
        lines += ["Nothing is open. That does not say that the repair is safe or that the recording is right.", ""]
    for severity, (heading, meaning) in HEADINGS.items():
        lines += _section(heading, meaning, [each for each in found if is_open(each) and each.severity == severity])
    lines += _section("Settled", "Decided before, kept for the record.", [each for each in found if not is_open(each)])
    if examination.stale:
        lines += [
            "## Decisions that fit nothing any more",
            "",
            "Look whether they are still needed; nothing was dropped.",
            "",
        ]
        lines += [f"- {markdown(stale_text(decision))}" for decision in examination.stale]
    return "\n".join(lines).rstrip("\n") + "\n"


def _section(heading: str, meaning: str, findings: Sequence[Finding]) -> Iterator[str]:
    if not findings:
        return
    yield from (f"## {heading}", "", meaning, "")
    for finding in findings:
        yield from _entry(finding)


def _entry(finding: Finding) -> Iterator[str]:
    yield from (f"### {clock(finding.start)} {markdown(finding.message)}", "")
    for label, text in details(finding):
        if label != "finding":
            yield f"- {LABELS[label]}: {markdown(text)}"
    yield from (f"- Check: {markdown(finding.check)}, finding `{finding.id}`", "")
