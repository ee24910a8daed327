"""The questions a job is asked in tape order, and what the answers become in its file."""
