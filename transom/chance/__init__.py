"""How often load outgrows strength when every number scatters as it does: for comparison, never a verdict."""
