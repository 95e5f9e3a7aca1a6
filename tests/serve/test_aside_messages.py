"""What a page and a process aside say to each other, with processes that are played: whatever one of them says, or wherever it
dies, its own work alone is told to have ended, nothing waits for ever, and other shows get their answers."""

import pickle
from io import BytesIO
from threading import Event

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from paperwork.serve.aside import bench as room
from paperwork.serve.aside.bench import Bench, OverBudget
from paperwork.serve.aside.child import serve_work


class Played:
    """A process whose answer to some work is what the work says: the bytes that are its first value."""

    made: list["Played"]

    def __init__(self, *_, **__):
        self.stdin, self.stdout, self._heard = self, self, b""
        self._answer, self.killed, self.closed = BytesIO(), Event(), 0
        type(self).made.append(self)

    def write(self, data):
        self._heard += bytes(data)

    def flush(self):
        _, _, (answer, *_), _ = pickle.loads(self._heard)
        self._heard, self._answer = b"", BytesIO(answer)

    def read(self, size=-1):
        return self._answer.read(size)

    def readline(self):
        return self._answer.readline()

    def poll(self):
        """As if it ran: the system takes a moment to end it."""

    def kill(self):
        self.killed.set()

    def wait(self):
        assert self.killed.is_set(), "it would wait for ever"

    def close(self):
        self.closed += 1


@pytest.fixture
def play(monkeypatch):
    """A bench whose processes are played by a class."""

    def make(of=Played):
        monkeypatch.setattr(room.subprocess, "Popen", of)
        of.made = []
        return Bench()

    return make


class Once(Exception):
    """Can be put into bytes, and not be made of them again."""

    def __init__(self, one, two):
        super().__init__(one)


DONE = pickle.dumps(("done", "whole"))
PROGRESS = pickle.dumps(("progress", ("rack/channel-chart.pdf", 3)))
NO_MESSAGES = [
    pickle.dumps(one)
    for one in (
        7,
        None,
        "done",
        ("done",),
        ("done", 1, 2),
        ("raised", "text"),
        ("progress", 3),
        ("progress", (1, 2)),
        ("else", 1),
    )
] + [b"cnowhere\nnothing\n.", b"\x80\x04\x95", b"\x80\xff.", b"hello\n"]
BAD = st.one_of(
    st.sampled_from(NO_MESSAGES),
    st.integers(0, len(DONE) - 1).map(lambda cut: DONE[:cut]),
    st.binary(max_size=40).map(lambda noise: b"(" + noise),
)
WORK = st.tuples(st.sampled_from("abc"), st.integers(0, 2), st.one_of(st.just(DONE), BAD))


@given(st.lists(WORK, max_size=8))
def test_whatever_a_process_says_its_own_work_alone_is_told_to_have_ended(works):
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(room.subprocess, "Popen", Played)
        Played.made, bench, told = [], Bench(), []
        for show, notes, answer in works:
            try:
                got = bench.run(show, len, (PROGRESS * notes + answer,), 60, lambda *note: told.append(note))
                assert got == "whole" and answer == DONE
            except OverBudget as over:
                assert over.show == show and answer != DONE
        assert len(told) == sum(notes for _, notes, _ in works)
        kept = [one._popen for one in bench._idle]
        assert all(one.killed.is_set() and one.closed == 2 for one in Played.made if one not in kept)
        assert not any(one.killed.is_set() for one in kept) and not bench._busy
        bench.close()
        assert all(one.killed.is_set() and one.closed == 2 for one in Played.made)


def test_work_that_is_not_taken_in_its_time_is_ended(play):
    class Deaf(Played):
        """Never reads what it is given: whoever writes waits until it has ended."""

        def write(self, data):
            assert self.killed.wait(60)
            raise BrokenPipeError

    bench = play(Deaf)
    with pytest.raises(OverBudget):
        bench.run("a", len, (b"x" * 100_000,), 0)
    assert bench._idle == bench._busy == []


def test_one_that_is_ended_while_it_answers_is_given_no_other_work(play):
    class Late(Played):
        """Its answer is whole, and its time is over at the same moment."""

        def read(self, size=-1):
            assert self.killed.wait(60)
            return super().read(size)

        readline = read

    bench = play(Late)
    assert bench.run("a", len, (DONE,), 0) == "whole"
    assert bench.run("a", len, (DONE,), 0) == "whole"
    first, second = Late.made
    assert first.closed == 2 and second.killed.is_set()


def test_a_clock_that_was_stopped_ends_nothing_later(play, monkeypatch):
    """Once work is done nothing of its clock is left that could end the next work of the same process."""
    bench = play()
    left = []

    class Timer(room.Timer):
        def join(self, timeout=None):
            super().join(timeout)
            left.append(self.is_alive())

    monkeypatch.setattr(room, "Timer", Timer)
    for _ in range(3):
        assert bench.run("a", len, (DONE,), 600) == "whole"
    assert left == [False] * 3 and len(Played.made) == 1


def test_what_comes_back_after_all_is_closed_is_ended_too(play):
    bench = play()
    process = bench._take("a")
    bench.close()
    bench._put_back(process)
    assert bench._idle == [] and Played.made[0].closed == 2


def say(*works: bytes) -> list:
    """What the other end says to these bytes."""
    target = BytesIO()
    serve_work(BytesIO(b"".join(works)), target)
    said, target = [], BytesIO(target.getvalue())
    while target.tell() < len(target.getvalue()):
        said.append(pickle.load(target))
    return said


WHOLE = pickle.dumps(("a", len, ("four",), 60))


@example(pickle.dumps("done"))  # four letters, as a work has four parts
@given(st.one_of(BAD, st.integers(0, len(WHOLE) - 1).map(lambda cut: WHOLE[:cut])))
def test_the_other_end_does_what_is_whole_and_ends_at_what_is_no_work(noise):
    assert say(WHOLE, WHOLE, noise) == [("done", 4)] * 2


def _raise_once():
    raise Once(1, 2)


def test_an_error_that_cannot_be_made_again_is_said_in_words():
    ((done, error),) = say(pickle.dumps(("a", _raise_once, (), 60)))
    assert done == "raised" and type(error) is RuntimeError and "Once(1)" in str(error)
    ((done, error),) = say(pickle.dumps(("a", _lend, (), 60)))
    assert done == "raised" and type(error) is RuntimeError


def _lend():
    return lambda: None
