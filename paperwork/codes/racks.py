"""Codes of racks: antennas, network, clocks and rates."""

from paperwork.codes.row import Code

TABLE: tuple[Code, ...] = (
    Code(
        "antenna-place-doubled",
        "warning",
        "racks {first} and {second} are both at place {socket} of antenna {antenna}",
        "give each rack its own place, counted from the antenna",
        "Each place in an antenna chain is one socket. The rear view of the racks would send somebody to the wrong one.",
    ),
    Code(
        "antenna-chain-long",
        "warning",
        "rack {rack} is at place {socket} of antenna {antenna}, but a chain may feed {limit} at most",
        "feed it from a distributor nearer to the antenna, or set day: chain to what the manual allows",
        "Each unit that passes the antenna signal on adds noise. The limit is a setting of yours (common practice, no "
        "source); the unit's manual has the true one.",
    ),
    Code(
        "address-doubled",
        "error",
        "racks {first} and {second} both have address {address}",
        "give one of them a free address",
        "Two devices with one address on a network make both of them drop in and out.",
        topics=("clock",),
    ),
    Code(
        "address-off-network",
        "warning",
        "address {address} of rack {rack} is not on network {network}",
        "correct the address or the network",
        "The rack names a network, but its address is outside it, so nothing on that network sees the rack.",
    ),
    Code(
        "rates-meet",
        "error",
        "{racks} at {rate} and {console} at {other} are connected digitally without a converter",
        "set all of them to one rate, or write converts: yes where there are converters",
        "A digital signal at the wrong rate gives clicks or silence.",
        topics=("clock",),
    ),
    Code(
        "clock-leaders",
        "error",
        "{racks} and {console} are connected digitally, but follow different clocks: {leaders}",
        "let all of them follow one leader, or write converts: yes if {console} has converters",
        "Everything that is connected digitally follows exactly one clock. Two leaders give clicks.",
        advice="let all of them follow one leader, or write converts: yes if the desk has converters",
        topics=("clock",),
    ),
    Code(
        "clock-leaderless",
        "error",
        "{followers} {follow} the clock of {leader}, but there is no such rack or console",
        "correct clock, or add {leader} to consoles if it is a clock generator{hint}",
        "A digital clock comes from a device. This one is not in the file, so the domain has no leader.",
        advice="correct clock, or add the leader to consoles if it is a clock generator",
        topics=("clock",),
        edit="{at}/clock={near}",
    ),
    Code(
        "clock-loop",
        "error",
        "{chain} follow each other's clock in a circle, so none leads",
        "let one of them follow itself: clock: own",
        "A chain of clocks has to end at a device that leads.",
        topics=("clock",),
        edit="{at}/clock=own",
        decides=True,
    ),
    Code(
        "radio-outside-window",
        "error",
        "{channels} of radio {radio}, which tunes {tunes} MHz, {are} in rack {rack}, whose window is {window} MHz",
        "put what cannot be received into another rack, correct radio, or correct the window",
        "The receivers of a rack get only what its window passes, and nothing in it can be set on a radio of this type. A spare "
        "there backs nothing.",
        topics=("frequency",),
    ),
    Code(
        "antenna-ring",
        "error",
        "the antenna cables run in a ring: {parts}",
        "correct feeds of one of them: a cable goes towards the racks",
        "Each part feeds what is nearer to the racks. A ring has no end, so that the plan cannot be drawn.",
        topics=("slot",),
    ),
    Code(
        "antenna-lengths",
        "warning",
        "antenna part {part} has {lengths} lengths for {feeds} cables",
        "write one length for each of feeds in their order, or one for all",
        "The lengths are in the order of what the part feeds. What has none gets a line for a pen on the cable plan.",
    ),
)
