"""What a mount costs: materials in buyable units, hours by operation, three prices by what opening-up finds."""
