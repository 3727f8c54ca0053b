"""Setting up a machine: what .ci/system installs, as whom, and what it says where it cannot.

Run under a PATH of stand-ins: apt-get, sudo, id and a Python that has a library once a package brought it.
"""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest

SCRIPT = Path(__file__).parents[2] / ".ci" / "system"
BROUGHT = {
    "python3-venv": "ensurepip",
    "libpango-1.0-0": "libpango-1.0.so.0",
    "libpangoft2-1.0-0": "libpangoft2-1.0.so.0",
    "libharfbuzz-subset0": "libharfbuzz-subset.so.0",
}
TOOLS = {"poppler-utils": "pdftotext", "qpdf": "qpdf"}
PACKAGES = (*BROUGHT, *TOOLS)
PYTHON = """\
case "$2" in
  *ctypes*) test -e "$FAKE/has/$3" ;;
  *ensurepip*) test -e "$FAKE/has/ensurepip" ;;
esac
"""
APT = """\
echo "$DEBIAN_FRONTEND $USER_IS apt-get $*" >>"$FAKE/calls"
test "$1" = install || exit 0
test ! -e "$FAKE/broken" || { echo "E: no such package" >&2; exit 100; }
test ! -e "$FAKE/useless" || exit 0
cp "$FAKE"/packages/has/* "$FAKE/has/"
cp "$FAKE"/packages/bin/* "$FAKE/bin/"
"""


class Machine:
    """A machine in a folder. `bare` has none of the packages."""

    def __init__(self, folder: Path, *, user: int = 0) -> None:
        self.folder = folder
        for name in ("bin", "has", "packages/bin", "packages/has"):
            (folder / name).mkdir(parents=True)
        for name in ("bash", "env", "uname", "mktemp", "tail", "rm", "cp", "true"):
            path = shutil.which(name)
            assert path
            (folder / "bin" / name).symlink_to(path)
        self.program("bin/id", f"echo {user}")
        self.program("bin/python3", PYTHON)
        for name in BROUGHT.values():
            (folder / "packages/has" / name).touch()
        for name in TOOLS.values():
            self.program(f"packages/bin/{name}", "exit 0")

    def program(self, path: str, text: str) -> None:
        """An executable in this machine."""
        file = self.folder / path
        file.write_text(f"#!{shutil.which('bash')}\n{text}\n", encoding="utf-8")
        file.chmod(0o755)

    def complete(self) -> None:
        """All packages are there."""
        shutil.copytree(self.folder / "packages/has", self.folder / "has", dirs_exist_ok=True)
        shutil.copytree(self.folder / "packages/bin", self.folder / "bin", dirs_exist_ok=True)

    def with_apt(self) -> Machine:
        self.program("bin/apt-get", APT)
        return self

    def with_sudo(self, *, asks: bool = False) -> Machine:
        self.program("bin/sudo", "exit 1" if asks else 'test "$1" = -n; shift; USER_IS=root exec "$@"')
        return self

    @property
    def calls(self) -> list[str]:
        """What apt-get was asked for."""
        file = self.folder / "calls"
        return file.read_text(encoding="utf-8").splitlines() if file.exists() else []

    def run(self) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            ["bash", SCRIPT],
            env={"PATH": str(self.folder / "bin"), "FAKE": str(self.folder), "USER_IS": "me"},
            capture_output=True,
            text=True,
            check=False,
        )


def test_a_complete_machine_is_left_alone_in_silence(tmp_path: Path) -> None:
    machine = Machine(tmp_path).with_apt()
    machine.complete()
    done = machine.run()
    assert (done.returncode, done.stdout, done.stderr, machine.calls) == (0, "", "", [])


def test_root_installs_what_is_missing(tmp_path: Path) -> None:
    machine = Machine(tmp_path).with_apt()
    done = machine.run()
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout == f"Installing system packages: {' '.join(PACKAGES)}\n"
    assert machine.calls == [
        "noninteractive me apt-get update -q",
        f"noninteractive me apt-get install -q -y --no-install-recommends {' '.join(PACKAGES)}",
    ]
    again = machine.run()
    assert (again.returncode, again.stdout, len(machine.calls)) == (0, "", 2)


def test_only_what_is_missing_is_installed(tmp_path: Path) -> None:
    machine = Machine(tmp_path).with_apt()
    machine.complete()
    (tmp_path / "bin/qpdf").unlink()
    assert machine.run().returncode == 0
    assert machine.calls[-1].endswith("--no-install-recommends qpdf")


def test_who_may_use_sudo_without_a_password_installs_by_it(tmp_path: Path) -> None:
    machine = Machine(tmp_path, user=1000).with_apt().with_sudo()
    assert machine.run().returncode == 0
    assert [call.split()[:3] for call in machine.calls] == [["noninteractive", "root", "apt-get"]] * 2


@pytest.mark.parametrize("sudo", ["none", "asks"])
def test_who_is_not_root_is_told_what_to_install(tmp_path: Path, sudo: str) -> None:
    machine = Machine(tmp_path, user=1000).with_apt()
    if sudo == "asks":
        machine.with_sudo(asks=True)
    done = machine.run()
    assert done.returncode == 1
    assert done.stdout == ""
    assert "only root may install them" in done.stderr
    assert f"sudo apt-get install {' '.join(PACKAGES)}" in done.stderr
    assert len(done.stderr.splitlines()) == 1
    assert machine.calls == []


def test_without_apt_get_the_packages_are_named(tmp_path: Path) -> None:
    done = Machine(tmp_path).run()
    assert done.returncode == 1
    assert done.stderr.startswith(f"planbook: these system packages are missing: {' '.join(PACKAGES)}. ")


def test_a_failed_install_shows_why(tmp_path: Path) -> None:
    (tmp_path / "broken").touch()
    done = Machine(tmp_path).with_apt().run()
    assert done.returncode == 1
    assert "E: no such package" in done.stderr
    assert "could not install" in done.stderr.splitlines()[-1]


def test_packages_that_do_not_serve_this_python_are_told(tmp_path: Path) -> None:
    (tmp_path / "useless").touch()
    done = Machine(tmp_path).with_apt().run()
    assert done.returncode == 1
    assert "still does without" in done.stderr


def test_an_old_or_missing_python_is_told_in_one_sentence(tmp_path: Path) -> None:
    machine = Machine(tmp_path)
    machine.program("bin/python3", 'case "$2" in *exit*) exit 1 ;; *print*) echo 3.9.2 ;; esac')
    old = machine.run()
    (tmp_path / "bin/python3").unlink()
    missing = machine.run()
    assert (old.returncode, missing.returncode) == (1, 1)
    assert "python3 is 3.9.2" in old.stderr
    assert "python3 was not found" in missing.stderr
