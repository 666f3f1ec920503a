"""What a program is asked to save: scenes and the files they go to, told on the command line."""

import json
import sys
from pathlib import Path


def tasks():
    """Returns pairs of a scene, as plain data, and where it is to be saved."""
    told = json.loads(Path(sys.argv[1]).read_text())
    return [(each["scene"], each["out"]) for each in told]
