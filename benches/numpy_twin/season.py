"""A simplified twin of the Combcast season in NumPy, for a comparison of speed only.

Provenance: written for this repository from its own equations. It leaves out much of what the model does
(frames, drone brood, feeders one by one, moves, the bookkeeping of every day, chance) and its bees are not to be
believed. What it shares with the model is the shape of the work: a day's brood by age, adults in 48
classes of physiological age, laying held back by several limits, stores, comb. All colonies live side by
side in arrays, class by class, which is how such a season is made fast in NumPy.

    python3 benches/numpy_twin/season.py [colonies] [days]

prints one JSON object with the colony-days per second of the fastest of eight runs.
"""

import json
import sys
import time

import numpy as np

CLASSES = 48
BROOD_DAYS = 21
LARVAE = slice(3, 9)


def unit(x):
    return np.clip(x, 0.0, 1.0)


def smooth_step(x, centre, width):
    t = unit((x - centre) / width + 0.5)
    return t * t * (3.0 - 2.0 * t)


def weather(days):
    """A smooth year from 1 May with wet spells: temperature, flight hours, nectar, pollen, season of laying."""
    day = np.arange(days)
    year = np.cos(2 * np.pi * (day - 75) / 365)
    temperature = 11.0 + 13.0 * year
    wet = (day % 11) < 3
    hours = np.clip(4.5 + 6.0 * year, 0.0, None) * np.where(wet, 0.25, 1.0)
    nectar = 0.06 + 0.5 * np.clip(year, 0.0, None) * (0.6 + 0.4 * np.cos(2 * np.pi * day / 45))
    pollen = 0.2 + 0.5 * np.clip(year, 0.0, None)
    laying = unit((14.0 + 3.0 * np.cos(2 * np.pi * (day - 30) / 365) - 9.2) / 5.8) ** 1.6
    return temperature, hours, nectar, pollen, laying


