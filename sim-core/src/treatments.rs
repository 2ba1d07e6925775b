//! Treatments against mites, by active ingredient: what each kills, for how long, and what it costs.
//!
//! Nothing here is a dosing instruction: the label is the law. A row describes what is published about
//! an active ingredient, not a product.

use serde::{Deserialize, Serialize};

use crate::math::{least, ramp, unit};
use crate::words::Language;

/// An active ingredient and the way in which it is given.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum Treatment {
    /// Oxalic acid in syrup, dribbled between the frames.
    OxalicDribble,
    /// Oxalic acid as vapour.
    OxalicVapour,
    /// Oxalic acid in glycerin on strips or pads, for weeks.
    OxalicExtended,
    /// Formic acid from a slow evaporator, for two weeks.
    FormicSlow,
    /// Formic acid all at once, for a day.
    FormicFlash,
    /// Thymol, for six weeks.
    Thymol,
    /// Amitraz strips, for six weeks.
    Amitraz,
    /// Hop acids on strips, a few days of effect.
    HopAcids,
    /// Fluvalinate strips, for six weeks.
    Fluvalinate,
    /// Coumaphos strips, for six weeks.
    Coumaphos,
}

/// What honey supers on the hive mean for a treatment.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum SuperRule {
    /// Not while honey supers are on, nor while bees gather honey that will be taken.
    Off,
    /// Some labels in some countries allow it.
    SomeLabels,
}

/// One row of the table: what is known of a treatment, and where from.
///
/// Deaths are shares a day for each mite that is reached, at a good temperature and without resistance.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct TreatmentInfo {
    /// The treatment.
    pub treatment: Treatment,
    /// Its name in words.
    pub name: &'static str,
    /// Share of the mites on bees that it kills in a day, 0 to 1.
    pub on_bees: f64,
    /// Share of the mites in capped cells that it kills in a day, 0 to 1.
    pub in_cells: f64,
    /// Days that it works.
    pub days: u32,
    /// Lowest and highest temperature at which it is used, °C: the day's mean above the first, its high below the second.
    /// A mean of 0 °C stands for the 2 to 3 °C at noon that are asked for with oxalic acid (from memory).
    pub window_c: (f64, f64),
    /// Honey supers.
    pub supers: SuperRule,
    /// Share of open brood that dies in a day at a good temperature.
    pub open_brood: f64,
    /// Share of house bees that die on the first day at a good temperature.
    pub bees: f64,
    /// Risk of losing the queen over the whole treatment at a good temperature.
    pub queen: f64,
    /// The same risk above the window.
    pub queen_in_heat: f64,
    /// Part of the effect that is lost to resistance unless a scenario says otherwise, 0 to 1.
    pub resistance: f64,
    /// Where the figures come from, and which are assumed.
    pub source: &'static str,
    /// What to look out for.
    pub caution: &'static str,
}

/// What stands before every caution.
pub const LABEL: &str = "Follow the label: it is the law. Registration, dose, temperature, supers and number of uses differ by country and change. Nothing here is a dosing instruction.";

const ACID: &str = "Acids harm eyes, skin and lungs: wear what the label demands.";
const STRIPS: &str = "Take strips out when their time is up, or mites become resistant.";

