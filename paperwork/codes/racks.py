"""Codes of racks: antennas, network, clocks and rates."""

from paperwork.codes.row import Code

TABLE: tuple[Code, ...] = (
    Code(
        name="antenna-place-doubled",
        severity="warning",
        stage="sense",
        says="racks {first} and {second} are both in place {socket} of antenna {antenna}",
        fix="give each rack its own place, counted from the antenna",
        explains=(
            "Each place in an antenna chain is one socket. The rear view of the racks would send somebody to the wrong "
            "one."
        ),
    ),
    Code(
        name="antenna-chain-long",
        severity="warning",
        stage="sense",
        says="rack {rack} is in place {socket} of antenna {antenna}, and a chain feeds {limit} at most",
        fix="feed it from a distributor nearer to the antenna, or set day: chain to what the manual allows",
        explains=(
            "Each unit that passes the antennas on adds noise. The limit is the house's (common practice, no source); the"
            " unit's manual has the true one."
        ),
    ),
    Code(
        name="address-doubled",
        severity="error",
        stage="sense",
        says="address {address} belongs to rack {first} and to rack {second}",
        fix="give one of them a free address",
        explains="Two devices with one address on a network make both of them drop in and out.",
    ),
    Code(
        name="address-off-network",
        severity="warning",
        stage="sense",
        says="address {address} of rack {rack} is not on network {network}",
        fix="correct the address or the network",
        explains=(
            "The rack names a network, and its address lies outside it, so nothing on that network will see the rack."
        ),
    ),
    Code(
        name="rates-meet",
        severity="error",
        stage="sense",
        says="{racks} at {rate} and {console} at {other} are wired together digitally, and nothing converts between them",
        fix="set all of them to one rate, or say converts: yes where there are converters",
        explains="A digital signal at the wrong rate gives clicks or silence.",
    ),
    Code(
        name="clock-leaders",
        severity="error",
        stage="sense",
        says="{racks} and {console} are wired together digitally, and follow different clocks: {leaders}",
        fix="let all of them follow one leader, or say converts: yes if {console} has converters",
        explains="What is wired together digitally follows exactly one clock. Two leaders give clicks.",
    ),
    Code(
        name="clock-leaderless",
        severity="error",
        stage="sense",
        says="{followers} {follow} the clock of {leader}, and there is no such rack or console",
        fix="correct clock:, or add {leader} to consoles if it is a clock generator",
        explains="A digital clock comes from a device. This one is not in the file, so the domain has no leader.",
    ),
    Code(
        name="clock-loop",
        severity="error",
        stage="sense",
        says="{chain} follow each other's clock in a circle, and nobody leads",
        fix="let one of them follow itself: clock: own",
        explains="A chain of clocks has to end at a device that leads.",
    ),
)
