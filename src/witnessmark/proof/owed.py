"""A promise to viewers with nothing behind it.

*said*: I'll put a link to the exact ones down below · *found*: a link is promised, and [links] of repair.toml has none.
Source: common practice.
"""

from collections.abc import Iterator

from witnessmark.proof.evidence import Evidence
from witnessmark.proof.model import Finding, Fix

NAME = "owed"
PROMISED = {"link": "a link", "picture": "a picture", "list": "a list", "follow-up": "another video"}


def check(evidence: Evidence) -> Iterator[Finding]:
    """Every promise that no link of repair.toml answers."""
    for owed in evidence.owed:
        if owed.settled is not None:
            continue
        what = PROMISED[owed.kind]
        message = f"You promise viewers {what} ({owed.about}), and nothing in [links] of repair.toml answers it."
        fix = Fix(question=f"Where is it? Add it to [links] with words of the promise, such as {_key(owed.about)}.")
        yield Finding(NAME, "note", owed.start, owed.end, owed.said, message, None, None, None, fix)


def _key(about: str) -> str:
    return '"' + " ".join(about.replace('"', "").split()[:4]) + '"'
