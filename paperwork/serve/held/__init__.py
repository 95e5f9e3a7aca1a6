"""What belongs to a show on the page: the files beside it, and how it is printed."""
