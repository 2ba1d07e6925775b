//! The list in words: what to do, what to look for, why, how sure, and what to beware of.

use serde::Serialize;

use super::amounts::{capital, frame, frames, frames_between, range_of};
use super::{Agenda, Item, Job, LookFor, Mix, Sure, treatments};
use crate::calendar::CalendarDate;
use crate::ensemble::Spread;
use crate::scenario::FeedKind;
use crate::story::{Units, day_and_month, grouped, in_units};
use crate::syrup::LITRES_PER_JAR;
use crate::treatments::LABEL;
use crate::verdict::Cause;

/// An item in words.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Told {
    /// What to do, without a full stop.
    pub title: String,
    /// How, and what to look for: sentences.
    pub details: Vec<String>,
    /// Why: sentences with the members' figures.
    pub why: String,
    /// How sure: a count of colonies.
    pub sure: String,
    /// What to beware of.
    pub cautions: Vec<String>,
}

pub(crate) const STINGS: &str = "Stings can kill people who are allergic. Wear a veil, light the smoker first, and put it out with care.";
pub(crate) const LIFTING: &str =
    "Boxes are heavy: a full deep one weighs about as much as a grown person can lift. Get help.";
pub(crate) const ROBBING: &str =
    "Spilt syrup draws robbers: feed in the evening, and make the entrance small.";
const WASHED: &str = "The bees in the jar die: be sure that the queen is not among them. Alcohol burns: keep it away from the smoker.";

impl Item {
    /// The item in words, with weights, volumes and temperatures in these units.
    pub fn told(&self, agenda: &Agenda, units: Units) -> Told {
        let teller = Teller {
            item: self,
            agenda,
            units,
        };
        let (title, details, why) = teller.tell();
        Told {
            title,
            details,
            why,
            sure: teller.of(self.sure),
            cautions: teller.cautions(),
        }
    }
}

struct Teller<'a> {
    item: &'a Item,
    agenda: &'a Agenda,
    units: Units,
}

