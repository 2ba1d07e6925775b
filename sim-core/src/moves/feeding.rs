//! Feed, treatments and winter wrap.

use super::{Done, Hand, Result};
use crate::math::most;
use crate::scenario::moves::{Syrup, Treat};
use crate::story::weight;
use crate::syrup::filling_g;
use crate::treatments::{LABEL, Running, SuperRule};

impl Hand<'_> {
    pub(super) fn feed(&mut self, syrup: &Syrup) -> Result {
        let fill = filling_g(syrup.kind, syrup.litres, syrup.jars);
        let feeder = &mut self.colony.feeder;
        feeder.syrup_g = most(feeder.syrup_g, fill);
        feeder.feeders = f64::from(syrup.feeders);
        Ok(Done::new(match (syrup.litres, syrup.jars) {
            (Some(litres), _) => format!("{litres} litres of syrup are put on"),
            (_, Some(jars)) => format!("{jars} jars of syrup are put on"),
            _ => "syrup is put on and kept full".to_owned(),
        }))
    }

    pub(super) fn stop_feeding(&mut self) -> Result {
        let feeder = &mut self.colony.feeder;
        if feeder.feeders == 0.0 && !feeder.patty {
            return Err("no move has put feed on".to_owned());
        }
        feeder.feeders = 0.0;
        feeder.patty = false;
        Ok(Done::new("the feed is taken off"))
    }

    pub(super) fn patty(&mut self, kilograms: f64) -> Result {
        let feeder = &mut self.colony.feeder;
        feeder.patty_g = most(feeder.patty_g, kilograms * 1000.0);
        feeder.patty = true;
        let amount = weight(kilograms * 1000.0);
        Ok(Done::new(format!("{amount} of patty is put on")))
    }

    pub(super) fn treat(&mut self, treat: &Treat) -> Result {
        let row = treat.with.info();
        let supers = self
            .colony
            .frames
            .boxes
            .iter()
            .any(|storey| storey.honey_super);
        if supers && row.supers == SuperRule::Off {
            return Err(format!(
                "{}: its super rule forbids it while a honey super is on",
                row.name
            ));
        }
        let running = &self.colony.beekeeping.treatments;
        if running
            .iter()
            .any(|one| one.treatment == treat.with && !one.over(self.day))
        {
            return Err(format!("{}: in the hive already", row.name));
        }
        let days = treat.days.map_or(row.days, u32::from);
        self.colony.beekeeping.treatments.push(Running {
            treatment: treat.with,
            since: self.day,
            days,
            resistance: treat.resistance.unwrap_or(row.resistance),
        });
        let today = self.conditions;
        let (low, high) = row.window_c;
        let mut text = format!(
            "{} is given for {days} {}",
            row.name,
            if days == 1 { "day" } else { "days" }
        );
        if today.mean_c < low {
            text = format!(
                "{text}; with a mean of {:.0} °C it is colder than its window from {low} °C, and works less",
                today.mean_c
            );
        } else if today.high_c > high {
            text = format!(
                "{text}; with {:.0} °C it is hotter than its window to {high} °C, and does more harm",
                today.high_c
            );
        }
        Ok(Done::new(format!("{text}. {} {LABEL}", row.caution)).with("days", f64::from(days)))
    }

    pub(super) fn end_treatment(&mut self) -> Result {
        let running = &mut self.colony.beekeeping.treatments;
        if running.is_empty() {
            return Err("no treatment is in the hive".to_owned());
        }
        running.clear();
        Ok(Done::new("treatments are taken out"))
    }

    pub(super) fn wrap(&mut self, wrapped: bool) -> Result {
        if self.colony.beekeeping.wrapped == wrapped {
            let state = if wrapped {
                "is wrapped already"
            } else {
                "is not wrapped"
            };
            return Err(format!("the hive {state}"));
        }
        self.colony.beekeeping.wrapped = wrapped;
        Ok(Done::new(if wrapped {
            "the hive is wrapped for winter"
        } else {
            "the wrap is taken off"
        }))
    }
}
