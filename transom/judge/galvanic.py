"""Metal on metal in each joint: how far apart they stand, and what to put between."""

from transom.catalogue import Catalogue
from transom.frozen import dataclass
from transom.job.records import Job, Mount
from transom.standards.galvanic import anodic_difference

ANODIC = {"stainless": "stainless 18Cr", "aluminium": "aluminium", "steel": "galvanised", "bronze": "brass bronze"}
CURE = {
    True: "isolate: bed in sealant, nylon sleeve and washers, paint both faces; look again each season",
    False: "within the usual limit: bed in sealant all the same",
}


@dataclass(frozen=True)
class Joint:
    """Two metals that touch, V apart on the anodic index; `limit` V for the water she lies in."""

    where: str
    metals: tuple[str, str]
    difference: float
    limit: float

    @property
    def apart(self) -> bool:
        """True where they must be kept apart."""
        return self.difference > self.limit

    @property
    def cure(self) -> str:
        """What shops do about it."""
        return CURE[self.apart]


def joints(job: Job, mount: Mount | None, tables: Catalogue) -> tuple[Joint, ...]:
    """Each joint of the mount whose metals are named; the engine's bracket and the frame are taken as aluminum."""
    if mount is None or mount.engine_bolts is None:
        return ()
    bolts = mount.engine_bolts
    bolt = tables.grade(bolts.grade, bolts.thread).kind
    plate = tables.plate(bolts.forward.plate, bolts.forward.thickness).kind if bolts.forward.plate else "stainless"
    frame = "aluminium" if job.boat.kind != "glass hull" else ""
    pairs = (
        ("engine bolts in the bracket", bolt, "aluminium"),
        ("engine bolts in the backing", bolt, plate),
        ("backing on the frame", plate, frame),
    )
    limit = tables.factor("anodic.harsh_V" if job.boat.water == "salt" else "anodic.normal_V").value
    index = {row.name: row.index_V for row in tables.rows("anodic")}
    return tuple(
        Joint(where, (a, b), float(anodic_difference(index[ANODIC[a]], index[ANODIC[b]])), limit)
        for where, a, b in pairs
        if a in ANODIC and b in ANODIC
    )
