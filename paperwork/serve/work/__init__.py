"""What is done with an open show beside editing it, a file for each kind of work.

editions   which house and which performance the papers are of (choosing: what is offered and chosen)
handouts   the papers of one reader as one file
comparing  an earlier revision, and what must be printed again
previews   a paper as it would be now, what is not saved included
beside     two revisions, page by page, with what differs marked
parts      one label, or the pages that show a rack (selection: what is asked for, printed)
archivist  archives made, verified, put back and compared
kept       which archives lie beside a show
auditing   photographs held against the show, marked
searching  frequencies looked for by a process that can be ended
"""
