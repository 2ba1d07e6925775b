//! Weather records in German.

use crate::words::Counted;
use crate::words::shape::WeatherWords;

pub(super) const WEATHER: WeatherWords = WeatherWords {
    span: "{station}: {first} bis {last}, {days}",
    span_of_format: "{station} ({format}): {first} bis {last}, {days}",
    formats: [
        "GHCN-Daily, feste Breite",
        "NOAA-Tageswerte als CSV",
        "CSV mit benannten Spalten",
        "Tabelle mit benannten Spalten",
    ],
    fillings: [
        "gerade aufgefüllt",
        "als trocken genommen",
        "aus einer später abgelesenen Summe verteilt",
        "vom Wettergenerator gezogen",
    ],
    fields: ["Höchstwert", "Tiefstwert", "Regen", "Wind", "Sonne"],
    gap: "{days} ohne Wert für {field}, {first}: {how}",
    long_gap: "{days} ohne Wert für {field}, {first} bis {last}: {how}",
    flags: [
        "{days} von der Quelle selbst verworfen: Höchstwert weggelassen",
        "{days} von der Quelle selbst verworfen: Tiefstwert weggelassen",
        "{days} von der Quelle selbst verworfen: Regen weggelassen",
        "{days} von der Quelle selbst verworfen: Wind oder Sonne weggelassen",
        "{days} mit einer Spur Regen: 0 mm",
        "{days} ohne Regenwert, von der Quelle für trocken gehalten",
        "{days} mit einer Regensumme über mehrere Tage",
    ],
    season: "Die Saison nutzt {first} bis {last}: {measured} Tage gemessen, {filled} aufgefüllt, {typed} eingetippt, {spell} durch eine Regenzeit geändert, {generated} gezogen",
    lines: Counted {
        one: "1 Zeile",
        many: "{count} Zeilen",
    },
    more_days: Counted {
        one: "1 weiterer Tag",
        many: "{count} weitere Tage",
    },
    leap_years: Counted {
        one: "1 Schaltjahr",
        many: "{count} Schaltjahren",
    },
    years: Counted {
        one: "1 Jahr",
        many: "{count} Jahren",
    },
    typed_days: Counted {
        one: "1 eingetippter Tag",
        many: "{count} eingetippte Tage",
    },
    lines_twice: "{lines} standen Wort für Wort doppelt: einmal gelesen",
    days_twice: "{days} standen mit gleichen Werten doppelt: einmal gelesen",
    elements_unused: "nicht verwendete Elemente: {list}",
    columns_unused: "nicht verwendete Spalten: {list}",
    total_beside_days: "die Regensumme über mehrere Tage bis {last} steht neben Tageswerten: nicht verwendet",
    crossed: "{date} (Zeile {line}): Der Tiefstwert von {low} °C liegt über dem Höchstwert von {high} °C, beide gelten als fehlend",
    more_crossed: "{days} mit dem Tiefstwert über dem Höchstwert, beide gelten als fehlend",
    outside: "{days} vor {first} oder nach {last} ohne beide Temperaturen: weggelassen",
    years_later: "die Aufzeichnung gilt, als wäre sie {years} Jahre später geschehen",
    leap_days_out: "29. Februar weggelassen aus {years}",
    leap_days_in: "29. Februar eingefügt in {years}: Temperaturen zwischen denen der Nachbartage, trocken",
    typed_outside: "{days} außerhalb der Saison: nicht verwendet",
    spell_outside: "weather.rain[{index}] liegt außerhalb der Saison: nicht verwendet",
    out_of_order: "Tage nicht der Reihe nach (zuerst in Zeile {line}): geordnet",
    units_unused: "`units` nicht verwendet: Jede Spalte nennt ihre Einheit",
    units_given: "Einheiten wie angegeben: {units}",
    units_told: "Einheiten aus den Zahlen erkannt, die zu keinen anderen passen: {units}",
    units: [
        "Zehntel (0,1 °C, 0,1 mm)",
        "metrisch (°C, mm, m/s)",
        "US (°F, Zoll, mph)",
    ],
    too_short: "die Aufzeichnung ist zu kurz, um den Wettergenerator anzupassen: Die Tage werden gezogen wie an einem Ort vom Typ `{name}`, mit {high} °C am Tag und {low} °C in der Nacht, damit es zur Aufzeichnung passt",
};
