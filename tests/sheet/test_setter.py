"""What loads WeasyPrint leaves out what can wait, and only until it is called."""

from __future__ import annotations

import subprocess
import sys

import pytest


def said_by(program: str) -> str:
    """What a fresh process prints."""
    command = [sys.executable, "-W", "error", "-c", program]
    return subprocess.run(command, capture_output=True, text=True, check=True).stdout.strip()


LOADED = "import formsheet.sheet.setter, sys, weasyprint.pdf.fonts as fonts\n"


@pytest.mark.parametrize("name", ["fontTools.subset", "fontTools.varLib.instancer"])
def test_what_can_wait_is_not_loaded(name: str) -> None:
    assert said_by(f"{LOADED}print({name!r} in sys.modules)") == "False"


def test_it_is_loaded_when_it_is_called() -> None:
    program = LOADED + (
        "options = fonts.subset.Options(hinting=False)\n"
        "from fontTools.subset import Options, Subsetter, parse_unicodes\n"
        "print(type(options) is Options, type(fonts.subset.Subsetter()) is Subsetter)\n"
        "print(fonts.subset.parse_unicodes is parse_unicodes)\n"
    )
    assert said_by(program) == "True True\nTrue"


def test_a_variable_face_is_made_a_plain_one() -> None:
    """As for a face of the system that stands in for letters that ours lack."""
    program = LOADED + (
        "from fontTools.fontBuilder import FontBuilder\n"
        "from fontTools.pens.ttGlyphPen import TTGlyphPen\n"
        "built = FontBuilder(1000)\n"
        "built.setupGlyphOrder(['.notdef'])\n"
        "built.setupCharacterMap({})\n"
        "built.setupGlyf({'.notdef': TTGlyphPen(None).glyph()})\n"
        "built.setupHorizontalMetrics({'.notdef': (500, 0)})\n"
        "built.setupHorizontalHeader()\n"
        "built.setupNameTable({'familyName': 'Varied'})\n"
        "built.setupOS2()\n"
        "built.setupPost()\n"
        "built.setupFvar([('wght', 100, 400, 900, 'Weight')], [])\n"
        "built.setupGvar({'.notdef': []})\n"
        "plain = fonts.instantiateVariableFont(built.font, {'wght': 700}, static=True)\n"
        "print('fvar' in plain)\n"
    )
    assert said_by(program) == "False"
