"""Codes of racks: antennas, network, clocks and rates."""

from paperwork.codes.row import Code

TABLE: tuple[Code, ...] = (
    Code(
        "antenna-place-doubled",
        "warning",
        "racks {first} and {second} are both at place {socket} of antenna {antenna}",
        "give each rack its own place, counting from the antenna",
        "Each place in an antenna chain is one socket. The rear view would send somebody to the wrong one.",
    ),
    Code(
        "antenna-chain-long",
        "warning",
        "rack {rack} is at place {socket} of antenna {antenna}, but a chain feeds at most {limit}",
        "feed it from a splitter nearer the antenna, or set day: chain to what the manual allows",
        "Each unit in the chain adds noise. The limit is yours to set (common practice, no source); the right one is "
        "in the manual of the unit.",
    ),
    Code(
        "address-doubled",
        "error",
        "racks {first} and {second} both have address {address}",
        "give one of them a free address",
        "Two devices on one address both drop in and out.",
        topics=("clock",),
    ),
    Code(
        "address-off-network",
        "warning",
        "address {address} of rack {rack} is not on network {network}",
        "correct the address or the network",
        "The address of the rack is outside its network, so nothing on that network sees it.",
    ),
    Code(
        "rates-meet",
        "error",
        "{racks} at {rate} and {console} at {other} are connected digitally, with no converter between",
        "set all to one rate, or write converts: yes where there is a converter",
        "A digital signal at the wrong rate clicks or is silent.",
        topics=("clock",),
    ),
    Code(
        "clock-leaders",
        "error",
        "{racks} and {console} are connected digitally, but follow different clocks: {leaders}",
        "let all follow one leader, or write converts: yes if {console} has a converter",
        "Everything connected digitally follows one clock. Two leaders click.",
        advice="let all follow one leader, or write converts: yes if the desk has a converter",
        topics=("clock",),
    ),
    Code(
        "clock-leaderless",
        "error",
        "{followers} {follow} the clock of {leader}, which is not in racks or consoles",
        "correct clock, or add {leader} to consoles if it is a clock generator{hint}",
        "A clock comes from a device. This one is not in the file, so there is no leader.",
        advice="correct clock, or add the leader to consoles if it is a clock generator",
        topics=("clock",),
        edit="{at}/clock={near}",
    ),
    Code(
        "clock-loop",
        "error",
        "{chain} follow each other's clock in a circle: none leads",
        "make one of them the leader: clock: own",
        "A chain of clocks has to end at a leader.",
        topics=("clock",),
        edit="{at}/clock=own",
        decides=True,
    ),
    Code(
        "radio-outside-window",
        "error",
        "{channels} of radio {radio}, which tunes {tunes} MHz, {are} in rack {rack} with the window {window} MHz",
        "move what cannot be received to another rack, correct radio, or correct the window",
        "A rack hears only what its window lets through, and this radio type tunes to nothing in there. A spare there "
        "backs nothing.",
        topics=("frequency",),
    ),
    Code(
        "antenna-ring",
        "error",
        "the antenna cables run in a ring: {parts}",
        "correct feeds of one of them: cables run towards the racks",
        "Each part feeds the next one towards the racks. A ring never gets there, and the plan cannot be drawn.",
        topics=("slot",),
    ),
    Code(
        "antenna-lengths",
        "warning",
        "antenna part {part} has {lengths} lengths for {feeds} cables",
        "write one length for each of feeds, in that order, or one for all",
        "Lengths are in the order of feeds. A cable without one gets a line to write on.",
    ),
)
