"""Opens what `bayhand share` packs with another program, the `zipfile` module of Python, and makes the archive of another
program that `bayhand receive` has to open. It needs nothing but Python.

    python3 tests/reference/archive.py          writes tests/cases/share/made-by-python.zip
    python3 tests/reference/archive.py --check  only compares

`tests/share/packed.rs` holds that bayhand packs the same files to tests/cases/share/leak.zip, byte for byte.
"""

import pathlib
import sys
import zipfile

CASES = pathlib.Path(__file__).parent.parent / "cases" / "share"
FILES = CASES / "files"
# With folders as entries of their own, as many programs write them, and one file that is not compressed.
FOLDERS = ["lines/", "pictures/"]
STORED = {"emergency.md"}


def files():
    return {path.relative_to(FILES).as_posix(): path.read_bytes() for path in FILES.rglob("*") if path.is_file()}


def write(target):
    with zipfile.ZipFile(target, "w") as archive:
        for folder in FOLDERS:
            archive.writestr(zipfile.ZipInfo(folder, (2026, 11, 25, 12, 0, 0)), b"")
        for name, content in sorted(files().items()):
            info = zipfile.ZipInfo(name, (2026, 11, 25, 12, 0, 0))
            info.compress_type = zipfile.ZIP_STORED if name in STORED else zipfile.ZIP_DEFLATED
            archive.writestr(info, content)


def check(target):
    with zipfile.ZipFile(target) as archive:
        damaged = archive.testzip()
        if damaged:
            sys.exit(f"{target}: {damaged} is damaged")
        found = {name: archive.read(name) for name in archive.namelist() if not name.endswith("/")}
    if found != files():
        sys.exit(f"{target} does not hold what is in {FILES}")


def main():
    if "--check" not in sys.argv:
        write(CASES / "made-by-python.zip")
    check(CASES / "made-by-python.zip")
    check(CASES / "leak.zip")


if __name__ == "__main__":
    main()
