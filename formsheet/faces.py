"""Which characters the typeface of the sheet has; a test compares this list with the font files.

The list is kept in code so that checking a lesson does not have to read a font file.
"""

from __future__ import annotations

from unicodedata import category

#: Beyond ASCII: letters, figures and signs, then combining accents.
_MORE = frozenset(
    "¡¢£¤¥¦§¨©ª«¬®¯°±²³´¶·¸¹º»¼½¾¿ÀÁÂÃÄÅÆÇÈÉÊËÌÍÎÏÐÑÒÓÔÕÖ×ØÙÚÛÜÝÞßàáâãäåæçèéêëìíîïðñò"
    "óôõö÷øùúûüýþÿĀāĂăĄąĆćĊċČčĎďĐđĒēĖėĘęĚěĞğĠġĢģĦħĪīĮįİıĲĳĶķĹĺĻļĽľŁłŃńŅņŇňŐőŒœŔŕŘřŚśŞ"
    "şŠšŢţŤťŪūŮůŰűŲųŴŵŶŷŸŹźŻżŽžƒȘșȚțȷˆˇˉ˚˜˝ẀẁẂẃẄẅẞỲỳ–—‘’‚“”„†•…‹›⁄€₹ℓ™−∕♭♮♯"
    "\u0300\u0301\u0303\u0304\u0308"
)


def in_face(character: str) -> bool:
    """Whether the sheet's typeface can print a character; True for what needs no glyph (spaces)."""
    printable = category(character)[0] not in "CZ"
    return character.isascii() or not printable or character in _MORE


def missing(text: str) -> str:
    """The characters of a text that the typeface lacks, each once, in order of appearance."""
    if text.isascii():
        return ""
    return "".join(dict.fromkeys(c for c in text if not in_face(c)))
