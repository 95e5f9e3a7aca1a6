"""The local page: the same engine for those who never type a command.

    guard     one origin, one token, bounded bodies; everything else is refused
    shows     what is open, each tab its own; questions answered, papers made, tonight, revisions compared
    excerpts  findings beside the lines and cells that they mean
    pages     values for the templates
    app       the addresses
    run       the server: this machine only, a random port, ended by closing the page

Nothing is kept outside of the show's folder: what was dropped on the page is held in memory until the page is closed.
"""
