"""Papers lent to telephones: of one show, to read only, at an address and for a time that somebody asked for.

lent       what is lent, who may read it, and until when; the application that hands it out
listening  sockets and servers
lending    what is on and off; the addresses of the page that turn it
"""
