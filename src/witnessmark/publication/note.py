"""How a writer tells the user what it had to leave out."""

from collections.abc import Callable

Note = Callable[[str], None]
"""Takes one line that the user should know."""


def unheard(line: str) -> None:
    """Takes a note for which nobody asked."""
