"""What finding a number in all releases of a set costs, as more of them are kept.

    python benchmarks/find.py

The releases are copies of the desk's first one under other numbers. Prints CPU seconds on one core, and the ratio to
reading every statement and looking there, so that runs on different machines can be compared.
"""

from __future__ import annotations

import tempfile
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from planbook.release import find
from planbook.release.archive import prints
from planbook.release.archive.reader import read_all, read_release
from planbook.release.archive.record import Record, digest, read_record, write_record
from planbook.release.version import Version

WORKSPACE = Path(__file__).parents[1]
SET = "sewing-desk"
COUNTS = (10, 25, 50)
QUOTED = ("494", "23/32", "7")
AIM = 0.5
"""CPU seconds for 50 releases."""


def main() -> None:
    print("releases  found  seconds  reading all  ratio")
    for count in COUNTS:
        with tempfile.TemporaryDirectory() as folder:
            root = Path(folder)
            for number in range(count):
                keep(root, f"{number + 1}.0")
            reading = seconds(lambda root=root: read_all(root, SET))
            for text in QUOTED:
                found, _ = find(root, SET, text, released=True)
                assert found
                finding = seconds(lambda root=root, text=text: find(root, SET, text, released=True))
                aim = f"   (aim: at most {AIM} s)" if count == COUNTS[-1] else ""
                print(f"{count:8}  {len(found):5}  {finding:7.2f}  {reading:11.2f}  {finding / reading:5.3f}{aim}")


def keep(root: Path, version: str) -> None:
    """A release with the statements and places of the first one, and the numbers that they print."""
    home = root / "versions" / SET / version
    kept = WORKSPACE / "versions" / SET / "1.0"
    record = read_record((kept / "record.json").read_bytes())
    release, _ = read_release(WORKSPACE, SET, Version(1, 0))
    assert release is not None
    files: dict[str, bytes] = {}
    for edition, statement in release.statements.items():
        for name in ("statement.json", "places.json"):
            files[f"{edition}/{name}"] = (kept / edition / name).read_bytes()
        files[f"{edition}/{prints.FILE}"] = prints.write_prints(statement, release.places[edition])
    recorded: Record = replace(record, version=version, files={path: digest(data) for path, data in files.items()})
    for path, data in {**files, "record.json": write_record(recorded)}.items():
        (home / path).parent.mkdir(parents=True, exist_ok=True)
        (home / path).write_bytes(data)


def seconds(work: Callable[[], object]) -> float:
    """CPU time of one run."""
    start = time.process_time()
    work()
    return time.process_time() - start


if __name__ == "__main__":
    main()
