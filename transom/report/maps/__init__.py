"""Maps of a judged board: share of the limit, deflection, pad pressure; as SVG, and small in the terminal."""
