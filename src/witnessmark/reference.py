"""The command reference of the README, made from the commands themselves.

`python -m witnessmark.reference README.md` writes it anew between its two marks.
"""

import sys
from collections.abc import Iterator
from pathlib import Path

import click

from witnessmark.cli import commands

BEGIN, END = "<!-- command reference -->", "<!-- end of command reference -->"
WIDTH = 100


def command_reference() -> str:
    """What `--help` prints for every command, as Markdown."""
    return "\n".join(_sections())


def with_reference(readme: str) -> str:
    """A README with the reference between its marks made anew. Raises ValueError where a mark is missing."""
    before, begin, rest = readme.partition(BEGIN)
    _, end, after = rest.partition(END)
    if not (begin and end):
        raise ValueError(f"the marks {BEGIN} and {END} are missing")
    return f"{before}{BEGIN}\n{command_reference()}\n{END}{after}"


def _sections() -> Iterator[str]:
    parent = click.Context(commands, info_name="witnessmark", **commands.context_settings)
    for name, command in sorted(commands.commands.items()):
        context = click.Context(command, info_name=name, parent=parent, max_content_width=WIDTH, terminal_width=WIDTH)
        yield f"### witnessmark {name}\n\n```text\n{command.get_help(context)}\n```\n"


if __name__ == "__main__":
    path = Path(sys.argv[1])
    path.write_text(with_reference(path.read_text(encoding="utf-8")), encoding="utf-8", newline="\n")
