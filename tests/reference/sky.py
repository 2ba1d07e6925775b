"""Reference values for tests/sky.rs and tests/weather.rs, from programs other than Combcast.

Writes sky.json beside this file. The Rust tests read that file, so they need no Python; run this
again only to add values:

    python3 -m venv reference-env
    reference-env/bin/pip install astral==3.2 ephem==4.2.1 scipy==1.17.1 numpy==2.4.6
    reference-env/bin/python tests/reference/sky.py

Made with Python 3.11. What is asked of whom:

- day length: sunrise and sunset of `astral` and of `ephem` through 2023, at sea level: upper edge of the
  sun with refraction (for `astral`, its centre 0.833 degrees under the horizon; for `ephem`, its upper
  edge 34 minutes of arc under it, without air of its own);
- radiation above the atmosphere: the sun's height over a flat horizon, with the declination and
  distance of FAO-56 equations 23 and 24, integrated over the day by `scipy.integrate.quad` (FAO-56
  equation 21 is the closed form of this integral);
- degree days: a sine wave above the base, integrated by `quad`;
- temperature by the hour: the equations of Parton & Logan (1981) with their constants for air at
  1.5 m, in `numpy`, on astral's day length;
- gamma distribution of rain on wet days: maximum likelihood by `scipy.stats.gamma.fit`;
- warmth sums and wet days: counted from the shipped records with the `csv` module.
"""

import csv
import datetime
import json
import math
import pathlib
import platform

import astral
import astral.sun
import ephem
import numpy
import scipy
import scipy.integrate
import scipy.stats

HERE = pathlib.Path(__file__).parent
WEATHER = HERE.parent.parent / "scenarios" / "weather"
RECORDS = {"Seattle": WEATHER / "seattle-2012-2015.csv", "New York": WEATHER / "new-york-2012-2015.csv"}
WET_DAY_MM = 0.3


def by_astral(latitude, date):
    """Hours from sunrise to sunset."""
    observer = astral.Observer(latitude, 0.0, 0.0)
    up = astral.sun.sunrise(observer, date)
    down = astral.sun.sunset(observer, date)
    return (down - up).total_seconds() % 86400 / 3600


def by_ephem(latitude, date):
    """Hours from sunrise to sunset."""
    observer = ephem.Observer()
    observer.lat, observer.lon = str(latitude), "0"
    observer.pressure, observer.horizon = 0, "-0:34"
    observer.date = f"{date:%Y/%m/%d} 12:00"
    sun = ephem.Sun()
    return (observer.next_setting(sun) - observer.previous_rising(sun)) * 24


def day_lengths():
    days = [datetime.date(2023, 1, 1) + datetime.timedelta(days=i) for i in range(365)]
    for latitude in (-55, -45, -35, 0, 30, 40.8, 47.6, 52, 60):
        for name, hours in (("astral", by_astral), ("ephem", by_ephem)):
            yield {
                "latitude": latitude,
                "program": name,
                "hours": [round(hours(latitude, day), 3) for day in days],
            }


def radiation_above():
    for latitude in (-66, -50, -35, -22.9, -20, 0, 20, 33.07, 40.8, 45.7167, 52, 60, 66):
        for day in (1, 15, 80, 105, 135, 172, 196, 246, 266, 305, 355, 366):
            angle = 2 * math.pi * day / 365
            distance = 1 + 0.033 * math.cos(angle)
            declination = 0.409 * math.sin(angle - 1.39)
            phi = math.radians(latitude)

            def sun(hour_angle):
                height = math.sin(phi) * math.sin(declination) + math.cos(phi) * math.cos(
                    declination
                ) * math.cos(hour_angle)
                return max(height, 0.0)

            # Solar constant 0.0820 MJ/m2/min; a day is a full turn of the hour angle.
            sunset = math.acos(
                min(1.0, max(-1.0, -math.tan(phi) * math.tan(declination)))
            )
            area, _ = scipy.integrate.quad(sun, -math.pi, math.pi, points=(-sunset, sunset))
            yield {
                "latitude": latitude,
                "day_of_year": day,
                "mj_m2": round(0.0820 * distance * 24 * 60 / (2 * math.pi) * area, 4),
            }


