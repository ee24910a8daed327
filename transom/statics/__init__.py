"""The hand method: wrenches, bolt groups, contact, strips, beams."""
