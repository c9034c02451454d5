"""
Write a search index to standard output, for tests that are no Python.

Its entries come as JSON on standard input; a number there stands for a made-up shop of that many procedures.
"""

from __future__ import annotations

import json
import sys

from benchleaf.pages.search import SearchEntry, index_script
from tests.search.made_up import entries

if __name__ == "__main__":
    asked = json.load(sys.stdin)
    found = entries(asked) if isinstance(asked, int) else (SearchEntry(**entry) for entry in asked)
    sys.stdout.write(index_script(found))
