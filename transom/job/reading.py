"""A parsed job file walked along the table of keys: values by dotted path, and every fault met."""

from collections.abc import Mapping
from dataclasses import field
from typing import Any

from transom.frozen import dataclass
from transom.job.faults import MISSING, Fault, Faults, Place, listed, nearest, printable
from transom.job.names import in_table
from transom.job.schema import SECTIONS, Key, Section, keys, walk
from transom.job.values import Unmeasured, asked, value_of


@dataclass
class Reading:
    """What has been read. A path that was left out, unmeasured or at fault has no value."""

    values: dict[str, Any] = field(default_factory=dict)
    faults: Faults = field(default_factory=Faults)
    unmeasured: list[str] = field(default_factory=list)
    left_out: list[str] = field(default_factory=list)
    not_judged: list[str] = field(default_factory=list)
    at_fault: set[str] = field(default_factory=set)

    def get(self, path: str) -> Any:
        """The value, or None."""
        return self.values.get(path)

    def of(self, path: str) -> dict[str, Any]:
        """The values directly in a section, by the record's field names."""
        start = f"{path}."
        return {
            key.target: self.values[p]
            for p, key in keys()
            if p.startswith(start) and "." not in p[len(start) :] and p in self.values
        }

    def fault(self, path: str, value: Any, rule: str, next_step: str) -> None:
        """Keep a fault of the value at a dotted path."""
        section, _, key = path.rpartition(".")
        place = Place(section, key) if section else Place(path)
        self.faults.add(place, value, Fault(rule, next_step))


def read_tables(document: Mapping[str, Any], sections: tuple[Section, ...]) -> Reading:
    """Every section of a document read; unknown names are faults."""
    reading = Reading()
    for name, value in document.items():
        if name not in {s.name for s in sections}:
            _stray(reading, name, value, sections)
    for section in sections:
        _section(reading, section, section.name, document.get(section.name, MISSING))
    return reading


def _stray(reading: Reading, name: str, value: Any, sections: tuple[Section, ...]) -> None:
    """A name at the top of the file that is no section."""
    if not isinstance(value, dict | list):
        home = _homes(name, sections)
        step = f"move it below the line [{home[0]}]" if home else "leave it out"
        reading.faults.add(Place("top of the file", printable(name)), value,
                           Fault("stands before the first section", step))  # fmt: skip
        return
    names = [s.name for s in sections]
    near = nearest(name, names)
    step = f"did you mean [{near}]?" if near else f"leave it out; sections are {listed(names, 'and')}"
    reading.faults.add(Place(printable(name)), MISSING, Fault("no such section", step))


def _homes(name: str, sections: tuple[Section, ...] = SECTIONS) -> list[str]:
    """The sections that have a key or part of this name, the likeliest first: no list, and near the top."""
    found = [(section.many, path.count("."), path) for path, section in walk(sections) if name in section.names]
    return [path for _, _, path in sorted(found, key=lambda f: f[:2])]


def _section(reading: Reading, section: Section, path: str, raw: Any) -> None:
    """One section, or the faults of its absence."""
    if raw is not MISSING and not section.judged:
        reading.not_judged.append(path)
    if section.opaque:
        if raw is not MISSING:
            reading.values[path] = raw
    elif section.many:
        reading.values |= _tables(reading, section, path, raw)
    elif raw is MISSING:
        _table(reading, section, path, {}, present=False)
    elif isinstance(raw, dict):
        _table(reading, section, path, raw, present=True)
    else:
        reading.fault(path, raw, "is a section, not a value", _how_to_open(section, raw))


def _how_to_open(section: Section, raw: Any) -> str:
    if section.name == "engine" and isinstance(raw, list):
        return "write one [engine] with single brackets; two alike are count = 2"
    if isinstance(raw, list):
        return f"write [{section.name}] once, with single brackets"
    return f"write its keys below a line with its name in single brackets: {listed(section.names, 'and')}"


