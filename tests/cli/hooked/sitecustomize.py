"""Python runs this where it begins, in every process that a watched command starts: the same watch there."""

import os
import sys

from tests.cli.watched import NOTES, Noted

if NOTES in os.environ:
    sys.addaudithook(Noted(os.environ[NOTES]))
