"""Writes tests/cases/job/calendar/hostile.json: what icalendar reads in the calendar file beside it.

Needs icalendar==7.3.2. Run it without arguments to write the file, with --check to compare with what is there.
"""

import json
import sys
from datetime import date, datetime
from pathlib import Path

import icalendar

FOLDER = Path(__file__).parents[1] / "cases" / "job" / "calendar"


def event(told):
    day, (alarm,) = told.decoded("DTSTART"), told.walk("VALARM")
    return {
        "uid": str(told["UID"]),
        "stamp": told.decoded("DTSTAMP").isoformat(),
        "day": day.isoformat(),
        "all_day": isinstance(day, date) and not isinstance(day, datetime),
        "summary": str(told["SUMMARY"]),
        "description": str(told["DESCRIPTION"]),
        "reminder_days": alarm.decoded("TRIGGER").days,
        "reminder": str(alarm["DESCRIPTION"]),
    }


def text():
    calendar = icalendar.Calendar.from_ical((FOLDER / "hostile.ics").read_bytes())
    if calendar.errors:
        sys.exit(f"mistakes in the calendar: {calendar.errors}")
    events = [event(told) for told in calendar.walk("VEVENT")]
    return json.dumps(events, ensure_ascii=False, indent=2) + "\n"


def main():
    if icalendar.__version__ != "7.3.2":
        sys.exit(f"this needs icalendar 7.3.2, not {icalendar.__version__}")
    file = FOLDER / "hostile.json"
    if "--check" not in sys.argv:
        file.write_text(text(), encoding="utf-8")
    elif file.read_text(encoding="utf-8") != text():
        sys.exit(f"{file} is not what this writes")


if __name__ == "__main__":
    main()