impl Teller<'_> {
    fn date(&self, date: CalendarDate) -> String {
        let years = self.agenda.from.0.year() != self.agenda.until.0.year();
        day_and_month(date.0, years)
    }

    fn of(&self, sure: Sure) -> String {
        format!(
            "{} of {}",
            grouped(sure.count as f64),
            grouped(sure.of as f64)
        )
    }

    /// "830 of 1,000 colonies".
    fn colonies(&self, sure: Sure) -> String {
        format!("{} colonies", self.of(sure))
    }

    fn count(&self, count: usize) -> Sure {
        Sure {
            count,
            of: self.item.sure.of,
        }
    }

    fn tell(&self) -> (String, Vec<String>, String) {
        let sure = self.item.sure;
        match &self.item.job {
            Job::Planned {
                marked,
                mix,
                refused,
                ..
            } => {
                let text = in_units(marked, self.units);
                let title = if *refused {
                    format!("In the plan, but it cannot be done: {text}")
                } else {
                    capital(&text)
                };
                let mix = mix.iter().map(|mix| self.mix(*mix)).collect();
                (title, mix, "The plan has it on this day.".to_owned())
            }
            Job::Check { cause, tell } => (
                format!("Make sure: is it {}?", cause.words()),
                vec![format!("{}.", capital(tell)), remedy(*cause).to_owned()],
                format!("It is so in {}.", self.colonies(sure)),
            ),
            Job::Visit { look_for } => (
                "Open the hive".to_owned(),
                self.look_for(look_for),
                format!("The queen is laying then in {}.", self.colonies(sure)),
            ),
            Job::Feed {
                for_winter,
                mix,
                aim_kg,
                stores_kg,
                short_with_it,
            } => self.feed(*for_winter, *mix, *aim_kg, stores_kg, *short_with_it),
            Job::AddBox { middle } => (
                "Add a box on top".to_owned(),
                vec![format!(
                    "Give it as soon as 7 to 8 of 10 frames of the upper box are drawn and bees are on most frames; have it ready before. The middle colony is there on {}.",
                    self.date(*middle)
                )],
                format!(
                    "{} come to that, and still grow three weeks later.",
                    capital(&self.colonies(sure))
                ),
            ),
            Job::DroneFrameIn {
                first_egg,
                out_by,
                compared_on,
                fewer,
                without,
            } => (
                "Put in a drone frame".to_owned(),
                vec![
                    "Hang it beside the brood nest.".to_owned(),
                    format!(
                        "In the earliest of twenty colonies the queen lays in it on {}; it has to come out by {}.",
                        self.date(*first_egg),
                        self.date(*out_by)
                    ),
                ],
                format!(
                    "On {} there are fewer mites than without it in {}: {} fewer ({} to {}), where there would be {}.",
                    self.date(*compared_on),
                    self.colonies(sure),
                    grouped(fewer.median),
                    grouped(fewer.q05),
                    grouped(fewer.q95),
                    grouped(without.median)
                ),
            ),
            Job::DroneFrameOut { hatches, there } => (
                if *there {
                    format!("Take the drone frame out by {}", self.date(self.item.to))
                } else {
                    format!("Take that drone frame out by {}", self.date(self.item.to))
                },
                vec![
                    "Freeze it for two days, or cut the comb out and destroy the brood.".to_owned(),
                ],
                format!(
                    "In the earliest of twenty colonies its first drones come out on {}, and the mites with them: too late, it breeds the mites that it was meant to remove. Left in, it comes to that in {}.",
                    self.date(*hatches),
                    self.colonies(sure)
                ),
            ),
            Job::Wash {
                bees,
                low,
                high,
                act_from,
                last,
            } => (
                "Wash half a cup of bees for mites".to_owned(),
                vec![format!(
                    "About {bees} bees from a brood frame, without the queen. Nine in ten such jars show {}. At {act_from} or more it is time to treat.",
                    range_of(*low, *high, "mite", "mites")
                )],
                format!(
                    "{} On that day mites are at or over that in {}.",
                    match last {
                        Some(last) => format!("The wash before is that of {}.", self.date(*last)),
                        None => "There has been no wash.".to_owned(),
                    },
                    self.colonies(sure)
                ),
            ),
            Job::Treat {
                act_from,
                middle,
                choices,
            } => (
                "Be ready to treat against mites".to_owned(),
                treatments::told(choices, self.units, |date| self.date(date)),
                format!(
                    "Between now and {} mites pass the mark ({} on 100 bees while days grow longer, {} from midsummer on) in {}; half of those pass it by {}. A wash tells whether yours has.",
                    self.date(self.agenda.until),
                    act_from.0,
                    act_from.1,
                    self.colonies(sure),
                    self.date(*middle)
                ),
            ),
            Job::Broodless { choices } => (
                "Days without capped brood".to_owned(),
                treatments::told(choices, self.units, |date| self.date(date)),
                format!(
                    "What kills mites on bees alone reaches nearly all of them now: there is hardly a capped cell in {}.",
                    self.colonies(sure)
                ),
            ),
        }
    }

    fn feed(
        &self,
        for_winter: bool,
        mix: Mix,
        aim_kg: f64,
        stores_kg: &Spread,
        short_with_it: usize,
    ) -> (String, Vec<String>, String) {
        let weight = |kg: f64| {
            if kg < 0.05 {
                "nothing".to_owned()
            } else {
                self.units.weight_text(kg)
            }
        };
        let amount = format!("{} of {}", self.volume(mix.litres), syrup(mix.kind));
        let title = if for_winter {
            format!("Feed for winter: up to {amount}")
        } else {
            format!("Feed {amount}")
        };
        let mut details = vec![self.mix(mix)];
        let without = self.colonies(self.item.sure);
        let with_it = self.of(self.count(short_with_it));
        let why = if for_winter {
            details.push(format!(
                "That is enough for nine in ten: weigh the hive, and feed what is missing to {}. Give it in parts, and be done by {}: later it is too cold for syrup.",
                weight(aim_kg),
                self.date(self.item.to)
            ));
            format!(
                "Without feed, {without} go into winter with less than {}; the middle colony has {}. With all of it: {with_it}.",
                weight(aim_kg),
                weight(stores_kg.median)
            )
        } else {
            let food = if aim_kg >= 0.1 {
                format!("; {} is food for ten days", weight(aim_kg))
            } else {
                String::new()
            };
            details.push(format!("That is enough for nine in ten{food}."));
            format!(
                "Without it, {without} come down to food for less than ten days, or to none, before the visit after that one; at its lowest the middle colony has {}. With it: {with_it}.",
                weight(stores_kg.median)
            )
        };
        (title, details, why)
    }

    fn look_for(&self, look_for: &LookFor) -> Vec<String> {
        let mut lines = Vec::new();
        let (brood, of) = (&look_for.brood_frames, self.item.sure.of);
        if look_for.lost == of {
            return vec!["In no colony is a bee left then.".to_owned()];
        }
        if 2 * look_for.laying >= of {
            let eggs = if 10 * look_for.eggs >= 9 * look_for.laying {
                " and eggs"
            } else {
                ""
            };
            let if_well = if 2 * look_for.poor_queen > of {
                "With the queen as she seems to be"
            } else {
                "If she is well"
            };
            lines.push(format!(
                "{if_well}, you should see {} of brood{eggs}.",
                frames(brood)
            ));
        } else {
            lines.push("In most colonies no queen is laying then: look for no brood.".to_owned());
        }
        if let Some(in_step) = &look_for.in_step {
            lines.push(format!(
                "Colonies of the same start and weather that are in step have {}.",
                frames_between(in_step.q25, in_step.q75)
            ));
        }
        lines.push(format!(
            "Bees cover {}, with {} drawn and {}.",
            frames(&look_for.bee_frames),
            frames(&look_for.drawn_frames),
            self.stores(&look_for.stores_kg)
        ));
        if look_for.next && brood.q05 >= 0.5 {
            lines.push(format!(
                "Less than {} of brood, or no eggs: look for the queen, and for queen cells.",
                frame(brood.q05)
            ));
        }
        if 20 * look_for.swarming >= of {
            lines.push(format!(
                "Look along the bottom bars for queen cells: in {} there are some by then, or a swarm has left.",
                self.colonies(self.count(look_for.swarming))
            ));
        }
        if 20 * look_for.lost >= of {
            lines.push(format!(
                "By then {} are lost.",
                self.colonies(self.count(look_for.lost))
            ));
        }
        lines
    }

    fn cautions(&self) -> Vec<String> {
        let text = |some: &[&str]| some.iter().map(|&text| text.to_owned()).collect();
        match &self.item.job {
            Job::Planned { feeds: true, .. } | Job::Feed { .. } => text(&[ROBBING]),
            Job::Planned { lifts: true, .. } | Job::AddBox { .. } => text(&[STINGS, LIFTING]),
            Job::Planned { .. }
            | Job::Visit { .. }
            | Job::Check { .. }
            | Job::DroneFrameIn { .. }
            | Job::DroneFrameOut { .. } => text(&[STINGS]),
            Job::Wash { .. } => text(&[STINGS, WASHED]),
            Job::Treat { choices, .. } | Job::Broodless { choices } => {
                let mut cautions: Vec<String> = text(&[LABEL]);
                for choice in choices.iter().filter(|choice| choice.fits) {
                    if !cautions.iter().any(|known| known == choice.caution) {
                        cautions.push(choice.caution.to_owned());
                    }
                }
                cautions
            }
        }
    }

    /// "Mix 2.8 kg of sugar into 2.8 litres of water for 4.5 litres of 1:1 syrup."
    fn mix(&self, mix: Mix) -> String {
        format!(
            "Mix {} of sugar into {} of water for {} of {}.",
            self.units.weight_text(mix.sugar_kg),
            self.volume(mix.water_litres),
            self.volume(mix.litres),
            syrup(mix.kind)
        )
    }

    fn volume(&self, litres: f64) -> String {
        let (amount, one, many) = match self.units {
            Units::Metric => (litres, "litre", "litres"),
            Units::Us => (litres / LITRES_PER_JAR, "quart", "quarts"),
        };
        let text = if amount < 0.995 {
            format!("{amount:.2}")
        } else if amount < 9.95 {
            let text = format!("{amount:.1}");
            text.strip_suffix(".0").unwrap_or(&text).to_owned()
        } else {
            grouped(amount)
        };
        if text == "1" {
            format!("1 {one}")
        } else {
            format!("{text} {many}")
        }
    }

    /// "4 to 9 kg of stores".
    fn stores(&self, kg: &Spread) -> String {
        let (low, high) = (
            self.units.weight(kg.q05).round(),
            self.units.weight(kg.q95).round(),
        );
        let unit = match self.units {
            Units::Metric => "kg",
            Units::Us => "lb",
        };
        if high < 1.0 {
            "hardly any stores".to_owned()
        } else if low == high {
            format!("about {high} {unit} of stores")
        } else {
            format!("{low} to {high} {unit} of stores")
        }
    }
}

fn syrup(kind: FeedKind) -> &'static str {
    match kind {
        FeedKind::TwoToOne => "2:1 syrup",
        FeedKind::OneToOne => "1:1 syrup",
        FeedKind::Patty => "patty",
    }
}

/// What to do if it is so.
fn remedy(cause: Cause) -> &'static str {
    match cause {
        Cause::Queen => {
            "If so, give a new queen while there is time for her brood to grow up, or unite the colony with another."
        }
        Cause::Food => "If so, put the feeder over the cluster, and look that it runs.",
        Cause::Comb => "If so, give drawn comb, or wax the foundation afresh, beside the brood.",
        Cause::Mites => "If so, treat: weeks lost now are winter bees lost later.",
        Cause::Losses => {
            "If so, give a frame of capped brood from a strong and healthy hive, and take away boxes that they cannot cover."
        }
    }
}
