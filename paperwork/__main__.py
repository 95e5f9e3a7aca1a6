"""The command `paperwork`, and `python -m paperwork`."""

import gc


def run() -> None:
    """Loads the command line and runs it. All that is loaded stays, so nothing looks for garbage in it meanwhile."""
    gc.disable()
    from paperwork.cli import main

    main()


if __name__ == "__main__":
    run()
