"""The search for the mount to build."""
