"""Two files that began as one, against the rule for each value alone, over random shows."""

from hypothesis import example, given, settings
from hypothesis import strategies as st

from paperwork.editing.merging import THERE, flatten, merge
from paperwork.files.edit import edit_fields
from paperwork.files.read import read_kind
from paperwork.files.yaml.write import quote_text
from paperwork.raw import Map
from tests.few import few_examples

VALUES = st.one_of(st.just(""), st.sampled_from(("Ann", "Bo", "Cy")))
SHOWS = st.dictionaries(
    st.sampled_from(("1", "2", "3")), st.fixed_dictionaries({"by": VALUES, "notes": VALUES}), min_size=1
)


def write(channels: dict) -> bytes:
    lines = []
    for id, record in channels.items():
        inside = ", ".join(f"{name}: {quote_text(value)}" for name, value in record.items() if value)
        lines.append(f"  {id}: {{{inside}}}\n")
    return ("show: {title: G}\nchannels:\n" + "".join(lines)).encode()


def read(data: bytes) -> Map:
    raw, _ = read_kind(data, "show.yaml", "yaml")
    return raw


@settings(max_examples=few_examples(150), deadline=None)
@given(SHOWS, SHOWS, SHOWS, st.booleans())
@example({"2": {"notes": "Ann"}}, {"2": {}}, {"1": {}}, True)
def test_what_differs_in_one_is_taken_and_what_differs_in_both_is_asked(base, own, other, are_ours):
    raws = [read(write(one)) for one in (base, own, other)]
    found = merge(*raws)
    asked = {clash.key for clash in found.clashes}
    edits = found.list_edits(asked if are_ours else (), raws[1])
    data = edit_fields(write(other), "yaml", edits, "show.yaml") if edits else write(other)
    was, ours, theirs = map(flatten, raws)
    made = flatten(read(data))
    for key in {*was, *ours, *theirs}:
        if key in asked or (*key[:2], "") in asked:
            wanted = ours if are_ours else theirs
        else:
            wanted = theirs if was.get(key, "") == ours.get(key, "") else ours
        assert made.get(key, "") == wanted.get(key, ""), (key, found)


@settings(max_examples=few_examples(80), deadline=None)
@given(SHOWS, SHOWS)
def test_what_only_one_side_changed_is_never_asked(base, own):
    one, other = read(write(base)), read(write(own))
    assert not merge(one, other, one).clashes and not merge(one, one, other).clashes
    assert not merge(one, other, other).clashes
    assert all(value == THERE for (_, _, field), value in flatten(one).items() if not field)
