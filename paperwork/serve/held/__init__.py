"""What belongs to a show on the page: the files beside it, its answers, and how it is printed."""
