"""`python -m formsheet`."""

import sys

from formsheet.cli import main

sys.exit(main())
