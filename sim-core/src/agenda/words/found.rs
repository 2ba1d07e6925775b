//! What visits found that cannot wait, and what can be seen of a hive in winter, in words.

use super::Teller;
use crate::agenda::amounts::frames;
use crate::agenda::{Choice, LookFor, treatments};
use crate::verdict::{Alarm, Alarming, alarms};
use crate::words::text;

impl Teller<'_> {
    /// What a visit found that cannot wait.
    pub(super) fn found(&self, alarm: &Alarm, colonies: &str) -> (String, Vec<String>, String) {
        let words = &self.speech.words().alarms;
        let said = alarm.text.told(self.speech);
        match alarm.what {
            Alarming::QueenCells {
                charged,
                capped,
                sign,
            } => {
                let found = alarms::cells_found(alarm.date, charged, capped).told(self.speech);
                let why = [
                    ("found", &*found),
                    ("mean", words.cells_mean[sign as usize]),
                    ("colonies", colonies),
                ];
                (
                    words.cells_title.to_owned(),
                    vec![
                        words.cells_tell.to_owned(),
                        words.cells_do[sign as usize].to_owned(),
                    ],
                    text(words.cells_why, &why),
                )
            }
            Alarming::Lost { .. } => (
                words.lost_title.to_owned(),
                words.lost_do.map(str::to_owned).to_vec(),
                text(words.lost_why, &[("why", &said)]),
            ),
            Alarming::AtOdds { lost } => {
                let parts = [
                    ("date", &*self.date(alarm.date)),
                    ("lost", &lost.to_string()),
                ];
                let why = text(words.at_odds, &parts);
                (
                    words.at_odds_title.to_owned(),
                    vec![words.at_odds_do.to_owned()],
                    text(words.at_odds_why, &[("why", &why)]),
                )
            }
            // Those are fed and treated for.
            Alarming::LowStores { .. }
            | Alarming::ManyMites { .. }
            | Alarming::ManyFallen { .. } => (
                alarm.what.words(self.speech.language).to_owned(),
                Vec::new(),
                said,
            ),
        }
    }

    /// Treatments for mites over the mark; honey does not wait for the day on which it was to be taken.
    pub(super) fn treat_now(&self, choices: &[Choice]) -> Vec<String> {
        let date = |date| self.date(date);
        let mut told = treatments::told(choices, self.speech, date);
        if let Some(taken) = choices.iter().find_map(|choice| choice.honey) {
            told.push(text(self.words.honey_first, &[("date", &date(taken))]));
        }
        told.push(self.words.wash_after.to_owned());
        told
    }

    /// What can be seen of a hive in winter.
    pub(super) fn winter_look(&self, look_for: &LookFor) -> Vec<String> {
        let (words, of) = (self.words, self.item.sure.of);
        if look_for.lost == of {
            return vec![words.all_lost.to_owned()];
        }
        let bees = frames(&look_for.bee_frames, self.speech.language);
        let parts = [
            ("bees", &*bees),
            ("stores", &self.stores(&look_for.stores_kg)),
        ];
        let mut lines = vec![
            words.winter_look_how.to_owned(),
            text(words.winter_look_shows, &parts),
        ];
        if 20 * look_for.lost >= of {
            let colonies = self.colonies(self.count(look_for.lost));
            lines.push(text(words.some_lost, &[("colonies", &colonies)]));
        }
        lines
    }
}
