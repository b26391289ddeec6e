"""Make trade_sounds.tsv: how every name of the packaged vocabulary sounds, so that no recording need work it out.

usage: python benchmarks/make_trade_sounds.py src/witnessmark/data/pronunciation

One line a name that is looked for by its sounds: the name, the ways it may sound, the skeleton of each. It holds nothing
that the rules do not say: where it lacks a name, that is worked out when it is wanted.
"""

import sys
from pathlib import Path

from witnessmark.language.heard import vocabulary_terms
from witnessmark.language.misheard_lexicon import heard_as, lexicon_of


def lines() -> list[str]:
    """The lines in order of their bytes."""
    forms = lexicon_of(vocabulary_terms()).forms.values()
    names = {form.words for same in forms for form in same}
    return sorted(f"{' '.join(words)}\t{chr(9).join(map(' '.join, heard_as(words)))}\n" for words in names)


if __name__ == "__main__":
    (Path(sys.argv[1]) / "trade_sounds.tsv").write_bytes("".join(lines()).encode())
