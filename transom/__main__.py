"""`python -m transom`."""

import sys

from transom.cli.start import main

sys.exit(main())
