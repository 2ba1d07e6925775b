//! Bloom by warmth, and the hours in which bees can fly.

use combcast_core::forage::{BloomSpan, Conditions, outlook, warmth_sums};
use combcast_core::scenario::{Bloom, Place};
use combcast_core::sky::day_length_h;
use combcast_core::weather::{BuiltIn, Origin, Weather, WeatherDay};
use combcast_core::{Parameters, drones};
use jiff::civil::{Date, date};
use serde_json::{Value, json};

use crate::sky::{near, number, reference};
use crate::weather::read_shipped;

/// Days with this high and low, dry and still.
fn even_weather(first: Date, days: usize, high_c: f64, low_c: f64) -> Weather {
    let day = WeatherDay {
        high_c,
        low_c,
        rain_mm: 0.0,
        wind_m_s: None,
        sun_mj_m2: None,
        origin: Origin::Measured,
    };
    Weather {
        first,
        days: vec![day; days],
    }
}

fn place(latitude: f64) -> Place {
    serde_json::from_value(json!({ "name": "Alder Row", "latitude": latitude })).unwrap()
}

/// A year of even warmth with nothing in bloom, at a latitude.
fn even_year(latitude: f64) -> Vec<Conditions> {
    let weather = even_weather(date(2013, 1, 1), 365, 29.0, 19.0);
    let outlook = outlook(&weather, &place(latitude), &[], &Parameters::default());
    outlook.unwrap().days
}

/// In the temperate zone bees read the sun's own days, north and south.
#[test]
fn the_season_is_read_off_the_light_in_the_temperate_zone() {
    for latitude in [33.07, 47.45, -38.0] {
        for (day, today) in even_year(latitude).iter().enumerate() {
            assert_eq!(today.day_length_h, day_length_h(latitude, day as f64 + 1.0));
        }
    }
}

/// Near the equator brood is reared, drones fly and colonies swarm in any month (Winston 1987, from memory): there is no
/// short day to read a winter off. In between there is a low in winter, the deeper the farther from the equator.
#[test]
fn near_the_equator_no_season_is_read_off_the_light() {
    let least_and_most = |latitude| {
        let laying = even_year(latitude)
            .into_iter()
            .map(|today| today.laying_season);
        laying.fold((f64::INFINITY, 0.0), |(least, most): (f64, f64), one| {
            (least.min(one), most.max(one))
        })
    };
    let (least, most) = least_and_most(2.0);
    assert!(least > 0.4 && most - least < 0.02, "{least} to {most}");
    let lows: Vec<f64> = [2.0, 12.0, 18.0, 24.0, 30.0]
        .map(|latitude| least_and_most(latitude).0)
        .to_vec();
    assert!(
        lows.is_sorted_by(|nearer, farther| nearer >= farther),
        "{lows:?}"
    );
    assert!(lows[4] < 0.5 * lows[0], "{lows:?}");
    let [here, ..] = even_year(5.0)[..] else {
        panic!("a year has days")
    };
    assert!(drones::wish(20_000.0, 200.0, &here, &Parameters::default().drones) > 0.3);
}

/// First days of a plant that blooms for two weeks from this warmth sum on.
fn bloom_from(weather: &Weather, latitude: f64, warmth_sum: f64) -> Vec<Date> {
    let plant: Bloom = serde_json::from_value(json!({
        "plant": "cherry",
        "starts": { "warmth_sum": warmth_sum },
        "days": 14.0,
        "nectar": 0.5,
        "pollen": 0.5,
    }))
    .unwrap();
    let outlook = outlook(weather, &place(latitude), &[plant], &Parameters::default()).unwrap();
    let first_day = |span: &BloomSpan| {
        assert_eq!(span.end - span.first, 14);
        weather.first + jiff::Span::new().days(span.first as i64)
    };
    outlook.blooms.iter().map(first_day).collect()
}

/// Every year of both real records, at several warmth sums: as an independent program counts it.
#[test]
fn bloom_starts_on_the_day_the_reference_reaches_its_warmth_sum() {
    for (record, latitude) in [("new-york", 40.78), ("seattle", 47.45)] {
        let built_in = BuiltIn::named(record).unwrap();
        let weather = read_shipped(record).0;
        let sums = warmth_sums(&weather, latitude);
        let years: Vec<&Value> = reference("warmth_sums", 8)
            .iter()
            .filter(|row| row["station"].as_str() == built_in.station)
            .collect();
        assert_eq!(years.len(), 4);
        for &warmth_sum in &[200.0, 530.0, 900.0, 1600.0] {
            let expected: Vec<Date> = years
                .iter()
                .flat_map(|year| year["first_day_at"].as_array().unwrap())
                .filter(|passed| number(passed, "warmth_sum") == warmth_sum)
                .map(|passed| passed["day"].as_str().unwrap().parse().unwrap())
                .collect();
            assert_eq!(expected.len(), 4);
            assert_eq!(
                bloom_from(&weather, latitude, warmth_sum),
                expected,
                "{record}, {warmth_sum}"
            );
        }
        for year in years {
            let last = date(number(year, "year") as i16, 12, 31);
            let index = weather.first.until(last).unwrap().get_days() as usize;
            near(sums[index], number(year, "whole_year"), 0.001, year);
        }
    }
}

