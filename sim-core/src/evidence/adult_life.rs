//! How long workers live: a June cohort and the bees of mid-September.

use jiff::civil::date;

use super::protocol::Site;
use super::{Published, Table};
use crate::Error;
use crate::adults::Marked;
use crate::scenario::Comb;

pub fn check(table: &mut Table, site: &Site<'_>) -> Result<(), Error> {
    let trial = super::year::overwintered(site);
    let (_, june) = trial.run_marking(date(2013, 6, 8), date(2013, 6, 12))?;
    let cohort = Cohort::of(&june);
    let sekiguchi = |published, low, high, unit| Published {
        source: "Sekiguchi, Ueda & Sakagami 1962",
        published,
        range: (low, high),
        unit,
        note: "",
    };
    let of = |what: &str| format!("{what}, bees of 10 June, {}", site.name);
    table.row(
        "03a",
        of("commonest age at death"),
        &sekiguchi("25 to 30 d", 25.0, 30.0, "d"),
        cohort.modal_death(),
    );
    table.row(
        "03b",
        of("dead by 45 days"),
        &sekiguchi("most", 0.8, 1.0, "-"),
        cohort.died_by(45),
    );
    table.row(
        "03c",
        of("first foragers (2 % of the cohort out)"),
        &sekiguchi("day 10", 8.0, 12.0, "d"),
        cohort.first_out(),
    );
    table.row(
        "03d",
        of("age with most foragers"),
        &sekiguchi("20 to 30 d", 20.0, 30.0, "d"),
        cohort.most_out(),
    );
    table.row(
        "03e",
        of("mean life"),
        &Published {
            source: "Fukuda & Sekiguchi 1966 (from memory)",
            published: "28 d in June",
            range: (24.0, 32.0),
            unit: "d",
            note: "28 d with a range of 4 d to either side: the spread of 25 to 30 d in other summaries",
        },
        cohort.mean_life(),
    );

    let june_cohort = cohort;
    for (id, year) in [("04a", 2012), ("04b", 2013)] {
        let (_, september) = trial.run_marking(date(year, 9, 13), date(year, 9, 17))?;
        let cohort = Cohort::of(&september);
        table.row(
            id,
            format!("mean life of bees of mid-September {year}, {}", site.name),
            &Published {
                source: "Fukuda & Sekiguchi 1966 (from memory); ranges compiled in Sci Rep 2019",
                published: "winter bees 150 to 200 d",
                range: (150.0, 200.0),
                unit: "d",
                note: "",
            },
            cohort.mean_life(),
        );
        let days = crate::calendar::days_between(date(year, 9, 15), date(year + 1, 3, 15)) as usize;
        table.row(
            &format!("{id}-alive"),
            format!("of them alive on 15 March, {}", site.name),
            &Published {
                source: "Winston 1987: winter life 140 to 320 d",
                published: "many",
                range: (0.3, 0.9),
                unit: "-",
                note: "with lives of 140 to 320 d, well over a third and not all reach 181 d",
            },
            1.0 - cohort.died_by(days),
        );
    }
    table.row(
        "A14",
        of("time that a forager lives"),
        &Published {
            source: "Visscher & Dukas 1997 (from memory)",
            published: "mean about 7.7 d, up to 17 d",
            range: (6.2, 9.2),
            unit: "d",
            note: "a fifth to either side: days with flight differ between places",
        },
        june_cohort.forager_life(),
    );
    table.row(
        "A16",
        of("deaths in the hive"),
        &Published {
            source: "Gary, in Page 2013",
            published: "10 to 15 % of deaths at the peak",
            range: (0.10, 0.15),
            unit: "-",
            note: "Prado et al. 2020 found 40 % dead before foraging: the sources disagree",
        },
        june_cohort.mean(|bees| bees.died_in_hive),
    );
    own_threshold(table, site)?;
    let spring = site
        .trial(date(2012, 4, 30), date(2012, 9, 30), Comb::Drawn, 2)
        .package(9900.0, 3.0)
        .fed(49);
    let (season, _) = spring.run_marking(date(2012, 6, 8), date(2012, 6, 12))?;
    let share = |day: usize| season.days[day].foragers / season.days[day].adult_bees;
    table.row(
        "A21",
        format!(
            "foragers among adults, mid-July, package of April, {}",
            site.name
        ),
        &Published {
            source: "Farrar's rule (Reid 1980)",
            published: "20 % at 10,000 bees, 30 to 33 % at 30,000",
            range: (0.18, 0.36),
            unit: "-",
            note: "",
        },
        share(season.at(date(2012, 7, 15))),
    );
    Ok(())
}