def degree_days():
    for high, low in ((24, 8), (12, -2), (15, 3), (34, 18), (9, 1), (40, 11), (10, 10)):
        for base in (0, 5, 10, 12.8):
            middle, half = (high + low) / 2, (high - low) / 2

            def above(turn):
                return max(middle + half * math.sin(turn) - base, 0.0)

            crossings = []
            if half > 0 and abs(base - middle) < half:
                # The wave runs through the base twice, on either side of its top.
                rise = math.asin((base - middle) / half)
                crossings = [rise % (2 * math.pi), math.pi - rise]
            area, _ = scipy.integrate.quad(above, 0, 2 * math.pi, points=crossings or None)
            yield {
                "high_c": high,
                "low_c": low,
                "base_c": base,
                "degree_days": round(area / (2 * math.pi), 5),
            }


def hourly_temperature():
    a, b, c = 1.86, 2.20, -0.17
    for latitude, date, high, low in (
        (40.8, datetime.date(2023, 6, 21), 28, 16),
        (40.8, datetime.date(2023, 4, 1), 15, 5),
        (60, datetime.date(2023, 12, 21), 2, -6),
        (-35, datetime.date(2023, 1, 10), 33, 17),
    ):
        length = by_astral(latitude, date)
        rise, fall, night = 12 - length / 2, 12 + length / 2, 24 - length
        hours = numpy.arange(0, 24, 0.5)

        def by_day(hour):
            return low + (high - low) * numpy.sin(
                numpy.pi * (hour - rise - c) / (length + 2 * a)
            )

        since_sunset = numpy.where(hours > fall, hours - fall, hours + 24 - fall)
        at_night = low + (by_day(fall) - low) * numpy.exp(-b * since_sunset / night)
        is_day = (hours >= rise + c) & (hours <= fall)
        yield {
            "latitude": latitude,
            "day_of_year": date.timetuple().tm_yday,
            "high_c": high,
            "low_c": low,
            "every_half_hour_c": [
                round(float(t), 4) for t in numpy.where(is_day, by_day(hours), at_night)
            ],
        }


def record(station):
    with open(RECORDS[station], newline="") as file:
        return [
            (
                datetime.date.fromisoformat(row["date"]),
                float(row["temp_max"]),
                float(row["temp_min"]),
                float(row["precipitation"]),
            )
            for row in csv.DictReader(file)
            if row["location"] == station
        ]


def warmth_sums():
    for station in ("New York", "Seattle"):
        days = record(station)
        for year in (2012, 2013, 2014, 2015):
            total, passed = 0.0, {}
            for day, high, low, _ in days:
                if day.year != year:
                    continue
                weight = {1: 0.5, 2: 0.75}.get(day.month, 1.0)
                total += weight * max((high + low) / 2, 0.0)
                for threshold in (200, 530, 900, 1600):
                    if total >= threshold and threshold not in passed:
                        passed[threshold] = day.isoformat()
            yield {
                "station": station,
                "year": year,
                "whole_year": round(total, 3),
                "first_day_at": [
                    {"warmth_sum": at, "day": day} for at, day in passed.items()
                ],
            }


def rain():
    for station in ("New York", "Seattle"):
        days = record(station)
        for month in range(1, 13):
            amounts = [mm for day, _, _, mm in days if day.month == month and mm >= WET_DAY_MM]
            shape, _, scale = scipy.stats.gamma.fit(amounts, floc=0)
            yield {
                "station": station,
                "month": month,
                "wet_days": len(amounts),
                "mean_mm": round(float(numpy.mean(amounts)), 4),
                "shape": round(float(shape), 4),
            }


def lines(rows):
    return "[\n" + ",\n".join("    " + json.dumps(row) for row in rows) + "\n  ]"


TABLES = {
    "day_length": day_lengths,
    "radiation_above": radiation_above,
    "degree_days": degree_days,
    "hourly_temperature": hourly_temperature,
    "warmth_sums": warmth_sums,
    "rain": rain,
}
MADE_WITH = {
    "python": platform.python_version(),
    "astral": astral.__version__,
    "ephem": ephem.__version__,
    "scipy": scipy.__version__,
    "numpy": numpy.__version__,
}

if __name__ == "__main__":
    tables = [f'  "made_with": {json.dumps(MADE_WITH)}']
    tables += [f'  "{name}": {lines(rows())}' for name, rows in TABLES.items()]
    text = "{\n" + ",\n".join(tables) + "\n}\n"
    json.loads(text)
    (HERE / "sky.json").write_text(text)
