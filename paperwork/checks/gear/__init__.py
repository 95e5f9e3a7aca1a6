"""Checks of what is plugged, worn and powered: racks, patch, clocks, packs, capsules and batteries."""
