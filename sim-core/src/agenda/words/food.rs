//! Feed in words: how much, how it is mixed and given, why.

use super::Teller;
use crate::agenda::{Mix, Sure, Way};
use crate::ensemble::Spread;
use crate::scenario::FeedKind;
use crate::story::Units;
use crate::syrup::LITRES_PER_JAR;
use crate::verdict::Alarm;
use crate::words::text;

impl Teller<'_> {
    /// Feed for stores that were found.
    pub(super) fn feed_now(
        &self,
        alarm: &Alarm,
        (way, mix): (Way, Mix),
        middle: &str,
    ) -> (String, Vec<String>, String) {
        let (title, how) = match way {
            Way::Syrup => {
                let amount = text(
                    self.words.feed_amount,
                    &[
                        ("volume", &self.volume(mix.litres)),
                        ("feed", self.feed_name(mix.kind)),
                    ],
                );
                (
                    amount,
                    vec![self.mix(mix), self.words.feed_now_how.to_owned()],
                )
            }
            Way::OnTheBars => (
                self.on_the_bars(mix),
                vec![self.words.feed_bars_how.to_owned()],
            ),
        };
        let now = &self.speech.words().alarms.feed_now;
        let why = text(now, &[("middle", middle)]);
        (
            text(self.words.feed, &[("amount", &title)]),
            how,
            format!("{} {why}", alarm.text.told(self.speech)),
        )
    }

    /// Sugar laid on the bars.
    pub(super) fn feed_on_the_bars(
        &self,
        until_spring: bool,
        mix: Mix,
        aim_kg: f64,
        middle: &str,
    ) -> (String, Vec<String>, String) {
        let words = self.words;
        let why = [
            ("colonies", &*self.colonies(self.item.sure)),
            ("aim", &self.stores_weight(aim_kg)),
            ("middle", middle),
            ("date", &self.date(self.item.to)),
        ];
        let mut how = vec![words.feed_bars_how.to_owned()];
        let pattern = if until_spring {
            how.push(words.feed_bars_in_parts.to_owned());
            words.feed_bars_until_spring
        } else {
            words.feed_bars_why
        };
        (
            text(words.feed, &[("amount", &self.on_the_bars(mix))]),
            how,
            text(pattern, &why),
        )
    }

    pub(super) fn on_the_bars(&self, mix: Mix) -> String {
        let sugar = self.speech.weight_text(mix.sugar_kg);
        text(self.words.feed_bars, &[("sugar", &sugar)])
    }

    /// A weight of stores, which can be nothing.
    pub(super) fn stores_weight(&self, kg: f64) -> String {
        if kg < 0.05 {
            self.words.feed_nothing.to_owned()
        } else {
            self.speech.weight_text(kg)
        }
    }

    pub(super) fn feed(
        &self,
        for_winter: bool,
        mix: Mix,
        aim_kg: f64,
        middle: &str,
        with_it: &str,
    ) -> (String, Vec<String>, String) {
        let words = self.words;
        let amount = text(
            words.feed_amount,
            &[
                ("volume", &self.volume(mix.litres)),
                ("feed", self.feed_name(mix.kind)),
            ],
        );
        let amount = [("amount", &*amount)];
        let aim = self.stores_weight(aim_kg);
        let why = [
            ("colonies", &*self.colonies(self.item.sure)),
            ("aim", &aim),
            ("middle", middle),
            ("with_it", with_it),
        ];
        let (title, enough, why) = if for_winter {
            let date = self.date(self.item.to);
            (
                text(words.feed_for_winter, &amount),
                text(words.feed_winter_how, &[("aim", &aim), ("date", &date)]),
                text(words.feed_winter_why, &why),
            )
        } else {
            let enough = if aim_kg >= 0.1 {
                words.feed_enough_for
            } else {
                words.feed_enough
            };
            (
                text(words.feed, &amount),
                text(enough, &[("aim", &aim)]),
                text(words.feed_why, &why),
            )
        };
        (title, vec![self.mix(mix), enough], why)
    }

    /// What is said besides of colonies that stay short of stores for winter, whatever they are fed.
    pub(super) fn for_winter(
        &self,
        (title, _, why): (String, Vec<String>, String),
        mix: Mix,
        aim_kg: f64,
        short: Sure,
        all_they_take: bool,
    ) -> (String, Vec<String>, String) {
        let words = self.words;
        let (aim, date) = (self.stores_weight(aim_kg), self.date(self.item.to));
        let parts = [("aim", &*aim), ("date", &*date)];
        let pattern = if all_they_take {
            words.feed_winter_all_taken
        } else {
            words.feed_winter_how
        };
        let mut lines = vec![self.mix(mix), text(pattern, &parts)];
        if 2 * short.count > short.of {
            lines.push(text(words.feed_winter_unite, &parts));
        }
        (title, lines, why)
    }

    /// "Mix 2.8 kg of sugar into 2.8 litres of water for 4.5 litres of 1:1 syrup."
    pub(super) fn mix(&self, mix: Mix) -> String {
        let parts = [
            ("sugar", &*self.speech.weight_text(mix.sugar_kg)),
            ("water", &self.volume(mix.water_litres)),
            ("volume", &self.volume(mix.litres)),
            ("feed", self.feed_name(mix.kind)),
        ];
        text(self.words.mix, &parts)
    }

    pub(super) fn feed_name(&self, kind: FeedKind) -> &'static str {
        self.words.feeds[match kind {
            FeedKind::OneToOne => 0,
            FeedKind::TwoToOne => 1,
            FeedKind::Patty => 2,
        }]
    }

    pub(super) fn volume(&self, litres: f64) -> String {
        let (amount, counted) = match self.speech.units {
            Units::Metric => (litres, self.words.litres),
            Units::Us => (litres / LITRES_PER_JAR, self.words.quarts),
        };
        counted.of(&if amount < 0.995 {
            self.speech.language.decimal(amount, 2)
        } else {
            self.speech.language.few_digits(amount)
        })
    }

    /// "4 to 9 kg of stores".
    pub(super) fn stores(&self, kg: &Spread) -> String {
        let whole = |kg: f64| self.speech.units.weight(kg).round();
        let (low, high) = (whole(kg.q05), whole(kg.q95));
        let unit = match self.speech.units {
            Units::Metric => "kg",
            Units::Us => "lb",
        };
        let pattern = if high < 1.0 {
            self.words.hardly_any_stores
        } else if low == high {
            self.words.about_stores
        } else {
            self.words.stores_between
        };
        let (low, high) = (low.to_string(), high.to_string());
        text(pattern, &[("low", &low), ("high", &high), ("unit", unit)])
    }
}
