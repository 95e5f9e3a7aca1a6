"""What is dropped on the page: small, and with one of everything that a page can tell."""

MESSY = "THE FERRY;;;\nMic;Role;Actor;Freq\n1;VERA;Mara Lind;520,2\n2;TOM;Ben Arlo;1.518,200\n3;<b>NURSE</b>;Ida Voss;524.100\n"
"""Somebody's list: one frequency has to be asked about."""

GALA = """
show: {title: Gala, revision: B, venue: Town Hall}
roles:
  VERA: {by: Ann}
  TOM: {by: "עומר כץ"}
channels:
  1: {role: VERA, mhz: 486.200}
  2: {role: TOM, mhz: 486.200}
  3: {spare: yes, mhz: 489.400}
scenes:
  1: {name: Quay, live: VERA TOM}
covers:
  c1: {role: VERA, by: "עומר כץ"}
venues:
  v1: {venue: Pier, section: show, field: venue, value: Pier Pavilion}
"""
"""Two channels on one frequency, a name from the right, a spare, a cover and a venue."""
