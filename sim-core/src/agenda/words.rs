//! The list in words: what to do, what to look for, why, how sure, and what to beware of.

mod food;
mod found;

use serde::Serialize;

use super::amounts::{capital, frame, frames, frames_between, mites, number};
use super::treatments::Choice;
use super::{Agenda, Item, Job, LookFor, Sure, Way, treatments};
use crate::calendar::CalendarDate;
use crate::verdict::Alarming;
use crate::words::{AgendaWords, Speech, text};

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

impl Item {
    /// The item in words, with weights, volumes and temperatures in the units of that speech.
    pub fn told(&self, agenda: &Agenda, speech: Speech) -> Told {
        let teller = Teller {
            item: self,
            agenda,
            speech,
            words: &speech.words().agenda,
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
    speech: Speech,
    words: &'static AgendaWords,
}

impl Teller<'_> {
    fn date(&self, date: CalendarDate) -> String {
        let years = self.agenda.from.0.year() != self.agenda.until.0.year();
        self.speech.language.day_and_month(date.0, years)
    }

    fn grouped(&self, value: f64) -> String {
        self.speech.language.grouped(value)
    }

    fn of(&self, sure: Sure) -> String {
        self.counted(self.words.of, sure)
    }

    /// "830 of 1,000 colonies".
    fn colonies(&self, sure: Sure) -> String {
        self.counted(self.words.of_colonies, sure)
    }

    fn counted(&self, pattern: &str, sure: Sure) -> String {
        let (count, all) = (
            self.grouped(sure.count as f64),
            self.grouped(sure.of as f64),
        );
        text(pattern, &[("count", &count), ("all", &all)])
    }

    fn count(&self, count: usize) -> Sure {
        Sure {
            count,
            of: self.item.sure.of,
        }
    }

    fn tell(&self) -> (String, Vec<String>, String) {
        let (words, colonies) = (self.words, self.colonies(self.item.sure));
        let colonies = &*colonies;
        match &self.item.job {
            Job::Planned {
                text: what,
                mix,
                refused,
                ..
            } => {
                let what = what.told(self.speech);
                let title = if *refused {
                    text(words.planned_refused, &[("what", &what)])
                } else {
                    capital(&what)
                };
                let mix = mix.iter().map(|mix| self.mix(*mix)).collect();
                (title, mix, words.planned_why.to_owned())
            }
            Job::Check { cause, .. } => {
                let causes = &self.speech.words().causes;
                let cause = *cause as usize;
                let tell = capital(causes.tell[cause]);
                (
                    text(words.check, &[("cause", causes.names[cause])]),
                    vec![
                        text(words.check_tell, &[("tell", &tell)]),
                        causes.remedy[cause].to_owned(),
                    ],
                    text(words.check_why, &[("colonies", colonies)]),
                )
            }
            Job::Found { alarm } => self.found(alarm, colonies),
            Job::FirstLook { out } => {
                let why = [("date", &*self.date(*out)), ("colonies", colonies)];
                (
                    words.first_look.to_owned(),
                    vec![words.first_look_how.to_owned()],
                    text(words.first_look_why, &why),
                )
            }
            Job::Visit { look_for } if look_for.winter => (
                words.winter_look.to_owned(),
                self.winter_look(look_for),
                text(words.winter_look_why, &[("colonies", colonies)]),
            ),
            Job::Visit { look_for } if look_for.young_queen => (
                words.visit.to_owned(),
                vec![words.young_queen.to_owned()],
                words.young_queen_why.to_owned(),
            ),
            Job::Visit { look_for } => (
                words.visit.to_owned(),
                self.look_for(look_for),
                self.why_then(look_for),
            ),
            Job::Feed {
                for_winter,
                way,
                found,
                mix,
                aim_kg,
                stores_kg,
                short_with_it,
                of,
                all_they_take,
            } => {
                let with_it = Sure {
                    count: *short_with_it,
                    of: *of,
                };
                let middle = self.stores_weight(stores_kg.median);
                if let Some(alarm) = found {
                    return self.feed_now(alarm, (*way, *mix), &middle);
                }
                if *way == Way::OnTheBars {
                    return self.feed_on_the_bars(*for_winter, *mix, *aim_kg, &middle);
                }
                let told = self.feed(*for_winter, *mix, *aim_kg, &middle, &self.of(with_it));
                if *for_winter {
                    self.for_winter(told, *mix, *aim_kg, with_it, *all_they_take)
                } else {
                    told
                }
            }
            Job::AddBox { middle, planned } => {
                let how = text(words.add_box_how, &[("date", &self.date(*middle))]);
                let planned = planned.map(|planned| {
                    let dates = [
                        ("planned", &*self.date(planned)),
                        ("date", &self.date(*middle)),
                    ];
                    text(words.add_box_planned, &dates)
                });
                (
                    words.add_box.to_owned(),
                    planned.into_iter().chain([how]).collect(),
                    text(words.add_box_why, &[("colonies", &capital(colonies))]),
                )
            }
            Job::DroneFrameIn {
                first_egg,
                out_by,
                compared_on,
                fewer,
                without,
            } => {
                let dates = [
                    ("laid", &*self.date(*first_egg)),
                    ("out", &self.date(*out_by)),
                ];
                let why = [
                    ("date", &*self.date(*compared_on)),
                    ("colonies", colonies),
                    ("fewer", &self.grouped(fewer.median)),
                    ("low", &self.grouped(fewer.q05)),
                    ("high", &self.grouped(fewer.q95)),
                    ("without", &self.grouped(without.median)),
                ];
                (
                    words.drone_frame_in.to_owned(),
                    vec![
                        words.drone_frame_in_where.to_owned(),
                        text(words.drone_frame_in_dates, &dates),
                    ],
                    text(words.drone_frame_in_why, &why),
                )
            }
            Job::DroneFrameOut { hatches, there } => {
                let title = if *there {
                    words.drone_frame_out
                } else {
                    words.that_drone_frame_out
                };
                let why = [("date", &*self.date(*hatches)), ("colonies", colonies)];
                (
                    text(title, &[("date", &self.date(self.item.to))]),
                    vec![words.drone_frame_out_how.to_owned()],
                    text(words.drone_frame_out_why, &why),
                )
            }
            Job::Wash {
                bees,
                low,
                high,
                act_from,
                last,
            } => {
                let before = match last {
                    Some(last) => text(words.wash_before, &[("date", &self.date(*last))]),
                    None => words.wash_none_before.to_owned(),
                };
                let how = [
                    ("bees", &*bees.to_string()),
                    ("mites", &mites(*low, *high, self.speech.language)),
                    ("act_from", &act_from.to_string()),
                ];
                (
                    words.wash.to_owned(),
                    vec![text(words.wash_how, &how)],
                    text(
                        words.wash_why,
                        &[("before", &before), ("colonies", colonies)],
                    ),
                )
            }
            Job::Treat {
                found: Some(alarm),
                choices,
                ..
            } => {
                let words = &self.speech.words().alarms;
                (
                    words.treat_now.to_owned(),
                    self.treat_now(choices),
                    alarm.text.told(self.speech),
                )
            }
            Job::Treat {
                act_from,
                over,
                middle,
                choices,
                ..
            } => {
                let more = self.item.sure.count - *over;
                let over = &*self.grouped(*over as f64);
                let why = [
                    ("until", &*self.date(self.agenda.until)),
                    ("spring", &self.speech.language.plain(act_from.0)),
                    ("autumn", &self.speech.language.plain(act_from.1)),
                    ("colonies", &*self.colonies(self.count(more))),
                    ("over", over),
                    ("more", &self.grouped(more as f64)),
                    ("all", &self.grouped(self.item.sure.of as f64)),
                    ("middle", &self.date(*middle)),
                ];
                let pattern = if over == "0" {
                    words.treat_why
                } else {
                    words.treat_why_over
                };
                (
                    words.treat.to_owned(),
                    treatments::told(choices, self.speech, |date| self.date(date)),
                    text(pattern, &why),
                )
            }
            Job::Broodless { choices } => (
                words.broodless.to_owned(),
                treatments::told(choices, self.speech, |date| self.date(date)),
                text(words.broodless_why, &[("colonies", colonies)]),
            ),
        }
    }

    fn look_for(&self, look_for: &LookFor) -> Vec<String> {
        let (words, language) = (self.words, self.speech.language);
        let mut lines = Vec::new();
        let (brood, of) = (&look_for.brood_frames, self.item.sure.of);
        if look_for.lost == of {
            return vec![words.all_lost.to_owned()];
        }
        if 2 * look_for.laying >= of {
            let eggs = 10 * look_for.eggs >= 9 * look_for.laying;
            let pattern = match (2 * look_for.poor_queen > of, eggs) {
                (false, false) => words.see_brood,
                (false, true) => words.see_brood_and_eggs,
                (true, false) => words.see_brood_of_her,
                (true, true) => words.see_brood_and_eggs_of_her,
            };
            lines.push(text(pattern, &[("frames", &frames(brood, language))]));
        } else {
            lines.push(words.no_queen_lays.to_owned());
        }
        if let Some(in_step) = &look_for.in_step {
            let frames = frames_between(in_step.q25, in_step.q75, language);
            lines.push(text(words.in_step, &[("frames", &frames)]));
        }
        lines.push(text(
            words.covered,
            &[
                ("bees", &frames(&look_for.bee_frames, language)),
                ("drawn", &frames(&look_for.drawn_frames, language)),
                ("stores", &self.stores(&look_for.stores_kg)),
            ],
        ));
        if look_for.next && brood.q05 >= 0.5 {
            let frames = frame(brood.q05, language);
            lines.push(text(words.less_brood, &[("frames", &frames)]));
        }
        // Who is to look for a poor queen is told it there.
        if look_for.next && 2 * look_for.poor_queen <= of && brood.median >= 0.75 {
            lines.push(self.speech.words().alarms.disease.to_owned());
        }
        for (count, pattern) in [
            (look_for.swarming, words.swarming),
            (look_for.lost, words.some_lost),
        ] {
            if 20 * count >= of {
                let colonies = self.colonies(self.count(count));
                lines.push(text(pattern, &[("colonies", &colonies)]));
            }
        }
        lines
    }

    /// Why the hive is opened on that day: what is to be judged then.
    fn why_then(&self, look_for: &LookFor) -> String {
        let (words, of) = (self.words, self.item.sure.of);
        let mut why: Vec<String> = [
            (of - look_for.laying, look_for.laying, words.visit_why),
            (
                look_for.short_of_food,
                look_for.short_of_food,
                words.visit_why_food,
            ),
            (
                look_for.short_of_room,
                look_for.short_of_room,
                words.visit_why_room,
            ),
        ]
        .into_iter()
        .filter(|(some, ..)| 20 * some >= of)
        .map(|(_, told, pattern)| text(pattern, &[("colonies", &self.colonies(self.count(told)))]))
        .collect();
        if look_for.lost < of {
            let before = &look_for.before;
            let parts = [
                ("date", &*self.date(before.date)),
                ("brood_before", &number(before.brood_frames)),
                ("brood", &number(look_for.brood_frames.median)),
                ("drawn_before", &number(before.drawn_frames)),
                ("drawn", &number(look_for.drawn_frames.median)),
                ("stores_before", &self.speech.weight_text(before.stores_kg)),
                (
                    "stores",
                    &self.speech.weight_text(look_for.stores_kg.median),
                ),
            ];
            why.push(text(words.visit_why_middle, &parts));
        }
        why.join(" ")
    }

    fn cautions(&self) -> Vec<String> {
        let words = &self.speech.words().cautions;
        let cautions: Vec<&str> = match &self.item.job {
            Job::Found { alarm } if matches!(alarm.what, Alarming::Lost { .. }) => {
                vec![self.speech.words().alarms.disease]
            }
            Job::Feed {
                way: Way::OnTheBars,
                ..
            } => vec![words.stings],
            Job::Planned { feeds: true, .. } | Job::Feed { .. } => vec![words.robbing],
            Job::Planned { lifts: true, .. } | Job::AddBox { .. } => {
                vec![words.stings, words.lifting]
            }
            Job::Planned { .. }
            | Job::Found { .. }
            | Job::FirstLook { .. }
            | Job::Visit { .. }
            | Job::Check { .. }
            | Job::DroneFrameIn { .. }
            | Job::DroneFrameOut { .. } => vec![words.stings],
            Job::Wash { .. } => vec![words.stings, words.washed],
            Job::Treat { .. } | Job::Broodless { .. } => vec![words.label],
        };
        let mut cautions: Vec<String> = cautions.into_iter().map(str::to_owned).collect();
        if let Job::Treat { choices, .. } | Job::Broodless { choices } = &self.item.job {
            cautions.extend(self.of_treatments(choices));
        }
        cautions
    }

    /// What to beware of with the treatments that fit: each caution once, after the names of those that it is true of.
    fn of_treatments(&self, choices: &[Choice]) -> Vec<String> {
        let words = self.speech.words();
        let mut cautions: Vec<(&str, Vec<&str>)> = Vec::new();
        for choice in choices.iter().filter(|choice| choice.fits) {
            let place = choice.treatment as usize;
            let (name, caution) = (words.treatments[place], words.cautions.treatments[place]);
            match cautions.iter_mut().find(|(said, _)| *said == caution) {
                Some((_, names)) => names.push(name),
                None => cautions.push((caution, vec![name])),
            }
        }
        let told = |(caution, names): (&str, Vec<&str>)| {
            format!("{}: {caution}", capital(&names.join("; ")))
        };
        cautions.into_iter().map(told).collect()
    }
}
