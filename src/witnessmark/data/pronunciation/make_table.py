"""Make words.tsv from the CMU Pronouncing Dictionary and the SCOWL word lists.

usage: python make_table.py CMUDICT.DICT SCOWL_DIR WORDS.TSV

CMUDICT.DICT is the dictionary's data file, SCOWL_DIR the folder of `english-words.10` and its fellows. One line a word,
sorted by bytes: the word, a tab, how common it is (1 everyday to 6, 9 in no list), a tab, its pronunciations, one
character a phoneme as phonemes.csv names them. Stress is dropped, save that AH0 stays apart from AH.
"""

import csv
import re
import sys
from pathlib import Path

SIZES = {10: 1, 20: 2, 35: 3, 40: 4, 50: 4, 55: 5, 60: 5, 70: 6}
"""SCOWL's list sizes, smallest and so most common first, to our classes."""


def phoneme_codes(table: Path) -> dict[str, str]:
    """Name in the dictionary's notation -> the one character that stands for it here."""
    with table.open(encoding="utf-8", newline="") as lines:
        return {row["name"]: row["code"] for row in csv.DictReader(lines)}


def fold(phonemes: list[str], codes: dict[str, str]) -> str:
    """Phonemes with stress digits -> one string, one character a phoneme."""
    return "".join(codes["AH0"] if p == "AH0" else codes[p.rstrip("012")] for p in phonemes)


def commonness(folder: Path) -> dict[str, int]:
    """Every word of the lists -> its class; a word in several lists takes the most common."""
    classes: dict[str, int] = {}
    for size, rank in sorted(SIZES.items(), reverse=True):
        for spelling in ("english", "american", "british"):
            path = folder / f"{spelling}-words.{size}"
            if path.exists():
                for word in path.read_text(encoding="latin-1").split():
                    classes[word] = rank
    return classes


def main(dictionary: Path, lists: Path, out: Path) -> None:
    """Write the whole table."""
    codes = phoneme_codes(Path(__file__).with_name("phonemes.csv"))
    classes = commonness(lists)
    said: dict[str, list[str]] = {}
    for line in dictionary.read_text(encoding="utf-8").splitlines():
        word, *phonemes = line.split("#")[0].split()
        word = re.sub(r"\(\d+\)$", "", word)
        if re.fullmatch(r"[a-z]+", word):
            sounds = fold(phonemes, codes)
            if sounds not in said.setdefault(word, []):
                said[word].append(sounds)
    rows = sorted(f"{word}\t{classes.get(word, 9)}\t{' '.join(sounds)}\n".encode() for word, sounds in said.items())
    out.write_bytes(b"".join(rows))


if __name__ == "__main__":
    main(*(Path(argument) for argument in sys.argv[1:4]))
