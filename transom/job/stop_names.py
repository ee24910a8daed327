"""What stops a job, by name: the final ones, and those that name, date and paper can pass."""

FINAL = (
    "out-of-scope",
    "twins",
    "lift-plate",
    "support-lines",
    "not-plywood",
    "hidden-core",
    "spacing-below-code",
)
PASSABLE = (
    "over-builders-plate",
    "over-builders-plate-weight",
    "plate-missing",
    "plate-power-unreadable",
    "plate-not-read",
    "clamps-alone",
    "bracket-not-checked",
    "unsealed-wood",
    "copper-on-aluminium",
)
