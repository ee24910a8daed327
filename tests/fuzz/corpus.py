"""Everything a shop might type, and everything that may lie in a file by mischance or malice."""

# What people write for a quantity, right or wrong.
TYPED = (
    "20 1/2 in", "20-1/2", '20-1/2"', "3' 4\"", "3 ft 4-1/2 in", "½ in", "1 ½ in", "1½in", ".72 in", "18mm", "19mm", "19 MM", "260 lbs",
    "118 kgs", "40HP", "30 PS", "30 kw", "40 CV", "55 lb-ft", "55 ft-lbs", "75 Nm", "75 N-m", "7.5 kgf-m", "58 F", "14°", "14º", "14 deg",
    "3-1/2 in on 14 in", "3/4", "1 1/2", "seven eighths", "¾", "⅞ in", "⅒ in", "1⁄2 in", "1,5 in", "20,5 mm", "1.234,5 mm", "1'234 mm",
    "260#", "260 lb.", "260 lbf", "118 kgf", "1200 N", "1.2 kN", "40 to 60 hp", "40-60 hp", "60 to 40 hp", "5′ 3″", "5’ 3”", "3”", "12''",
    "about 20 in", "20 in?", "~20 in", "20 in (measured)", "20in x 18in", "20 in.", "20 inches", "20 inch", "0,75", "1e3 mm", "1e308 mm",
    "1e400 in", "-0 in", "-0.0 mm", "+18 mm", "- 3 in", "−3 in", "0x10 in", "1_000 mm", "nan", "nan in", "inf in", "-inf mm", "Infinity",
    "NaN mm", "1/0 in", "0/0 in", "5/0 in", "3/3 in", "11/2 in", "0 1/2 in", "20 30 in", "2 3 4 in", "1/2/3 in", "1..5 in", "1.5.2 in", "",
    " ", "\t", "?", "??", " ? ", "n/a", "none", "cannot read", "unknown", "-", "x", "TBD", "yes", "tiller", "WHEEL", "Pod", "pod ", "M12",
    "1/2-13", "1/2-13 UNC", "#10", "3/8", "m10", "6061-T6", "5052-H32", "dry", "٣ in", "１２ in", "४० hp", "Ⅷ in", "²½ in", "1\u00a01/2\u00a0in",
    "1\u20091/2 in", "20\u200b in", "\u202e20 in", "20 in\u0000", "20 in\n", "20 in\r\n", "20\x1b[31m in", "𝟐𝟎 in", "20 ｉｎ", "20 µm",
    "20 μm", "20 Å", "20 in^2", "20 in*in", "20 in/in", "20 kg m / s2", "20 lb/in", "20 degC", "58 °F", "-300 C", "1e9 C", "90 deg", "360°",
    "999999999 in", "9999999999 in", "0.000000001 mm", "1/999999999 in", "0.0000000001 in", "1 furlong", "1 fathom", "2 smoots",
)  # fmt: skip
# Text that means something to whoever reads it next: a browser, a terminal, a spreadsheet, a drawing, a page, a shell.
HOSTILE = (
    "<script>alert(1)</script>", "</title><script>x</script>", '"><img src=x onerror=alert(1)>', "' onmouseover='x", "javascript:alert(1)",
    "{{ 7*7 }}", "{% for x in y %}", "${7*7}", "%(x)s", "%s%n", "{0.__class__}", "&lt;b&gt;", "<b>bold", "</para>", "<para>", "<a href='x'>",
    '<img src="file:///etc/passwd"/>', "]]>", "<!--", "-->", "=1+1", "+1", "-1+1", "@SUM(A1)", "\t=1", "\r=1", "=cmd|' /C calc'!A0", '"; rm -rf /;',
    "\n0\nEOF\n", "\n  0\nLINE\n", "%%u", "\\P\\A1;", "{\\fArial;x}", "%%d", "\x1b[2J", "\x1b]0;owned\x07", "\x9b31m", "\u202eevil\u202c", "\u2066x\u2069",
    "[red]x[/red]", "[link=http://x]y[/link]", "[/]", "\\[", "../../etc/passwd", "..\\..\\x", "C:\\x", "/dev/null", "CON", "a\u0000b", "\ufeff", "\ufffe",
    "\u200f", "\u0301" * 50, "e\u0301", "\U0001f6a4", "\ud7ff", "x" * 5_000, "🚤" * 500, "-- ", "'--", "\\", '\\"', "\u2028x\u2029y", "\x85z",
)  # fmt: skip
# Values as a file of TOML has them, where text is due, or a number, or neither.
VALUES = (
    "0", "-1", "1", "-0.0", "1e308", "-1e308", "1e-320", "1e400", "nan", "-nan", "inf", "-inf", "+inf", "9" * 18, "9" * 400, "0x7f", "0o17",
    "0b1", "1_000", "3.14", "true", "false", "[]", "[[]]", "[[[]]]", "{}", "[{}]", "[nan]", "[1, 'a']", "2026-05-04", "2026-13-01", "0001-01-01",
    "9999-12-31", "2026-05-04T10:00:00Z", "10:00:00", "''", '""', '"?"', "'''x'''", '["1 in", "2 in"]', '["?", "?"]', '["1 in"]', "{ y = '0 in' }",
    '{ a = { b = { c = 1 } } }', "[" * 60 + "]" * 60, "[" * 300 + "]" * 300,
    "0x" + "f" * 5_000, "-1e999", '{ a' + ".b" * 3_000 + " = 1 }",
)  # fmt: skip
# What a file may begin with, end with, or have anywhere.
BYTES = (
    b"\xef\xbb\xbf", b"\xff\xfe", b"\xfe\xff", b"\x00", b"\r\n", b"\r", b"\t", b"\x1a", b"\xe9", b"\xc0\x80", b"\xed\xa0\x80", b"\xf5\x90\x80\x80",
    b'"', b"'", b'"""', b"'''", b"[", b"]", b"{", b"}", b"=", b".", b",", b"#", b"\\", b"\\u0000", b"\\ud800", b"\n", b"\xe2\x80\x9c", b"\xe2\x80\x9d",
    b"\x7f", b"\x1b[31m", b"\xe2\x80\xae", b"1e999", b"-", b"[[", b"]]", b"[boat]\n", b"[[case]]\n", b"a.b.c.d = 1\n", b"kind", b"nan",
)  # fmt: skip