def season(colonies, days):
    """Runs `days` days of `colonies` packages of different size; returns the bees at the end."""
    temperature, hours, nectar_index, pollen_index, laying_season = weather(days)
    row = np.arange(colonies)
    start = np.linspace(6000.0, 14000.0, colonies)

    brood = np.zeros((BROOD_DAYS, colonies))
    survival = np.repeat([0.942 ** (1 / 3), 0.917 ** (1 / 6), 0.985 ** (1 / 12)], [3, 6, 12])[:, None]
    age = np.zeros((CLASSES, colonies))
    house = np.zeros((CLASSES, colonies))
    foragers = np.zeros((CLASSES, colonies))
    age[:13] = np.arange(13)[::-1, None] + 0.5
    house[:13] = start / 13
    youngest = np.full(colonies, 12)
    open_for = np.ones(colonies)
    drawn = np.zeros(colonies)
    sugar = 0.03 * start + 4000.0
    pollen = np.zeros(colonies)
    nurses_mean = 0.5 * start
    income_mean = np.zeros(colonies)
    pollen_mean = np.zeros(colonies)

    for day in range(days):
        warm, flight = temperature[day], hours[day]
        nectar_now, pollen_now = nectar_index[day], pollen_index[day]

        # Count.
        in_house = house.sum(axis=0)
        outside = foragers.sum(axis=0)
        adults = np.maximum(in_house + outside, 1.0)
        nursing = np.minimum(
            np.minimum(0.15 + 0.85 * age / 3.0, 1.0), np.maximum(1.0 - 0.05 * (age - 13.0), 0.30)
        )
        nurses = (house * nursing).sum(axis=0)
        building = np.minimum(unit((age - 4.0) / 4.0), unit((28.0 - age) / 12.0))
        builders = (house * building).sum(axis=0)
        larvae = brood[LARVAE].sum(axis=0)
        all_brood = brood.sum(axis=0)
        nurses_mean += (nurses - nurses_mean) * (2 / 7)

        # Forage and eat.
        flown = 0.30 * flight * (0.25 + 0.75 * min(1.0, (nectar_now + pollen_now) / 0.5))
        store_cells = sugar / 0.42 + pollen / 0.20
        room = unit((drawn - np.maximum(all_brood, 0.6 * drawn) - store_cells) / (0.06 * drawn + 800.0))
        drive = np.maximum(room, 0.35 * unit(4.0 * builders / adults) * (drawn < 140000.0))
        need = 0.017 * larvae + 0.002 * nurses
        for_pollen = 0.12 + 0.35 * np.maximum(0.0, 1.0 - pollen / (8.0 * need + 1.0))
        nectar = outside * flown * (1.0 - for_pollen) * 0.060 * nectar_now * drive
        pollen_in = outside * flown * for_pollen * 0.113 * pollen_now / (pollen_now + 0.25)
        pollen_in *= unit((1800.0 - pollen) / 1200.0)
        if day < 56 or day > 120:
            # Syrup is on offer in the first weeks and after the summer.
            nectar += 0.062 * adults * unit((warm - 3.0) / 10.0) * drive * (1.0 - 0.6 * min(1.0, nectar_now))
        heat = 0.0030 * (adults / 10000.0) ** -0.479 * min(1.0, max(0.25, (22.0 - warm) / 12.0))
        eaten = adults * (0.00324 + heat) + 0.0050 * outside * flown + 0.0125 * larvae
        sugar += nectar
        lacking = unit(1.0 - sugar / np.maximum(eaten, 1.0))
        sugar = np.maximum(sugar - eaten, 0.0)
        pollen = np.maximum(pollen + pollen_in - need, 0.0)
        income_mean += (nectar / adults - income_mean) * (2 / 5)
        pollen_mean += (pollen_in - pollen_mean) * (2 / 6)

        # Build.
        fill = (all_brood + store_cells + 1200.0) / np.maximum(drawn, 1.0)
        wanted = smooth_step(fill, 0.62, 0.5)
        built = builders * unit((warm - 3.0) / 9.0) * wanted * income_mean / (income_mean + 0.012)
        built = np.minimum(built, np.maximum(nectar - 0.6 * eaten, 0.0) * 0.65 / 0.0792)
        built = np.minimum(built, 140000.0 - drawn)
        drawn += built
        sugar = np.maximum(sugar - 0.0792 * built, 0.0)

        # Lay: every limit, and their smooth minimum.
        stimulus = unit(
            0.014 + 0.12 * unit(pollen / 600.0) + 0.9 * unit(pollen_mean / (0.0015 * adults + 5.0))
            + 0.25 * unit(income_mean / 0.015)
        )
        limits = (
            1500.0 * laying_season[day] * min(1.0, day / 7.5) * stimulus**0.43,
            0.41 * stimulus**0.57 * np.maximum(0.15 * nurses_mean, nurses_mean - 692.0),
            (pollen_mean + pollen / 10.0) / 0.125 + 0.02 * nurses,
            np.maximum(0.30 * (0.85 * drawn - all_brood - store_cells) + 0.6 * built, 0.0),
            sugar / 0.18 + 1.0,
            6.5 * adults * np.maximum(1.0 - (34.0 - warm) / 50.0 * (3000.0 / adults) ** (1 / 3), 0.0) / 21.0,
        )
        eggs = sum(np.maximum(limit, 1e-3) ** -6 for limit in limits) ** (-1 / 6)

        # Brood.
        brood *= survival
        brood[LARVAE] *= 1.0 - 0.35 * lacking
        emerged = brood[-1].copy()
        brood[1:] = brood[:-1].copy()
        brood[0] = eggs

        # Adults.
        load = larvae / np.maximum(in_house, 1.0)
        care = (load**2 / (load**2 + 0.0625)) / (0.42**2 / (0.42**2 + 0.0625))
        full = np.minimum(care, 1.0)
        pace = np.minimum(1.0, 0.0285 + 0.9715 * (care + 0.30 * min(1.0, flight / 10.0) * (1.0 - full)))
        share = outside / adults
        call = np.maximum(full, min(1.0, nectar_now / 0.5))
        short = (0.24 - share) / 0.24
        gate = 20.2 + np.where(short > 0.0, -9.0 * call * short, 9.0 * np.minimum(0.6, -short))
        wish = np.maximum(0.42 - 0.50 * share, 0.0) * min(1.0, flight / 2.5) * (0.25 + 0.75 * call)
        died = house * (0.0016 + 0.0054 * pace + 0.25 * lacking + 0.12 * pace * smooth_step(age, 33.0, 9.0))
        house -= np.minimum(died, house)
        recruits = house * wish * smooth_step(age, gate, 19.0)
        risk = 1.0 - np.exp(-(0.036 * flown + 0.012 * (0.4 + 0.6 * min(1.0, flight / 3.0))))
        foragers *= 1.0 - np.minimum(risk + 0.25 * lacking, 1.0)
        back = foragers * (0.5 * np.maximum(share - 0.33, 0.0))
        house += back - recruits
        foragers += recruits - back

        # Age, open a class for the young where a physiological day has passed, let them join.
        age += pace
        open_for += pace
        opening = row[open_for >= 1.0]
        oldest = (youngest[opening] + 1) % CLASSES
        follower = (oldest + 1) % CLASSES
        house[follower, opening] += house[oldest, opening]
        foragers[follower, opening] += foragers[oldest, opening]
        house[oldest, opening] = 0.0
        foragers[oldest, opening] = 0.0
        age[oldest, opening] = 0.0
        youngest[opening] = oldest
        open_for[opening] = 0.0
        there = house[youngest, row] + foragers[youngest, row]
        age[youngest, row] *= there / np.maximum(there + emerged, 1e-9)
        house[youngest, row] += emerged

    return house.sum(axis=0) + foragers.sum(axis=0)


def main():
    colonies = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    days = int(sys.argv[2]) if len(sys.argv) > 2 else 365
    best = float("inf")
    for _ in range(8):
        started = time.perf_counter()
        bees = season(colonies, days)
        best = min(best, time.perf_counter() - started)
    if not np.isfinite(bees).all():
        sys.exit("the twin came to a number that is none")
    print(
        json.dumps(
            {
                "colonies": colonies,
                "days": days,
                "colony_days_per_second": colonies * days / best,
                "mean_bees_at_the_end": float(bees.mean()),
                "numpy": np.__version__,
            }
        )
    )


if __name__ == "__main__":
    main()
