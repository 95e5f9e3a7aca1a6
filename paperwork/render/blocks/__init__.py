"""Each kind of block of a running page, laid out as slices that run across the page and are never split."""
