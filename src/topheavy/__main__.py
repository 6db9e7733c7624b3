"""Run topheavy from the terminal: ``python -m topheavy``."""

from topheavy.cli.app import main

if __name__ == "__main__":
    main()
