"""Holds the exports of `bayhand records` against general-purpose data tools: duckdb and pandas read what it writes.

Needs duckdb==2.0.1 and pandas==3.1.1. `exports.py --check PROGRAM` walks two runs with the program, one of them with texts
that break careless tables, exports them, and compares what the tools read with the sealed records.
"""

import csv
import io
import json
import subprocess
import sys
import tempfile
from pathlib import Path

import duckdb
import pandas

TOP = Path(__file__).parents[2]
HOSTILE = 'Wipe; "twice", =1+1 | ünd\\tα'
PROCEDURE = f"""+++
format = 1
revision = "A"
date = 2026-11-25
author = "a tester"
scope = "any"
level_of_use = "continuous"
tools = "none"
materials = "none"
required = "none"
close_up = "none"
hazards = "none"
[parts]
cloth = "cloth, \\"lint-free\\"; +1 spare"
[roles]
lead = "works"
[readings.gap]
what = "gap, \\"at the tail\\"; =cmd"
unit = "mm"
min = "0.2 mm"
max = "0.4 mm"
[readings.note]
what = "note"
kind = "text"
+++
# {HOSTILE}

1. Measure: [gap].
2. Fit [cloth]; write [note].
"""
ANSWERS = """format = 1
clock = "2026-11-20T18:00:00+01:00"
answers = [
{ at = "lead", enter = "Robin \\"RV\\" Vale, sr" },
{ at = "scope", do = "true" },
{ at = "gap", enter = "0,3 mm" },
{ at = "note", enter = "@first, \\"second\\"; -third" },
{ at = "close", do = "close" },
]
"""


def table(text):
    """The rows as Python's own reader has them."""
    return list(csv.DictReader(io.StringIO(text, newline="")))


def by_duckdb(path):
    rows = duckdb.sql(f"select * from read_csv('{path}', header=true, all_varchar=true)")
    names = [column[0] for column in rows.description]
    return [dict(zip(names, ["" if field is None else field for field in row])) for row in rows.fetchall()]


def by_pandas(path):
    frame = pandas.read_csv(path, dtype=str, keep_default_na=False)
    return frame.to_dict("records")


def same(what, one, other):
    if one != other:
        sys.exit(f"{what}:\n{one}\n{other}")


def check(program):
    folder = Path(tempfile.mkdtemp())
    (folder / "wipe.md").write_text(PROCEDURE, encoding="utf-8")
    (folder / "wipe.toml").write_text(ANSWERS, encoding="utf-8")

    def bayhand(*arguments):
        ran = subprocess.run(
            [program, "--data", folder / "data", *arguments], capture_output=True, cwd=TOP / "procedures", check=False
        )
        if ran.returncode != 0:
            sys.exit(f"{arguments}: {ran.stdout.decode()}{ran.stderr.decode()}")
        return ran.stdout.decode()

    bayhand("run", folder / "wipe.md", "--answers", folder / "wipe.toml")
    bayhand("run", "cooler-line-flush.md", "--vehicle", "vehicle-example.toml", "--answers", "answers-example.toml")

    listing, readings = bayhand("records", "--csv"), bayhand("records", "--csv", "--readings")
    for name, text in [("listing", listing), ("readings", readings)]:
        path = folder / f"{name}.csv"
        path.write_bytes(text.encode())
        rows = table(text)
        same(f"{name} by duckdb", by_duckdb(path), rows)
        same(f"{name} by pandas", by_pandas(path), rows)

    told = json.loads(bayhand("records", "--json"))
    (folder / "listing.json").write_text(json.dumps(told), encoding="utf-8")
    by_json = duckdb.sql(f"select run, title, people from read_json('{folder / 'listing.json'}') order by run").fetchall()
    same("JSON by duckdb", by_json, sorted((row["run"], row["title"], row["people"]) for row in told))
    if HOSTILE not in [row["title"] for row in told]:
        sys.exit(f"the title is another: {[row['title'] for row in told]}")

    for run in (row["run"] for row in told):
        record = json.loads(bayhand("record", run, "--json"))
        quantities = [
            attempt["answer"]["quantity"]
            for reading in record["readings"]
            for attempt in reading["attempts"]
            if "quantity" in attempt["answer"]
        ]
        amounts = [asked["asked"]["amount"] if asked.get("asked") else asked["typed"] for asked in quantities]
        # A fraction without an end stands as `1/3`, for no tool to round in silence.
        numbers = [float(amount["number"]) for amount in amounts if "/" not in amount["number"]]
        ((count, total),) = duckdb.sql(
            f"select count(*), sum(number::double) from read_csv('{folder / 'readings.csv'}', header=true, all_varchar=true) "
            f"where run = '{run}' and number not like '%/%'"
        ).fetchall()
        if count != len(numbers) or abs(total - sum(numbers)) > 1e-9 * abs(total):
            sys.exit(f"{run}: {count} numbers add up to {total} in the table, {len(numbers)} to {sum(numbers)} in the record")
    print(f"duckdb and pandas read the exports: {len(told)} runs, {len(table(readings))} readings")


def main():
    for module, version in [(duckdb, "2.0.1"), (pandas, "3.1.1")]:
        if module.__version__ != version:
            sys.exit(f"this needs {module.__name__} {version}, not {module.__version__}")
    if len(sys.argv) != 3 or sys.argv[1] != "--check":
        sys.exit(__doc__)
    check(Path(sys.argv[2]).resolve())


if __name__ == "__main__":
    main()
