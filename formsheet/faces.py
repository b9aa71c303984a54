"""Which characters the typeface of the sheet has; a test holds this against its files.

The list stands here, since a check of a lesson is not to wait for the reading of a font file.
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
    """Whether the sheet's own typeface prints a character; spaces and the like print nothing."""
    printable = category(character)[0] not in "CZ"
    return character.isascii() or not printable or character in _MORE


def missing(text: str) -> str:
    """The characters of a text that the typeface lacks, each once, in their order."""
    if text.isascii():
        return ""
    return "".join(dict.fromkeys(c for c in text if not in_face(c)))
