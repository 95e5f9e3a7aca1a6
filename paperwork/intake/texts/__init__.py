"""What one text can mean, without the sheet around it: headings, numbers, names, frequencies, scenes. Pure and cached."""
