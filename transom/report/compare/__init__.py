"""Two judgements side by side: what changed, and what should have and did not. Works on the judgement as JSON has it."""
