"""Cautions that hold for every mount, and for every mount by the careful method; no import, so that anything may say them."""

ALWAYS = (
    "Covers the mount only: board, glue, engine bolts and what spreads them. Pod or frame, its welds, tubes, deck"
    " and hidden rot were not inspected: look yourself, and ask a surveyor where you cannot see.",
    "Not a survey and not approval. The boat's builder, the engine's manual, a licensed surveyor or engineer and"
    " local rules go before this paper.",
    "Shop hazards: support the engine before the last bolt is out; eyes and lungs when cutting, sanding or grinding;"
    " epoxy burns skin and heats up in the pot; keep hands clear of the propeller, key out, kill cord off.",
    "Bolt tension is known to about 30 %: it hangs on how stiff the wood is under bracket and nuts; a torque wrench does not"
    " tell it.",
)
CAREFUL_METHOD = (
    "Board and bolts by a plate model under real contact; the pencil method stands behind --details. How far an"
    " assumption may go, how much engine it is good for: pencil method brought to the plate's level."
)