/// Every treatment.
///
/// Daily deaths of the slow treatments are derived with the model itself: the share at which a colony that
/// is treated as in the published trial loses as many mites as were published, natural deaths counted as
/// the trials count them. The rows 16-18 and 16-24 of the evidence show what comes out.
pub const TREATMENTS: [TreatmentInfo; 10] = [
    TreatmentInfo {
        treatment: Treatment::OxalicDribble,
        name: "oxalic acid, dribbled",
        on_bees: 0.95,
        in_cells: 0.0,
        days: 1,
        window_c: (0.0, 16.0),
        supers: SuperRule::Off,
        open_brood: 0.10,
        bees: 0.02,
        queen: 0.005,
        queen_in_heat: 0.005,
        resistance: 0.0,
        source: "95 to 99 % without brood: Rademacher & Harz 2006, 99.4 %: Gregorc & Planinc 2001; harm to brood and bees assumed",
        caution: ACID,
    },
    TreatmentInfo {
        treatment: Treatment::OxalicVapour,
        name: "oxalic acid, vapour",
        on_bees: 0.92,
        in_cells: 0.0,
        days: 1,
        window_c: (0.0, 30.0),
        supers: SuperRule::SomeLabels,
        open_brood: 0.01,
        bees: 0.002,
        queen: 0.002,
        queen_in_heat: 0.002,
        resistance: 0.0,
        source: "88 to 97 % without brood: Al Toufailia et al. 2015 (from memory); side effects assumed",
        caution: ACID,
    },
    TreatmentInfo {
        treatment: Treatment::OxalicExtended,
        name: "oxalic acid, slow release",
        on_bees: 0.045,
        in_cells: 0.0,
        days: 42,
        window_c: (10.0, 38.0),
        supers: SuperRule::SomeLabels,
        open_brood: 0.01,
        bees: 0.0,
        queen: 0.01,
        queen_in_heat: 0.01,
        resistance: 0.0,
        source: "means of 56 and 77 % over four to six weeks (77: Sabahi et al. 2017), daily death derived; spotty brood seen, its size assumed",
        caution: ACID,
    },
    TreatmentInfo {
        treatment: Treatment::FormicSlow,
        name: "formic acid, slow release",
        on_bees: 0.16,
        in_cells: 0.07,
        days: 14,
        window_c: (10.0, 29.5),
        supers: SuperRule::SomeLabels,
        open_brood: 0.03,
        bees: 0.02,
        queen: 0.05,
        queen_in_heat: 0.21,
        resistance: 0.0,
        source: "60 to 75 %, 76 to 95 % in a warm year: Bahreini et al. 2004, daily death derived; 21 % of queens: Giovenazzo & Dubreuil 2011; rest assumed",
        caution: ACID,
    },
    TreatmentInfo {
        treatment: Treatment::FormicFlash,
        name: "formic acid, one day",
        on_bees: 0.90,
        in_cells: 0.80,
        days: 1,
        window_c: (10.0, 29.5),
        supers: SuperRule::SomeLabels,
        open_brood: 0.25,
        bees: 0.04,
        queen: 0.06,
        queen_in_heat: 0.21,
        resistance: 0.0,
        source: "93 % in drone cells, 66 to 84 % in old comb: Amrine et al. 2007; on bees and side effects assumed",
        caution: ACID,
    },
    TreatmentInfo {
        treatment: Treatment::Thymol,
        name: "thymol",
        on_bees: 0.12,
        in_cells: 0.0,
        days: 42,
        window_c: (15.0, 30.0),
        supers: SuperRule::Off,
        open_brood: 0.02,
        bees: 0.01,
        queen: 0.02,
        queen_in_heat: 0.05,
        resistance: 0.0,
        source: "76 to 97 %: Giacomelli et al. 2016, Chiesa & D'Agaro 1991, daily death derived; side effects assumed",
        caution: "Thymol vapour harms eyes and lungs, and taints honey.",
    },
    TreatmentInfo {
        treatment: Treatment::Amitraz,
        name: "amitraz strips",
        on_bees: 0.074,
        in_cells: 0.0,
        days: 42,
        window_c: (5.0, 40.0),
        supers: SuperRule::Off,
        open_brood: 0.0,
        bees: 0.0,
        queen: 0.005,
        queen_in_heat: 0.005,
        resistance: 0.0,
        source: "90.6 % at six weeks, 94.6 % at eight: Semkiw et al. 2013, daily death derived; resistance from none to failure: Rinkevich 2020; side effects assumed",
        caution: STRIPS,
    },
    TreatmentInfo {
        treatment: Treatment::HopAcids,
        name: "hop acids",
        on_bees: 0.30,
        in_cells: 0.0,
        days: 5,
        window_c: (5.0, 38.0),
        supers: SuperRule::SomeLabels,
        open_brood: 0.0,
        bees: 0.005,
        queen: 0.002,
        queen_in_heat: 0.002,
        resistance: 0.0,
        source: "useful only with little brood: DeGrandi-Hoffman et al. 2012 (no percentage found); figures assumed",
        caution: "Strips stain clothes and skin.",
    },
    TreatmentInfo {
        treatment: Treatment::Fluvalinate,
        name: "fluvalinate strips",
        on_bees: 0.085,
        in_cells: 0.0,
        days: 42,
        window_c: (5.0, 40.0),
        supers: SuperRule::Off,
        open_brood: 0.0,
        bees: 0.0,
        queen: 0.005,
        queen_in_heat: 0.005,
        resistance: 0.6,
        source: "93 % where mites are susceptible: Bahreini et al. 2004, daily death derived; resistance widespread: Rinkevich 2020, its size assumed",
        caution: STRIPS,
    },
    TreatmentInfo {
        treatment: Treatment::Coumaphos,
        name: "coumaphos strips",
        on_bees: 0.072,
        in_cells: 0.0,
        days: 42,
        window_c: (5.0, 40.0),
        supers: SuperRule::Off,
        open_brood: 0.0,
        bees: 0.0,
        queen: 0.03,
        queen_in_heat: 0.03,
        resistance: 0.6,
        source: "high where mites are susceptible (from memory); resistance widespread: Rinkevich 2020; figures assumed",
        caution: "Residues stay in wax, and queens are harmed. Take strips out when their time is up.",
    },
];

