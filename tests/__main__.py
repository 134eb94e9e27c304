"""``python3 -m tests [pytest's own options]``. Parses on an old Python, like stemmap/checkout.py."""

import sys

from stemmap.checkout import prepare

if __name__ == "__main__":
    prepare("tests", extra="test")

    import pytest

    sys.exit(pytest.main(sys.argv[1:]))
