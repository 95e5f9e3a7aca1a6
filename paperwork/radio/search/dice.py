"""Numbers for a search that must come out the same every time."""


class Dice:
    """Numbers that look random and are the same every time (a linear congruential generator with the
    constants of Knuth's MMIX, The Art of Computer Programming volume 2, section 3.3.4)."""

    def __init__(self, seed: int = 1) -> None:
        self._state = seed

    def below(self, limit: int) -> int:
        """A number from 0 up to, not including, `limit`."""
        self._state = (self._state * 6364136223846793005 + 1442695040888963407) & (1 << 64) - 1
        return (self._state >> 33) * limit >> 31
