"""A line that tells that work goes on, once it has gone on for a while."""

import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager

PATIENCE = 1.0
"""Seconds after which silence looks like a fault."""


@contextmanager
def working(doing: str) -> Iterator[None]:
    """Show `doing` on standard error, where that is a terminal, while work that takes longer than a second lasts."""
    if not sys.stderr.isatty():
        yield
        return
    timer = threading.Timer(PATIENCE, _show, (doing,))
    timer.daemon = True
    timer.start()
    try:
        yield
    finally:
        timer.cancel()
        timer.join()
        sys.stderr.write("\r\x1b[K")
        sys.stderr.flush()


def _show(doing: str) -> None:
    sys.stderr.write(f"{doing} ...")
    sys.stderr.flush()
