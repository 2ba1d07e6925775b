//! For how long food lasts, whether it lasts until spring, and what is fed.

use super::facts::{self, Last, WinterStores};
use super::{Emphasis, Sentence, Teller, part};
use crate::words::fill;

/// For how many days past the end of a season it can be said what a colony eats.
const FORESEEN_D: f64 = 60.0;

impl Teller<'_> {
    pub(super) fn food(&self) -> Option<Sentence> {
        let today = self.facts.today;
        if self.facts.hungry(today) {
            return Some(fill(
                self.words.hungry,
                &[("hungry", part(self.words.hungry_word, Emphasis::Caution))],
            ));
        }
        if facts::stores_kg(self.facts.day()) < 0.005 {
            return None;
        }
        let stores = ("stores", self.stores(today));
        let Some(food) = self.facts.food_for() else {
            return Some(fill(self.words.food_only, &[stores]));
        };
        let time = ("time", part(self.time(food.days), Emphasis::Food));
        if food.days < 5.0 {
            let caution = part(self.words.food_short_word, Emphasis::Caution);
            return Some(fill(
                self.words.food_short,
                &[("caution", caution), stores, time],
            ));
        }
        if let Some(winter) = self.facts.winter_stores() {
            return Some(self.food_for_winter(winter));
        }
        // What is eaten in a winter or spring that the season does not have is not known.
        if food.days > FORESEEN_D && !food.is_known {
            let end = part(self.day_name(self.facts.last()), Emphasis::When);
            return Some(fill(self.words.food_beyond, &[("when", end), stores]));
        }
        Some(fill(self.words.food, &[stores, time]))
    }

    /// Whether there is food until spring: of no use in autumn and winter is for how long it would last at what broodless bees eat.
    fn food_for_winter(&self, winter: WinterStores) -> Sentence {
        let weight = |kg: f64, kind: Emphasis| part(self.speech.weight_text(kg), kind);
        let missing = |kg: f64| [("missing", weight(kg, Emphasis::Caution))];
        let words = self.words;
        let lasts = match winter.last {
            Last::Enough => part(words.winter_lasts, Emphasis::Plain),
            Last::Short(kg) => fill(words.winter_short, &missing(kg)),
            Last::UnderAdvice(kg, false) => fill(words.winter_advised, &missing(kg)),
            Last::UnderAdvice(kg, true) => fill(words.winter_advised_lasts, &missing(kg)),
        };
        let template = if winter.on > self.facts.today {
            words.food_winter_ahead
        } else {
            words.food_winter
        };
        let parts = [
            ("stores", self.stores(self.facts.today)),
            ("then", weight(winter.kg, Emphasis::Food)),
            ("when", self.about(winter.on)),
            ("lasts", lasts),
        ];
        fill(template, &parts)
    }

    /// That the colony is too small to winter alone.
    pub(super) fn small(&self) -> Option<Sentence> {
        self.facts.too_small_for_winter().then(|| {
            let small = part(self.words.small_word, Emphasis::Caution);
            fill(self.words.small, &[("small", small)])
        })
    }

    pub(super) fn fed(&self) -> Option<Sentence> {
        let week = self.facts.week();
        let recent = &week[week.len().saturating_sub(3)..];
        let sugar = facts::mean(recent, |day| day.syrup_kg);
        (self.facts.day().syrup_kg > 0.005 && sugar > 0.005).then(|| {
            let sugar = part(self.speech.weight_text(sugar), Emphasis::Food);
            fill(self.words.food_fed, &[("sugar", sugar)])
        })
    }
}
