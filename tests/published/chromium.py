"""The Chromium that is installed: what it is, where there is one."""

import shutil

BROWSER = next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None)
PATIENCE = 120
"""Seconds after which the browser is given up."""
