"""What is done with an open show beside editing it, a file for each kind of work.

handouts   what is taken along: the papers of one reader as one file, a part of a paper (selection), of which house and
           performance (choosing)
comparing  an earlier revision, and what must be printed again
previews   a paper as it would be now, what is not saved included
beside     two revisions, page by page, with what differs marked
archivist  archives made, verified, put back and compared
auditing   photographs held against the show, marked
searching  frequencies looked for by a process that can be ended
"""
