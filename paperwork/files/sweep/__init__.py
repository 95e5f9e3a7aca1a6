"""Spectrum sweeps: the plain forms that analysers and general utilities export, as levels in dBm."""

from paperwork.files.sweep.read import Level, SweepLoader, lies_below, parse_sweep, read_sweep
from paperwork.files.sweep.units import StatedUnit

__all__ = ["Level", "StatedUnit", "SweepLoader", "lies_below", "parse_sweep", "read_sweep"]
