"""Make lemmas.tsv and verbs.tsv from the dictionary of the installed LemmInflect.

usage: python benchmarks/make_inflections.py src/witnessmark/data/inflection

Only lower-case words are kept: tokens of speech are lower case. Verbs of the action vocabulary and of the
triggers that the dictionary lacks get the forms that LemmInflect's rules make. One line a word, sorted by bytes.
"""

import csv
import gzip
import re
import sys
from pathlib import Path

import lemminflect

import witnessmark.data
from witnessmark.procedure.lexicon import deeds


def dictionary_words(name: str) -> list[str]:
    """The lower-case words that a file of LemmInflect's dictionary begins its lines with."""
    path = Path(lemminflect.__file__).parent / "resources" / name
    data = path.read_bytes()
    text = (gzip.decompress(data) if path.suffix == ".gz" else data).decode("utf-8")
    return [row[0] for row in csv.reader(text.splitlines()) if row and row[0] == row[0].lower()]


def lemma_lines() -> set[str]:
    """Each word with its base forms by part of speech."""
    lines = set()
    for word in {*dictionary_words("lemma_lu.csv.gz"), *dictionary_words("lemma_overrides.csv")}:
        known = lemminflect.getAllLemmas(word)
        told = (f"{upos}:{','.join('=' if lemma == word else lemma for lemma in known[upos])}" for upos in known)
        if known:
            lines.add(f"{word}\t{' '.join(told)}\n")
    return lines


def trigger_words() -> set[str]:
    """The words that the tables of hazards, promises and the like want in every form: they are marked with ~."""
    data = Path(witnessmark.data.__file__).parent
    return {word for path in sorted(data.rglob("*.toml")) for word in re.findall(r"~([a-z]+)", path.read_text("utf-8"))}


def verb_lines() -> set[str]:
    """Each verb with its inflected forms."""
    lines = set()
    ours = {said[0] for said in deeds() if said[0].isalpha()} | trigger_words()
    for word in {*dictionary_words("infl_lu.csv.gz"), *dictionary_words("infl_overrides.csv"), *ours}:
        known = lemminflect.getAllInflections(word, upos="VERB")
        if not known and word in ours:
            known = lemminflect.getAllInflectionsOOV(word, upos="VERB")
        if known:
            lines.add(f"{word}\t{' '.join(sorted({form for forms in known.values() for form in forms}))}\n")
    return lines


def main(out: Path) -> None:
    """Write both tables."""
    for name, lines in (("lemmas.tsv", lemma_lines()), ("verbs.tsv", verb_lines())):
        (out / name).write_bytes(b"".join(sorted(line.encode() for line in lines)))


if __name__ == "__main__":
    main(Path(sys.argv[1]))
