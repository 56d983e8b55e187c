"""Makes the font of figures in print, and the table of its widths: python3 scripts/font/makeFont.py

Arimo 1.341 (SIL Open Font License 1.1) as the package @expo-google-fonts/arimo 0.4.3 has it, cut down to Latin, Greek, Cyrillic, raised and
lowered figures and the signs that charts use, with fontTools 4.66.1 (pip install fonttools==4.66.1).
"""

import os
from itertools import groupby

from fontTools import subset
from fontTools.ttLib import TTFont

ROOT = os.path.join(os.path.dirname(__file__), "..", "..")
SOURCES = os.path.join(ROOT, "node_modules", "@expo-google-fonts", "arimo")
FACES = {"Regular": "400Regular/Arimo_400Regular.ttf", "Bold": "700Bold/Arimo_700Bold.ttf"}
LETTERS = (
    "U+0020-007E,U+00A0-017F,U+0192,U+02C6-02DD,U+0370-03FF,U+0400-045F,U+2010-2015,U+2018-201E,U+2020-2022,U+2026,"
    "U+202F,U+2030,U+2032-2033,U+2039-203A,U+2044,U+2070-208E,U+20AC,U+2116,U+2122,U+2126,U+212B,U+2190-2193,U+2202,"
    "U+2206,U+220F,U+2211,U+2212,U+221A,U+221E,U+222B,U+2248,U+2260,U+2264-2265,U+25CA"
)


def cut(face: str) -> str:
    out = os.path.join(ROOT, "media", "fonts", f"Arimo-{face}.ttf")
    subset.main(
        [
            os.path.join(SOURCES, FACES[face]),
            f"--unicodes={LETTERS}",
            "--layout-features=kern",
            "--no-hinting",
            "--drop-tables+=DSIG,GDEF",
            "--notdef-outline",
            f"--output-file={out}",
        ]
    )
    return out


def widths(path: str) -> dict[int, str]:
    """The letters of each width, in units of the em, of which there are 2048."""
    font = TTFont(path)
    metrics = font["hmtx"]
    assert font["head"].unitsPerEm == 2048
    pairs = sorted((metrics[glyph][0], code) for code, glyph in font.getBestCmap().items())
    return {width: "".join(chr(code) for _, code in group) for width, group in groupby(pairs, lambda pair: pair[0])}


def literal(text: str) -> str:
    """As a TypeScript string, with what can't be seen written as its code."""
    escaped = "".join(
        f"\\u{ord(sign):04x}" if not sign.isprintable() or sign in "\u00a0\u00ad\u202f" else "\\" + sign if sign in "'\\" else sign
        for sign in text
    )
    return f"'{escaped}'"


def table(face: str) -> str:
    lines = [f"  [{width}, {literal(letters)}]," for width, letters in widths(cut(face)).items()]
    return f"export const {face.lower()}Widths: Widths = [\n" + "\n".join(lines) + "\n];\n"


if __name__ == "__main__":
    os.makedirs(os.path.join(ROOT, "media", "fonts"), exist_ok=True)
    text = (
        "// Made by scripts/font/makeFont.py from Arimo 1.341.\n\n"
        "/** Letters by their width, of which 2048 are the font's size. */\n"
        "export type Widths = readonly (readonly [width: number, letters: string])[];\n\n"
        + table("Regular")
        + "\n"
        + table("Bold")
    )
    with open(os.path.join(ROOT, "src", "charts", "fontWidths.ts"), "w", encoding="utf-8") as out:
        out.write(text)