/// What a treatment does on one day.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Effect {
    /// Share of the mites on bees that die today.
    pub mites_on_bees: f64,
    /// Share of the mites in capped cells that die today.
    pub mites_in_cells: f64,
    /// Share of the open brood that dies today.
    pub open_brood: f64,
    /// Share of the house bees that die today.
    pub bees: f64,
    /// Risk that the queen is lost today.
    pub queen: f64,
}

/// A treatment that is in a hive.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Running {
    /// Which.
    pub treatment: Treatment,
    /// Day of the season on which it was given, from 0.
    pub since: u32,
    /// Days that it stays.
    pub days: u32,
    /// Part of the effect that resistance takes away, 0 to 1.
    pub resistance: f64,
}

impl TreatmentInfo {
    /// The row with its name and caution in a language.
    pub fn told(self, language: Language) -> Self {
        let words = language.words();
        let place = self.treatment as usize;
        Self {
            name: words.treatments[place],
            caution: words.cautions.treatments[place],
            ..self
        }
    }
}

/// What stands before every caution, in a language.
pub fn label(language: Language) -> &'static str {
    language.words().cautions.label
}

impl Treatment {
    /// Its row.
    pub fn info(self) -> &'static TreatmentInfo {
        // The table stands in the order of the choices; a test holds it to that.
        &TREATMENTS[self as usize]
    }

    /// How well it works at the day's mean, 0 to 1: half at the foot of its window, fully 5 °C above it.
    ///
    /// Oxalic acid on the bees themselves needs no warmth: it is given to winter clusters in the cold, and kills
    /// more than nine in ten mites there (Imdorf et al. 1997; Charriere & Imdorf 2002; Radetzki 2001; from memory).
    fn warmth(self, mean_c: f64) -> f64 {
        if matches!(self, Self::OxalicDribble | Self::OxalicVapour) {
            return 1.0;
        }
        let foot = self.info().window_c.0;
        ramp(mean_c, foot - 5.0, foot + 5.0)
    }

    /// What it does `day_since` days after it was given (0 on that day), when it stays for `days`.
    ///
    /// `mean_c` and `high_c` are the day's temperatures, °C; `resistance` 0 to 1 is the part of the effect lost.
    pub fn effect(
        self,
        day_since: u32,
        days: u32,
        mean_c: f64,
        high_c: f64,
        resistance: f64,
    ) -> Effect {
        let row = self.info();
        if day_since >= days {
            return Effect::default();
        }
        let works = self.warmth(mean_c) * (1.0 - unit(resistance));
        // Five degrees above the window do the full harm of heat.
        let heat = ramp(high_c, row.window_c.1, row.window_c.1 + 5.0);
        let risk = row.queen + (row.queen_in_heat - row.queen) * heat;
        let first = if day_since == 0 { 1.0 } else { 0.0 };
        Effect {
            mites_on_bees: row.on_bees * works,
            mites_in_cells: row.in_cells * works,
            open_brood: least(1.0, row.open_brood * (1.0 + heat)),
            bees: least(1.0, row.bees * first * (1.0 + heat)),
            queen: 1.0 - crate::math::pow(1.0 - risk, 1.0 / f64::from(row.days)),
        }
    }
}

