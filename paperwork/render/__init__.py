"""From a sheet to ink: measure, place, paint. Nothing here knows what a show is.

text      a text in a width: faces, runs of scripts, widths, breaks, and what had to give way
blocks    each kind of block of a running page as slices that are never split
labels    a block of labels, which has pages of its own
layout    slices on pages, with their furniture; book binds many layouts
pdf       the boxes of a layout as PDF and SVG; press does all of it for one file
"""
