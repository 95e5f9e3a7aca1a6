"""Checks of what is on the air: frequencies, TV channels, sweeps and spares."""
