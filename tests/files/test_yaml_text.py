"""YAML: text stays text, every node knows its place, and nothing strange gets past with more than one line."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from paperwork import limits
from paperwork.files import read_bytes
from paperwork.files.yaml.read import read_yaml
from paperwork.finding import Finding
from paperwork.raw import List, Map, Node, Text

PARSERS = pytest.mark.parametrize("pure", [False, True], ids=["c", "python"])


def _plain(node: Node | None) -> object:
    """Raw as plain Python values, without places."""
    if isinstance(node, Map):
        return {key.text: _plain(value) for key, value in node.items}
    if isinstance(node, List):
        return [_plain(item) for item in node.items]
    return node.text if node else None


def _each_text(node: Node) -> list[Text]:
    if isinstance(node, Text):
        return [node]
    if isinstance(node, List):
        return [text for item in node.items for text in _each_text(item)]
    return [text for key, value in node.items for text in (key, *_each_text(value))]


def _read(text: str, *, pure: bool = False) -> Map:
    raw, findings = read_yaml(text, "show.yaml", pure=pure)
    assert findings == ()
    assert raw is not None
    return raw


def _findings(text: str, *, pure: bool = False) -> list[tuple[str, str]]:
    return [(str(f.place).removeprefix("show.yaml:"), f.code) for f in read_yaml(text, "show.yaml", pure=pure)[1]]


def _only(text: str, *, pure: bool = False) -> Finding:
    _, findings = read_yaml(text, "show.yaml", pure=pure)
    assert len(findings) == 1, findings
    return findings[0]


@PARSERS
@pytest.mark.parametrize(
    "scalar",
    ["010", "007", "08", "1:05", "190:20:30", "NO", "No", "on", "yes", "Null", "null", "True", "518.200", "1_000"]
    + ["0x1F", "1e3", "5.0e+2", ".inf", "2024-02-30", "1.10", "=", "1-2", "A<B & C>", "-", "486-508", "R1.3"],
)
def test_scalar_stays_the_text_that_was_written(scalar: str, pure: bool) -> None:
    assert _plain(_read(f"channels: {{x: {{a: {scalar}, {scalar}: b}}}}", pure=pure)) == {
        "channels": {"x": {"a": scalar, scalar: "b"}}
    }


@PARSERS
def test_empty_values_are_absent_but_a_record_stays(pure: bool) -> None:
    text = 'show:\n  title:\nchannels:\n  01:\n  02: {role: ~, by: "", note: " "}\n  03: "~"\nscenes:\n'
    assert _plain(_read(text, pure=pure)) == {"show": {}, "channels": {"01": {}, "02": {}, "03": "~"}}


@PARSERS
def test_text_over_several_lines_is_one_value(pure: bool) -> None:
    text = "show:\n  a: |\n    one\n    two\n  b: >\n    one\n    two\n  c: one\n    two\n  d: 'one\n\n    two'\n"
    assert _plain(_read(text, pure=pure)) == {
        "show": {"a": "one\ntwo", "b": "one two", "c": "one two", "d": "one\ntwo"}
    }


@PARSERS
@pytest.mark.parametrize("bom", ["", "\ufeff"], ids=["plain", "bom"])
@pytest.mark.parametrize("ending", ["\n", "\r\n", "\r"], ids=["lf", "crlf", "cr"])
def test_every_scalar_is_where_its_place_and_span_say(ending: str, bom: str, pure: bool) -> None:
    lines = ["𠮷𠮷: {é: 山田, x: [1, 𠮷, b]}  # 山", "b:", "  Žižková: 518.200", "", "  ṩ́: 'q q'", "c: {d: last}"]
    text = bom + ending.join(lines)
    for scalar in _each_text(_read(text, pure=pure)):
        quote = "'" if " " in scalar.text else ""
        written = f"{quote}{scalar.text}{quote}"
        assert text[slice(*scalar.span)] == written
        line = lines[scalar.place.line - 1]
        assert line[scalar.place.column - 1 :].startswith(written)


@given(st.recursive(st.text("aä𠮷 1:#'\"-", min_size=1, max_size=6), lambda inner: st.lists(inner, max_size=3)))
def test_both_parsers_agree_on_text_and_spans(value: object) -> None:
    import json

    text = "a:\n  b: " + json.dumps(value, ensure_ascii=False) + "\n"
    fast, slow = (read_yaml(text, "x", pure=pure)[0] for pure in (False, True))
    assert fast == slow
    spans = [[(t.span, t.place) for t in _each_text(raw)] for raw in (fast, slow)]
    assert spans[0] == spans[1]


def test_utf_16_with_its_mark_reads_the_same() -> None:
    text = "show: {title: Ferry 𠮷}\n"
    assert read_bytes(text.encode("utf-16"), "show.yaml") == (_read(text), ())


@PARSERS
def test_doubled_keys_name_both_lines_and_reading_goes_on(pure: bool) -> None:
    text = "channels:\n  05: {role: A}\n  06: {role: B, role: C}\n  05: {role: D}\n  05: {role: E}\n"
    raw, findings = read_yaml(text, "show.yaml", pure=pure)
    assert _plain(raw) == {"channels": {"05": {"role": "A"}, "06": {"role": "B"}}}
    assert [(str(f.place), f.text, [o.line for o in f.others]) for f in findings] == [
        ("show.yaml:3:17", "role appears twice; the first is at line 3", [3]),
        ("show.yaml:4:3", "05 appears twice; the first is at line 2", [2]),
        ("show.yaml:5:3", "05 appears twice; the first is at line 2", [2]),
    ]


@PARSERS
@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("a: &x {b: 1}\nc: *x\n", [("1:4", "yaml-repeat")]),
        ("a: {b: 1}\nc:\n  <<: {d: 1}\n", [("3:3", "yaml-repeat")]),
        ("a: &a [*a]\n", [("1:4", "yaml-repeat")]),
        ("a: !foo {b: 1}\nb: !!python/name:os.system x\n", [("1:4", "yaml-tag"), ("2:4", "yaml-tag")]),
        ("a: {b: 1}\n---\na: {b: 2}\n", [("2:1", "yaml-documents")]),
        ("a:\n  ? [b, c]\n  : d\n", [("2:5", "yaml-key")]),
        ("a: {'': d}\n", [("1:5", "yaml-key")]),
        ("a: {b, c: 1}\n", [("1:5", "yaml-key")]),
        ("- a\n- b\n", [("1:1", "yaml-top")]),
        ("just words\n", [("1:1", "yaml-top")]),
        ("a: {b: 'x\x07y'}\n", [("1:10", "yaml-control")]),
        ("a:\n  b: x\u2028y\n", [("2:7", "yaml-control")]),
        ('a: {b: "x\\x07y"}\n', [("1:8", "text-control")]),
    ],
)
def test_what_a_show_does_not_need_is_refused_in_place(text: str, expected: list[object], pure: bool) -> None:
    assert _findings(text, pure=pure) == expected


@PARSERS
@pytest.mark.parametrize(
    ("text", "place", "words"),
    [
        ("a: b: c\n", "1:5", "a second colon in one value"),
        ("a:\n  b: 'it's'\n", "2:10", "something follows a value that has ended"),
        ('a: "x\nb: 1\n', "1:4", "the quote that opens here is never closed"),
        ("a:\n\tb: 1\n", "2:1", "there is a tab here"),
        ("a: 1\n\tb: 2\n", "2:1", "tab"),
        ("a:\n  b: @x\n", "2:6", "a value cannot begin with @"),
        ("a: %x\n", "1:4", "a value cannot begin with %"),
        ("a: [x, y\nb: 1\n", "1:4", "the [ opened here is not closed"),
        ("a: {x: 1, note: see #4 pack}\nb: 2\n", "1:21", "the # begins a comment, so the { opened before it"),
        ("a:\n - b\n c\n", "", "a name without a colon"),
        ("a: }\n", "1:4", "a value is missing"),
        ("a: - b\n", "1:4", "a list's hyphen cannot be here"),
        ('a: "\\q"\n', "1:", "a backslash within double quotes"),
        ("a: 1\n- b\n", "2:1", "not in column with its neighbours"),
        ("a: |x\n  b\n", "1:5", "text follows | or >"),
        ("%FOO\n", "", "a line cannot begin with %"),
    ],
)
def test_broken_text_gets_one_plain_line(text: str, place: str, words: str, pure: bool) -> None:
    finding = _only(text, pure=pure)
    assert finding.code == "yaml-syntax"
    assert words in finding.text
    assert finding.fix
    assert str(finding.place).removeprefix("show.yaml:").startswith(place)


@PARSERS
@pytest.mark.parametrize(
    ("text", "place", "problem", "remedy"),
    [
        ("a: {mhz: 518,2}\n", "1:14", "mhz: 518,2 is cut at its comma", "write `mhz: 518.2`, with a point"),
        ("a: {role: VERA, by:Nele Lo}\n", "1:17", "by:Nele Lo has no blank behind its colon", "write `by: Nele Lo`"),
        (
            "a: {live: LENA, WIRT, TOM}\n",
            "1:17",
            "WIRT, TOM have no colon and no value",
            'write `live: "LENA, WIRT, TOM"`',
        ),
        ("a: {live: LENA, WIRT, at: 1}\n", "1:17", "WIRT has no colon and no value", 'write `live: "LENA, WIRT"`'),
    ],
)
def test_words_alone_within_braces_are_told_once_with_what_to_type(text, place, problem, remedy, pure):
    (found,) = read_yaml(text, "show.yaml", pure=pure)[1]
    assert str(found.place) == f"show.yaml:{place}" and found.text == problem and remedy in found.fix


@PARSERS
def test_a_quote_that_is_never_closed_is_told_where_it_opens(pure):
    told = 'show:\n  title: "Gala\n  venue: Hall\nchannels:\n  02: {role: "TOM", mhz: 520.4}\n'
    (found,) = read_yaml(told, "show.yaml", pure=pure)[1]
    assert str(found.place) == "show.yaml:2:10" and "quote that opens here" in found.text


@PARSERS
def test_a_text_of_several_lines_that_is_closed_is_not_blamed_for_a_later_slip(pure):
    found = read_yaml(
        'show:\n  title: "Gala\n    Night"\n  venue: Hall\n one: {role: "TOM"}\n', "show.yaml", pure=pure
    )[1][0]
    assert found.place.line == 5


def test_reading_points_at_an_error_on_line_40() -> None:
    text = "channels:\n" + "".join(f"  {n:02}: {{role: R{n}}}\n" for n in range(2, 40)) + "  40: {role: a: b}\n"
    assert str(_only(text).place) == "show.yaml:40:15"


@PARSERS
@pytest.mark.parametrize(("line", "column"), [("note: see #4 pack", 13), ("note: #4 pack", 9), ("role: #TBC", 9)])
def test_comment_that_cuts_a_value_is_a_warning(line: str, column: int, pure: bool) -> None:
    finding = _only(f"scenes:\n  {line}\n", pure=pure)
    assert (finding.code, finding.severity) == ("comment-in-value", "warning")
    assert (finding.place.line, finding.place.column) == (2, column)


@pytest.mark.parametrize(
    "line",
    [
        "mhz: 518.200 # was 3",
        "role: VERA #old",
        "mhz: 518.200 #2",
        "note: 'see #4'",
        "note: 'see' #4 pack",
        "note: a#4",
        "note: x # 4 packs",
    ]
    + ["#4: x", "note: x", "role: # to come", "role: |  #4\n    x", "live: [a]  #4"],
)
def test_ordinary_comment_is_no_warning(line: str) -> None:
    assert _findings(f"scenes:\n  at: 1\n  {line}\n") == []


@PARSERS
def test_alias_bomb_never_unfolds(pure: bool) -> None:
    rows = ["a0: &a0 [x, x, x, x, x, x, x, x, x]"]
    rows += [f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]" for n in range(1, 40)]
    finding = _only("\n".join(rows), pure=pure)
    assert finding.code == "yaml-repeat"
    assert str(finding.place) == "show.yaml:1:5"


@PARSERS
@pytest.mark.parametrize("opener", ["[", "{a: ", "- ", "? "])
def test_deep_nesting_is_refused_where_it_goes_too_deep(opener: str, pure: bool) -> None:
    depth = 900 if pure else 5000
    finding = _only("a:\n  " + opener * depth, pure=pure)
    assert finding.code in ("yaml-deep", "yaml-syntax")
    assert finding.place.line in (1, 2)


def test_depth_of_the_bound_itself_is_read() -> None:
    depth = limits.YAML_DEPTH - 1
    assert _findings("a: " + "[" * depth + "x" + "]" * depth) == []
    assert _findings("a: " + "[" * (depth + 1) + "x" + "]" * (depth + 1)) == [(f"1:{depth + 5}", "yaml-deep")]


def test_too_many_values_are_refused() -> None:
    finding = _only("a: [" + "x," * (limits.YAML_NODES + 1) + "]")
    assert finding.code == "yaml-large"


def test_value_beyond_the_bound_is_said() -> None:
    assert _findings("a:\n  b: " + "x" * (limits.TEXT_LENGTH + 1)) == [("2:6", "text-long")]
    assert _findings("a:\n  b: " + "x" * limits.TEXT_LENGTH) == []


@given(st.text("ab:#-?&*!|>'\"%@`{}[],\n\t \r<=~\ufeff\x00é𠮷", max_size=40))
def test_any_text_gives_raw_or_findings(text: str) -> None:
    for pure in (False, True):
        raw, findings = read_yaml(text, "x", pure=pure)
        assert raw is not None or findings


@given(st.binary(max_size=60))
def test_any_bytes_give_raw_or_findings(data: bytes) -> None:
    raw, findings = read_bytes(data, "show.yaml")
    assert raw is not None or findings