def _table(reading: Reading, section: Section, path: str, raw: dict[str, Any], *, present: bool) -> None:
    """A single table: its keys, its parts, and the names that do not belong."""
    if present:
        reading.values[path] = True
        _unknown(reading, section, path, raw)
    if section.free is not None:
        reading.values |= _free(reading, section.free, path, raw)
    for key in section.keys:
        _key(reading, key, path, raw, wanted=present or _always(section), note=section.blank == "table")
    for part in section.parts:
        _section(reading, part, f"{path}.{part.name}", raw.get(part.name, MISSING))


def _always(section: Section) -> bool:
    """True for a section that every job has, so that its required keys are asked for even when it is absent."""
    return section.name in {"boat", "engine", "board", "frame"}


def _unknown(reading: Reading, section: Section, path: str, raw: dict[str, Any]) -> None:
    if section.free is not None:
        return
    for name, value in raw.items():
        if name not in section.names:
            reading.faults.add(Place(path, printable(name)), value, Fault("no such key", _meant(section, name)))


def _meant(section: Section, name: str) -> str:
    if name in {s.name for s in SECTIONS}:
        return f"it is a section of its own: write its keys below a line [{name}]"
    homes = _homes(name)
    if homes:
        return f"it belongs in [{homes[0]}]"
    near = nearest(name, section.names)
    if near:
        return f"did you mean {near}?"
    return f"leave it out; keys here are {listed(section.names, 'and')}"


def _key(reading: Reading, key: Key, path: str, raw: dict[str, Any], *, wanted: bool, note: bool = False) -> None:
    """One key of a table: `wanted` if the table stands, `note` if leaving it out is worth noting."""
    where = f"{path}.{key.name}"
    if key.name not in raw:
        if key.required and wanted:
            reading.fault(where, MISSING, "is missing and needed", _say(key))
        elif key.unknown and key.blank and note:
            reading.left_out.append(where)
        return
    try:
        value = value_of(key, raw[key.name])
    except Fault as fault:
        reading.faults.add(Place(path, key.name), raw[key.name], fault)
        reading.at_fault.add(where)
        return
    if isinstance(value, Unmeasured):
        reading.unmeasured.append(where)
    else:
        reading.values[where] = value


def _say(key: Key) -> str:
    unknown = ', or "?" if not measured' if key.unknown else ""
    return f"write {key.name} = ... ({asked(key)}){unknown}"


def _free(reading: Reading, key: Key, path: str, raw: dict[str, Any]) -> dict[str, Any]:
    """A table of any names, each read as the same key: its values as pairs under the table's path."""
    pairs = []
    for said, value in raw.items():
        try:
            name = in_table(key.family, said) if key.family else said
            read = value_of(key, value)
        except Fault as fault:
            reading.faults.add(Place(path, printable(said)), value, fault)
            continue
        if isinstance(read, Unmeasured):
            reading.unmeasured.append(f"{path}.{name}")
        else:
            pairs.append((name, read))
    return {path: tuple(pairs)} if pairs else {}


def _tables(reading: Reading, section: Section, path: str, raw: Any) -> dict[str, Any]:
    """A list of tables: its rows under the path."""
    if raw is MISSING:
        return {}
    if not isinstance(raw, list) or not all(isinstance(row, dict) for row in raw):
        step = f"write [[{path}]] with double brackets" if isinstance(raw, dict) else f"write [{{ {_row(section)} }}]"
        reading.fault(path, raw, "must be a list of tables", step)
        return {}
    return {path: tuple(_one_row(reading, section, f"{path} {i}", row) for i, row in enumerate(raw, 1))}


def _row(section: Section) -> str:
    return ", ".join(f"{k.name} = ..." for k in section.keys)


def _one_row(reading: Reading, section: Section, where: str, raw: dict[str, Any]) -> dict[str, Any]:
    """One table of a list, by the record's field names; what is at fault is left out."""
    row = Reading(faults=reading.faults)
    _unknown(row, section, where, raw)
    for key in section.keys:
        _key(row, key, where, raw, wanted=True)
    reading.unmeasured += row.unmeasured
    return {k.target: row.values[f"{where}.{k.name}"] for k in section.keys if f"{where}.{k.name}" in row.values}
