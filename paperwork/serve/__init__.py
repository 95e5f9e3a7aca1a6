"""The local page: the same engine for those who never type a command.

    guard     one origin, one token, bounded bodies; everything else is refused
    shows     what is open, each tab its own; questions answered, papers made, tonight, revisions compared
    edit      a show as tables to type in: its states, what is done to it, how it is saved
    work      what else is done with a show: handed out, kept, looked for
    share     papers lent to telephones for a time, by a server of their own
    excerpts  findings beside the lines and cells that they mean
    wording   what is said in place of commands, which nobody types here
    readers   the papers of one reader as one PDF
    guide     what to do next, in one line
    begin     a new show, the example, a list made a show file
    pages     values for the templates
    app       the addresses
    run       the server: this machine only, a random port, ended by closing the page

Nothing is kept outside of the show's folder: what was dropped on the page, and what is edited and not saved, is held
in memory until the page is closed.
"""