/// Whether a treatment that has no place beside honey taints that which is taken so many days after it was begun, and which
/// bees gather for some days before.
pub fn taints(days: u32, taken_in: u32, gathered_for: f64) -> bool {
    f64::from(taken_in) < f64::from(days) + gathered_for
}

impl Running {
    /// What it does on a day of the season.
    pub fn effect(&self, day: u32, mean_c: f64, high_c: f64) -> Effect {
        let since = day.saturating_sub(self.since);
        self.treatment
            .effect(since, self.days, mean_c, high_c, self.resistance)
    }

    /// Whether its time is up.
    pub fn over(&self, day: u32) -> bool {
        day.saturating_sub(self.since) >= self.days
    }
}

/// What several treatments do together on a day: each acts on what the others leave.
pub fn together(running: &[Running], day: u32, mean_c: f64, high_c: f64) -> Effect {
    let mut sum = Effect::default();
    let both = |a: &mut f64, b: f64| *a = 1.0 - (1.0 - *a) * (1.0 - b);
    for one in running {
        let effect = one.effect(day, mean_c, high_c);
        both(&mut sum.mites_on_bees, effect.mites_on_bees);
        both(&mut sum.mites_in_cells, effect.mites_in_cells);
        both(&mut sum.open_brood, effect.open_brood);
        both(&mut sum.bees, effect.bees);
        both(&mut sum.queen, effect.queen);
    }
    sum
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_treatment_has_its_row_in_order() {
        for (place, row) in TREATMENTS.iter().enumerate() {
            assert_eq!(row.treatment as usize, place, "{}", row.name);
            assert!(
                row.window_c.0 < row.window_c.1 && row.days > 0,
                "{}",
                row.name
            );
            assert!(
                !row.source.is_empty() && !row.caution.is_empty(),
                "{}",
                row.name
            );
        }
    }

    #[test]
    fn only_formic_acid_reaches_into_cells() {
        for row in TREATMENTS {
            let reaches = row
                .treatment
                .effect(0, row.days, 20.0, 25.0, 0.0)
                .mites_in_cells
                > 0.0;
            let formic = matches!(
                row.treatment,
                Treatment::FormicSlow | Treatment::FormicFlash
            );
            assert_eq!(reaches, formic, "{}", row.name);
        }
    }

    #[test]
    fn cold_heat_time_and_resistance_change_the_effect() {
        let thymol =
            |day, mean, high, resistance| Treatment::Thymol.effect(day, 42, mean, high, resistance);
        let good = thymol(3, 22.0, 27.0, 0.0);
        assert!(good.mites_on_bees > thymol(3, 12.0, 17.0, 0.0).mites_on_bees);
        assert_eq!(thymol(3, 5.0, 9.0, 0.0).mites_on_bees, 0.0);
        assert!(thymol(3, 28.0, 36.0, 0.0).queen > good.queen);
        assert!(
            (thymol(3, 22.0, 27.0, 0.5).mites_on_bees - 0.5 * good.mites_on_bees).abs() < 1e-12
        );
        assert_eq!(thymol(42, 22.0, 27.0, 0.0), Effect::default());
    }
}
