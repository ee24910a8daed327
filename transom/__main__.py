"""`python -m transom`."""

import sys

from transom.cli.main import main

sys.exit(main())
