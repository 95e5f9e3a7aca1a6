"""What a list says of gear and of those who wear it: transmitters, radio types, racks, desks, stage boxes, people."""
