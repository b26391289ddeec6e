"""A project with a hostile text wherever a project takes a text."""

import csv
import html
import re
import tomllib
from pathlib import Path

PAYLOADS: dict[str, str] = {
    each["what"]: each["text"]
    for each in tomllib.loads((Path(__file__).parent / "payloads.toml").read_text(encoding="utf-8"))["payload"]
}


def hostile_project(folder: Path, text: str) -> Path:
    """An invented project; what is said is a caption file's own way of saying it, so that the text itself arrives."""
    whole = html.escape(re.sub(r"[\r\n]+", " ", text), quote=False)
    # Captions with many control characters are refused as binary: those stand in the first cue only.
    said = re.sub(r"[\x00-\x1f]", "", whole)
    cues = (
        f"Today we do the {whole} and you need a 13 mm socket and some {said} brake cleaner.",
        f"Tighten the {said} to 25 newton metres. Careful, {said}, the disc is hot.",
        f"Then tighten the drain plug to 50 newton metres. I'll put a link to the {said} pads down below.",
        f"Next fit the {said} wheel with a 17 mm socket, you always use new ones, {said}.",
        f"Fit the cover. I'll make another video about the {said}.",
    )
    body = "".join(f"00:00:{10 * n:02d}.000 --> 00:00:{10 * n + 9:02d}.000\n{cue}\n\n" for n, cue in enumerate(cues))
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "captions.vtt").write_text(f"WEBVTT\n\n{body}", encoding="utf-8")
    # A table with a NUL in it is refused, and `;` parts the other names: neither would get further.
    cell = text.replace("\0", "")
    name = cell.replace(";", ",")
    with (folder / "specs.csv").open("w", encoding="utf-8", newline="") as file:
        table = csv.writer(file)
        table.writerow(("item", "also_called", "property", "value", "tool_size", "source"))
        table.writerow((cell, f"{name} bolt", "torque", "30 N·m", "13 mm", cell))
        table.writerow(("drain plug", f"{name} drain", "torque", "30 N·m", "17 mm", cell))
    quoted = toml(text)
    (folder / "repair.toml").write_text(
        f"title = {quoted}\ncaptions = 'captions.vtt'\nspecs = ['specs.csv']\nglossary = [{quoted}, 'pads']\n"
        + "[machine]\n"
        + "".join(f"{key} = {quoted}\n" for key in ("kind", "make", "model", "years", "odometer"))
        + f"[heard]\n{quoted} = {toml(text + ' heard')}\n'wheel' = {quoted}\n"
        + f"[links]\n{quoted} = 'https://parts.example/pads'\n'pads' = {toml('see ' + text)}\n",
        encoding="utf-8",
    )
    return folder


def toml(text: str) -> str:
    """A text as a TOML basic string, every character that is no letter or figure told by its number."""
    return '"' + "".join(c if c.isascii() and c.isalnum() else f"\\U{ord(c):08x}" for c in text) + '"'
