"""TOML that does not parse: the line and the mend."""

import pytest

from tests.job.orders import WHOLE, changed, faults
from transom.job.read import loads

# What stood, what stands now, the faults.
MENDS = [
    ('width = "24 in"', "width = 24 in",
     ['line 49: width = 24 in  <- quotes are missing. Write width = "24 in"']),
    ('width = "24 in"', 'width = "24 in',
     ['line 49: width = "24 in  <- a quote is missing. Put one at each end: width = "..."']),
    ('width = "24 in"', 'width = 24 in"',
     ['line 49: width = 24 in"  <- quotes are missing. Write width = "24 in"']),
    ('width = "24 in"', "width = '24 in",
     ["line 49: width = '24 in  <- a quote is missing. Put one at each end: width = '...'"]),
    ('width = "24 in"', "width = “24 in”",
     ['line 49: width = “24 in”  <- curly quotes. Type straight ones: "..."; a word processor curls them, a plain editor does not']),
    ('width = "24 in"', 'width = "24""',
     ['line 49: width = "24""  <- an inch mark inside double quotes. Write in for inches: "24 in"; or single quotes outside']),
    ('width = "24 in"', 'width = "24" in"',
     ['line 49: width = "24" in"  <- an inch mark inside double quotes. Write in for inches: "24 in"; or single quotes outside']),
    ('width = "24 in"', 'width = 24"',
     ["line 49: width = 24\"  <- quotes are missing. Write width = '24\"'"]),
    ('width = "24 in"', "width =",
     ['line 49: width =  <- no value after the equals sign. Type one, or width = "?" if it was not measured']),
    ('width = "24 in"', 'width: "24 in"',
     ['line 49: width: "24 in"  <- a colon after the key. Write an equals sign: width = "24 in"']),
    ('width = "24 in"', 'width "24 in"',
     ['line 49: width "24 in"  <- no key with an equals sign. A line reads: key = "value"; a remark begins with #']),
    ('width = "24 in"', "width = ?",
     ['line 49: width = ?  <- quotes are missing. Write width = "?"']),
    ('width = "24 in"', 'width = "24 in" across',
     ['line 49: width = "24 in" across  <- something stands after the value. Put it inside the quotes, or after a # as a remark']),
    ('width = "24 in"', 'width = 24"""',
     ["line 49: width = 24\"\"\"  <- quotes are missing. Write width = '24\"\"\"'"]),
    ('width = "24 in"', 'width = """24 in',
     ['line 49: width = """24 in  <- three quotes open a text of many lines. Keep it on one line: width = "..."']),
    ('width = "24 in"', 'width = "24 in"\nwidth = "25 in"',
     ['line 50: width = "25 in"  <- this key stands twice. Keep one of the two']),
    ("[board]", "[board",
     ["line 48: [board  <- a section name is not closed or not plain. Write [board] on a line of its own"]),
    ("[board]", "board]",
     ['line 48: board]  <- no key with an equals sign. A line reads: key = "value"; a remark begins with #']),
    ("[board]", "[board]\n[board]",
     ["line 49: [board]  <- this section stands twice. Keep one of the two"]),
    ("[board]", "[the board!]",
     ["line 48: [the board!]  <- a section name is not closed or not plain. Write [the board] on a line of its own"]),
    ("[[case]]", "[[case]",
     ["line 82: [[case]                           # the shop's own case, ...  <- a section name is not closed or not plain. Write [[case]] on a line of its own"]),
    ("[[case]]", "[case]]",
     ["line 82: [case]]                           # the shop's own case, ...  <- a section name is not closed or not plain. Write [[case]] on a line of its own"]),
    ("trailer = true", "trailer = yes",
     ["line 18: trailer = yes  <- not true or false as TOML spells it. Write trailer = true"]),
    ("trailer = true", "trailer = True",
     ["line 18: trailer = True  <- not true or false as TOML spells it. Write trailer = true"]),
    ("date = 2026-05-04 ", "date = 2026-5-4 ",
     ["line 6: date = 2026-5-4                  # the only date that is ...  <- not a date TOML can read. Year, month, day, two figures each: date = 2026-05-04"]),
    ("date = 2026-05-04 ", "date = 2026-13-04 ",
     ["line 6: date = 2026-13-04                  # the only date that i...  <- not a date TOML can read. Year, month, day, two figures each: date = 2026-04-13"]),
    ("date = 2026-05-04 ", "date = 2026-02-30 ",
     ["line 6: date = 2026-02-30                  # the only date that i...  <- not a date TOML can read. Year, month, day, two figures each: date = 2026-05-04"]),
    ('takes = ["1-1/4 in", "2-3/4 in"]', 'takes = ["1-1/4 in", "2-3/4 in"',
     ['line 26: takes = ["1-1/4 in", "2-3/4 in"   # thickness the bracket...  <- a closing ] is missing. End the list or table with ]']),
    ('takes = ["1-1/4 in", "2-3/4 in"]', 'takes = ["1-1/4 in" "2-3/4 in"]',
     ['line 26: takes = ["1-1/4 in" "2-3/4 in"]   # thickness the bracket...  <- a comma is missing between two values. Put a comma between them']),
    ('takes = ["1-1/4 in", "2-3/4 in"]', 'takes = "1-1/4 in", "2-3/4 in"]',
     ['line 26: takes = "1-1/4 in", "2-3/4 in"]   # thickness the bracket...  <- a ] too many. Each ] needs its [']),
    ('takes = ["1-1/4 in", "2-3/4 in"]', "takes = [1-1/4 in, 2-3/4 in]",
     ['line 26: takes = [1-1/4 in, 2-3/4 in]   # thickness the bracket ac...  <- a value in the list or table is not in quotes. Put each quantity or word in quotes: ["1-1/4 in", ...]']),
    ('takes = ["1-1/4 in", "2-3/4 in"]', 'takes = ["1-1/4"", "2-3/4""]',
     ['line 26: takes = ["1-1/4"", "2-3/4""]   # thickness the bracket ac...  <- an inch mark inside double quotes. Write in for inches, or put single quotes outside']),
    ('shop = "shop.toml"', 'shop = "c:\\jobs\\shop.toml"',
     ["line 9: shop = \"c:\\jobs\\shop.toml\"                 # the shop's s...  <- a backslash in double quotes. Write / for each \\, or put the text in single quotes"]),
    ('flange = { width = "1-1/2 in", thickness = "3/16 in", alloy = "5052-H32" }', 'flange = { width = "1-1/2 in", thickness = "3/16 in", alloy = "5052-H32"',
     ['line 61: flange = { width = "1-1/2 in", thickness = "3/16 in", all...  <- a closing } is missing. End the list or table with }, on the same line']),
    ('flange = { width = "1-1/2 in", thickness = "3/16 in", alloy = "5052-H32" }', 'flange = { width = "1-1/2 in"\n thickness = "3/16 in" }',
     ['line 61: flange = { width = "1-1/2 in"  <- a closing } is missing. End the list or table with }, on the same line',
      'line 62: thickness = "3/16 in" }  <- a } too many. Each } needs its {']),
    ("engine]", "engine]\npower = 40 hp\nweight = 260 lb\nlean = “3”\n#",
     ['line 21: power = 40 hp  <- quotes are missing. Write power = "40 hp"',
      'line 22: weight = 260 lb  <- quotes are missing. Write weight = "260 lb"',
      'line 23: lean = “3”  <- curly quotes. Type straight ones: "..."; a word processor curls them, a plain editor does not']),
    ('steering = "tiller"', "steering = tiller",
     ['line 24: steering = tiller                # wheel | tiller | full ...  <- quotes are missing. Write steering = "tiller"']),
    ("gear = 2.0", "gear = 2,0",
     ["line 38: gear = 2,0  <- a comma inside a number. Write gear = 2.0; a measure goes in quotes with its unit"]),
    ("gear = 2.0", "gear = .5",
     ["line 38: gear = .5  <- a number begins with a figure. Write gear = 0.5; a measure goes in quotes with its unit"]),
    ("blades = 3", "blades = 3\x00",
     ["line 36: blades = 3\\x00  <- a control character. Delete it, or type the line again"]),
]  # fmt: skip


