"""Papers of whoever runs the radio microphones: at the rack, at the table, on a clipboard."""