/// 10 °C every day: 31 · 5 + 28 · 7.5 = 365 to the end of February, 525 on 16 March, 535 on the 17th.
/// In the southern hemisphere the year starts in July: 31 · 5 + 31 · 7.5 = 387.5 to the end of August,
/// 527.5 on 14 September.
#[test]
fn bloom_by_hand_in_both_hemispheres() {
    let north = even_weather(date(2025, 1, 1), 2 * 365, 15.0, 5.0);
    assert_eq!(
        bloom_from(&north, 45.0, 530.0),
        [date(2025, 3, 17), date(2026, 3, 17)]
    );
    let south = even_weather(date(2025, 7, 1), 365, 15.0, 5.0);
    assert_eq!(bloom_from(&south, -45.0, 530.0), [date(2025, 9, 15)]);
    // Frost adds nothing and takes nothing.
    let mut cold = north.clone();
    for day in &mut cold.days[..59] {
        (day.high_c, day.low_c) = (2.0, -6.0);
    }
    assert_eq!(bloom_from(&cold, 45.0, 530.0)[0], date(2025, 4, 22));
}

#[test]
fn a_year_too_cold_for_a_plant_has_no_bloom_of_it() {
    let cold = even_weather(date(2025, 1, 1), 365, 3.0, -1.0);
    assert!(bloom_from(&cold, 60.0, 530.0).is_empty());
}

// Flight.

/// Flight hours of the middle one of three even days, changed by `change`.
fn flight_hours(first: Date, change: impl Fn(&mut WeatherDay)) -> f64 {
    let mut weather = even_weather(first, 3, 22.0, 12.0);
    weather.days.iter_mut().for_each(change);
    let outlook = outlook(&weather, &place(45.0), &[], &Parameters::default()).unwrap();
    outlook.days[1].flight_hours
}

/// A June day of 15.6 h from 12 to 22 °C: dawn and dusk are too dark or cool for some two to four hours.
#[test]
fn a_fine_day_leaves_most_of_its_daylight_and_a_cold_one_nothing() {
    let fine = flight_hours(date(2026, 6, 20), |_| {});
    assert!((11.0..14.0).contains(&fine), "{fine}");
    let chilly = flight_hours(date(2026, 6, 20), |day| {
        (day.high_c, day.low_c) = (12.0, 4.0)
    });
    let cold = flight_hours(date(2026, 6, 20), |day| {
        (day.high_c, day.low_c) = (9.0, 2.0)
    });
    assert!(0.0 < chilly && chilly < fine / 2.0, "{chilly}");
    assert_eq!(cold, 0.0);
    let hot = flight_hours(date(2026, 6, 20), |day| {
        (day.high_c, day.low_c) = (46.0, 24.0)
    });
    assert!(0.0 < hot && hot < fine, "{hot}");
    let winter = flight_hours(date(2026, 12, 20), |day| {
        (day.high_c, day.low_c) = (14.0, 6.0)
    });
    assert!(0.0 < winter && winter < 6.0, "{winter}");
}

/// The stated rule: a day with 10 mm keeps about a fifth of its flight.
#[test]
fn rain_and_wind_take_hours_away() {
    let june = date(2026, 6, 20);
    let fine = flight_hours(june, |_| {});
    let wet = flight_hours(june, |day| day.rain_mm = 10.0);
    near(wet / fine, 0.2, 0.02, "share left by 10 mm");
    let wind = |metres| flight_hours(june, move |day| day.wind_m_s = Some(metres));
    assert_eq!(wind(15.0 / 3.6 - 1e-9), fine);
    near(
        wind(24.5 / 3.6),
        fine / 2.0,
        1e-9,
        "halfway from 15 to 34 km/h",
    );
    assert_eq!(wind(34.0 / 3.6 + 1e-9), 0.0);
}

/// Light of a quarter of a clear day's keeps bees in longer; measured light is used where there is some.
#[test]
fn measured_light_counts() {
    let june = date(2026, 6, 20);
    let sun = |mj| flight_hours(june, move |day| day.sun_mj_m2 = Some(mj));
    assert!(sun(5.0) < sun(10.0) && sun(10.0) < sun(25.0));
    assert_eq!(sun(0.0), 0.0);
}

/// Never more hours than daylight, never fewer than none, on eighteen thousand real days.
#[test]
fn real_days_have_possible_hours() {
    for record in combcast_core::weather::BUILT_IN {
        let weather = read_shipped(record.name).0;
        let outlook = outlook(
            &weather,
            &place(record.latitude),
            &[],
            &Parameters::default(),
        )
        .unwrap();
        assert_eq!(outlook.days.len(), weather.days.len());
        for (day, weather) in outlook.days.iter().zip(&weather.days) {
            assert!(
                (0.0..=day.day_length_h).contains(&day.flight_hours),
                "{day:?}"
            );
            assert!(weather.high_c > 9.0 || day.flight_hours == 0.0, "{day:?}");
        }
    }
}
