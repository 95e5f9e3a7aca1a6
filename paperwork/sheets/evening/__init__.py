"""The papers of one night: who is on for whom, what is set, dead packs, and the labels that these make wrong."""
