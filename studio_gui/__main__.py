"""`python -m studio_gui` is the command `roving-lay`."""

import sys

from studio_gui.app import main

sys.exit(main())
