"""Texts that mean something to whoever reads them next: spreadsheets, readers of PDF, browsers, terminals, disks."""
