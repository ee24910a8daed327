"""Engine to wrench: thrust, inertia, load cases."""
