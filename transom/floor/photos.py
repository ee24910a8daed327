"""The photographs that a record wants, by number; the field sheet and the record name the same ones."""

PHOTOS = (
    ("1", "builder's plate, readable"),
    ("2", "whole transom or pod from aft, engine on"),
    ("3", "engine's plate and serial number"),
    ("4", "old mount from aft, tape in the picture"),
    ("5", "old mount from inside, nuts and washers"),
    ("6", "wood out: pocket, flanges, every kept hole"),
    ("7", "crossmembers from below, caliper on the wall"),
    ("8", "welds of pod, bracket or knees"),
    ("9", "dry stack, grain marks seen"),
    ("10", "over-bores filled"),
    ("11", "board in place, backing side"),
    ("12", "engine hung, torque wrench on the last bolt"),
)
