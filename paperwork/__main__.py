"""`python -m paperwork` is `paperwork`."""

from paperwork.cli import main

main()