/// The forager death at which the model's own colony no longer holds itself through a summer.
fn own_threshold(table: &mut Table, site: &Site<'_>) -> Result<(), Error> {
    let start = 12_000.0;
    let (mut low, mut high) = (0.02, 0.2);
    let mut flown_h = 0.0;
    while high - low > 0.001 {
        let hazard = (low + high) / 2.0;
        let mut trial = site
            .trial(date(2013, 5, 1), date(2013, 8, 15), Comb::Drawn, 4)
            .established(start, 4.0, 20.0);
        let parameters = &mut trial.scenario.parameters;
        parameters.insert("adults.flight_death".to_owned(), hazard);
        let season = trial.run()?;
        let days = &season.days[season.at(date(2013, 6, 1))..season.at(date(2013, 7, 1))];
        let hours = |day: &crate::observe::DayRecord| {
            let on_offer = day.nectar_index + day.pollen_index;
            crate::adults::hours_flown(day.flight_hours, on_offer, &season.parameters.adults)
        };
        flown_h = days.iter().map(hours).sum::<f64>() / days.len() as f64;
        let holds = season
            .days
            .last()
            .is_some_and(|day| day.adult_bees >= start);
        if holds { low = hazard } else { high = hazard }
    }
    table.row(
        "05d",
        format!("the model's own threshold of forager death, {}", site.name),
        &Published {
            source: "Khoury, Myerscough & Barron 2011 (equations from memory)",
            published: "0.355 a day for their equations",
            range: (0.178, 0.71),
            unit: "1/d",
            note: "within a factor of two: their equations have no seasons, no ageing and no weather; \
                   here 12,000 bees in May are fewer by mid-August",
        },
        1.0 - crate::math::exp(-low * flown_h),
    );
    Ok(())
}

/// Several days' marked bees taken together.
struct Cohort<'a> {
    marked: &'a [Marked],
    count: f64,
}

impl<'a> Cohort<'a> {
    fn of(marked: &'a [Marked]) -> Self {
        Self {
            marked,
            count: marked.iter().map(|bees| bees.count).sum(),
        }
    }

    fn mean(&self, value: impl Fn(&Marked) -> f64) -> f64 {
        self.marked
            .iter()
            .map(|bees| bees.count * value(bees))
            .sum::<f64>()
            / self.count
    }

    fn at_age(&self, age: usize, curve: impl Fn(&Marked) -> &[f64]) -> f64 {
        self.mean(|bees| curve(bees).get(age).copied().unwrap_or(0.0))
    }

    /// Middle of the week in which most die.
    fn modal_death(&self) -> f64 {
        let week = |age: usize| -> f64 {
            (age - 3..=age + 3)
                .map(|a| self.at_age(a, |bees| &bees.died))
                .sum()
        };
        (3..80)
            .max_by(|&a, &b| week(a).total_cmp(&week(b)))
            .unwrap_or(0) as f64
    }

    fn died_by(&self, age: usize) -> f64 {
        self.mean(|bees| bees.died.iter().take(age).sum())
    }

    fn first_out(&self) -> f64 {
        (0..80)
            .find(|&age| self.at_age(age, |bees| &bees.out) >= 0.02)
            .unwrap_or(80) as f64
    }

    fn most_out(&self) -> f64 {
        let out = |age: usize| self.at_age(age, |bees| &bees.out);
        (0..80)
            .max_by(|&a, &b| out(a).total_cmp(&out(b)))
            .unwrap_or(0) as f64
    }

    fn mean_life(&self) -> f64 {
        self.mean(Marked::mean_life)
    }

    /// Days as a forager for each bee that died as one.
    fn forager_life(&self) -> f64 {
        let days = self.mean(|bees| bees.out.iter().sum());
        let died = self.mean(|bees| bees.died.iter().sum::<f64>() - bees.died_in_hive);
        days / died
    }
}
