"""kit.md: tools, parts, supplies, fasteners and their torques, ready for the description of the upload."""

from collections.abc import Iterator, Sequence

from witnessmark.publication.escape import markdown
from witnessmark.publication.kit import KitItem
from witnessmark.publication.manuscript import Manuscript
from witnessmark.publication.torques import TorqueLine, torque_lines
from witnessmark.publication.values import shown_value


def kit_md(manuscript: Manuscript) -> str:
    """The text of kit.md."""
    kit = manuscript.kit
    parts = [f"# {markdown(manuscript.examination.project.title)}: what you need", ""]
    for heading, things in (
        ("Tools", kit.tools),
        ("New parts", kit.bought),
        ("Parts the work touches", kit.other_parts),
        ("Supplies", kit.supplies),
        ("Fasteners", kit.other_fasteners),
    ):
        parts += _list(heading, things)
    parts += _torques(torque_lines(manuscript.examination))
    parts.append("The workshop manual of your machine and local rules come first.")
    return "\n".join(parts) + "\n"


def _list(heading: str, things: Sequence[KitItem]) -> Iterator[str]:
    if not things:
        return
    yield from (f"## {heading}", "")
    for each in things:
        yield f"- {markdown(each.name)}" + (f", {markdown(each.size)}" if each.size else "")
    yield ""


def _torques(lines: Sequence[TorqueLine]) -> Iterator[str]:
    if not lines:
        return
    yield from ("## Torques", "", "| Fastener | Torque | Tool | Source |", "| --- | --- | --- | --- |")
    for line in lines:
        torque = markdown(shown_value(line.value)) if line.value else "look it up"
        source = f"{markdown(line.source)}" if line.source else "unchecked, as said in the video"
        yield f"| {markdown(line.item)} | {torque} | {markdown(line.tool)} | {source} |"
    yield ""
