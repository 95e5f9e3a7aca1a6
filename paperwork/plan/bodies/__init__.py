"""Bodies and packs: who carries what in which scene, and what changes on a body."""
