"""The same edition gives the same bytes under another hash seed, time zone, folder and day."""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
from pathlib import Path

from planbook.document import Composed

HERE = Path(__file__).parent
SCRIPT = """
import datetime, hashlib, sys, time
day = time.time() + 40 * 86400
time.time = lambda: day
from pathlib import Path
import importlib.util
from planbook.document import compose
from planbook.source import Door
spec = importlib.util.spec_from_file_location("tote", sys.argv[1])
tote = importlib.util.module_from_spec(spec)
spec.loader.exec_module(tote)
done, _ = compose(tote.state(), Door(Path.cwd()))
print(hashlib.sha256(done.pdf).hexdigest(), hashlib.sha256(repr(done.places).encode()).hexdigest())
"""


def test_bytes_hang_on_the_content_alone(tmp_path: Path, metric: Composed) -> None:
    environment = {**os.environ, "PYTHONHASHSEED": "4711", "TZ": "Pacific/Kiritimati", "LC_ALL": "C"}
    done = subprocess.run(
        [sys.executable, "-c", SCRIPT, str(HERE / "tote.py")],
        cwd=tmp_path, env=environment, capture_output=True, text=True, check=True,
    )  # fmt: skip
    ours = (hashlib.sha256(metric.pdf).hexdigest(), hashlib.sha256(repr(metric.places).encode()).hexdigest())
    assert tuple(done.stdout.split()) == ours
