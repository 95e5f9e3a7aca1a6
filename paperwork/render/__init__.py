"""From a sheet to ink: measure, place, paint. Nothing here knows what a show is."""
