"""``python3 -m stemmap``, and the installed command ``stemmap``. Parses on an old Python, like stemmap/checkout.py."""

from stemmap.checkout import prepare


def main():
    # type: () -> None
    """Run the command line; what is installed needs no preparing."""
    from stemmap.cli import main as command_line

    command_line()


if __name__ == "__main__":
    prepare("stemmap")
    main()
