"""`lesson.json`: the data of `show --json`, with the same schema."""

from __future__ import annotations

import json
from pathlib import PurePath
from typing import Any

from formsheet.report.data import tune_data
from formsheet.stages import Examined


def lesson_json(examined: Examined) -> str:
    """The assembled tune as JSON; files are named without their folders."""
    data = tune_data(examined)
    data["file"] = examined.file_name
    for problem in data["problems"]:
        for place in (problem, *problem["related"]):
            _without_folder(place)
    return json.dumps(data, indent=2, ensure_ascii=False) + "\n"


def _without_folder(place: dict[str, Any]) -> None:
    place["file"] = PurePath(place["file"]).name
