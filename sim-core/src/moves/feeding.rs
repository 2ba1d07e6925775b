//! Feed, treatments and winter wrap.

use super::{Done, Hand, Result};
use crate::math::most;
use crate::scenario::moves::{Syrup, Treat};
use crate::syrup::filling_g;
use crate::treatments::{self, Running, SuperRule};
use crate::words::Saying;

impl Hand<'_> {
    pub(super) fn feed(&mut self, syrup: &Syrup) -> Result {
        let fill = filling_g(syrup.kind, syrup.litres, syrup.jars);
        let feeder = &mut self.colony.feeder;
        feeder.syrup_g = most(feeder.syrup_g, fill);
        feeder.feeders = f64::from(syrup.feeders);
        Ok(Done::new(match (syrup.litres, syrup.jars) {
            (Some(litres), _) => {
                Saying::new(|words| words.moves.syrup_litres).plain("litres", litres)
            }
            (_, Some(jars)) => Saying::new(|words| words.moves.syrup_jars).plain("jars", jars),
            _ => Saying::new(|words| words.moves.syrup_kept_full),
        }))
    }

    pub(super) fn stop_feeding(&mut self) -> Result {
        let feeder = &mut self.colony.feeder;
        if feeder.feeders == 0.0 && !feeder.patty {
            return Err(Saying::new(|words| words.refusals.no_feed));
        }
        feeder.feeders = 0.0;
        feeder.patty = false;
        Ok(Done::new(Saying::new(|words| words.moves.feed_off)))
    }

    pub(super) fn patty(&mut self, kilograms: f64) -> Result {
        let feeder = &mut self.colony.feeder;
        feeder.patty_g = most(feeder.patty_g, kilograms * 1000.0);
        feeder.patty = true;
        let said = Saying::new(|words| words.moves.patty).grams("weight", kilograms * 1000.0);
        Ok(Done::new(said))
    }

    pub(super) fn treat(&mut self, treat: &Treat) -> Result {
        let row = treat.with.info();
        let place = treat.with as usize;
        let named = |said: Saying| said.choice("treatment", |words| &words.treatments, place);
        let days = treat.days.map_or(row.days, u32::from);
        let beside_honey = row.supers != SuperRule::Off;
        if !beside_honey && self.colony.frames.has_honey_super() {
            return Err(named(Saying::new(|words| words.refusals.not_with_supers)));
        }
        // What was gathered before a harvest long after may lie in boxes that were not there yet: lists warn of it, the keeper decides.
        let taken = (self.honey_taken_in).filter(|taken| treatments::taints(days, *taken, 0.0));
        if let Some(taken) = taken.filter(|_| !beside_honey) {
            return Err(
                named(Saying::new(|words| words.refusals.not_before_honey)).counted(
                    "later",
                    |words| words.forms.days_later,
                    taken,
                ),
            );
        }
        let running = &self.colony.beekeeping.treatments;
        if running
            .iter()
            .any(|one| one.treatment == treat.with && !one.over(self.day))
        {
            return Err(named(Saying::new(|words| words.refusals.in_already)));
        }
        self.colony.beekeeping.treatments.push(Running {
            treatment: treat.with,
            since: self.day,
            days,
            resistance: treat.resistance.unwrap_or(row.resistance),
        });
        let today = self.conditions;
        let (low, high) = row.window_c;
        let mut said = named(Saying::new(|words| words.moves.treated)).counted(
            "days",
            |words| words.forms.days,
            days,
        );
        if today.mean_c < low {
            said = said
                .and(|words| words.moves.treated_in_cold)
                .celsius("mean", today.mean_c)
                .celsius("low", low);
        } else if today.high_c > high {
            said = said
                .and(|words| words.moves.treated_in_heat)
                .celsius("now", today.high_c)
                .celsius("high", high);
        }
        let said = said
            .and(|words| words.moves.treat_cautions)
            .choice("caution", |words| &words.cautions.treatments, place)
            .choice(
                "label",
                |words| std::slice::from_ref(&words.cautions.label),
                0,
            );
        Ok(Done::new(said).with("days", f64::from(days)))
    }

    pub(super) fn end_treatment(&mut self) -> Result {
        let running = &mut self.colony.beekeeping.treatments;
        if running.is_empty() {
            return Err(Saying::new(|words| words.refusals.no_treatment));
        }
        running.clear();
        Ok(Done::new(Saying::new(|words| words.moves.treatments_out)))
    }

    pub(super) fn wrap(&mut self, wrapped: bool) -> Result {
        if self.colony.beekeeping.wrapped == wrapped {
            return Err(if wrapped {
                Saying::new(|words| words.refusals.wrapped_already)
            } else {
                Saying::new(|words| words.refusals.not_wrapped)
            });
        }
        self.colony.beekeeping.wrapped = wrapped;
        Ok(Done::new(if wrapped {
            Saying::new(|words| words.moves.wrapped)
        } else {
            Saying::new(|words| words.moves.unwrapped)
        }))
    }
}