@pytest.mark.parametrize("old, new, lines", MENDS, ids=range(len(MENDS)))
def test_the_line_and_the_mend(old: str, new: str, lines: list[str]) -> None:
    assert faults(changed((old, new))) == tuple(lines)


@pytest.mark.parametrize("end", ["\r\n", "\n"])
def test_lines_are_counted_whatever_ends_them(end: str) -> None:
    text = changed(('width = "24 in"', "width = 24 in")).replace("\n", end)
    assert faults(text) == ('line 49: width = 24 in  <- quotes are missing. Write width = "24 in"',)
    assert loads(WHOLE.replace("\n", end)).board.width == 609.6


def test_a_mark_in_front_changes_nothing() -> None:
    assert loads("\ufeff" + WHOLE).board == loads(WHOLE).board
    assert faults("\ufeffwidth = 24 in") == ('line 1: width = 24 in  <- quotes are missing. Write width = "24 in"',)


def test_mends_mend() -> None:
    """What each mend says to write is read."""
    for mended in ('width = "24 in"', "width = '24\"'", 'width = "?"', "width = '2 ft'"):
        loads(changed(('width = "24 in"', mended)))
    for mended in ("trailer = false", 'trailer = "?"'):
        loads(changed(("trailer = true", mended)))
    loads(changed(("gear = 2.0", "gear = 0.5")))
    loads(changed(('shop = "shop.toml"', "shop = 'c:\\jobs\\shop.toml'")))


def test_many_lines_at_fault_are_all_told_up_to_a_limit() -> None:
    text = "[board]\n" + "".join(f"k{i} = {i} in\n" for i in range(200))
    assert len(faults(text)) == 30


@pytest.mark.parametrize(
    "text", ["[" * 5000, "a = " + "[" * 5000, "a = " + "{a=" * 2000, "a.b=1\na=2", "\x00", "=", "[]"]
)
def test_nonsense_is_a_fault_and_no_more(text: str) -> None:
    assert faults(text)
