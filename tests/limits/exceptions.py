"""Numbers that fall under the rule of `found.py` and are no limits; steps that no test can see."""

from __future__ import annotations

#: Name of a constant -> why a step of it need not be seen.
NOT_LIMITS: dict[str, str] = {}

#: A step, as it is printed -> why no test can see it.
SURVIVORS: dict[str, str] = {}
