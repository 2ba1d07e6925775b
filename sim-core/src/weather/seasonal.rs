//! Means and spreads through the year, from those of the months.

use jiff::civil::Date;

use super::month::{MonthClimate, Spread};
use crate::Error;

/// The least standard deviation about the season's course, °C.
const LEAST_SPREAD_C: f64 = 0.3;

/// A mean and a spread through the year, as values at mid-month with straight lines between them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Seasonal {
    pub mean: [f64; 12],
    pub sd: [f64; 12],
}

impl Seasonal {
    /// Lines whose monthly means, and spreads about them, are those given.
    ///
    /// The spread within a month holds the season's own course, which the line already follows.
    pub fn through(months: [Spread; 12]) -> Self {
        let goal = months.map(|month| month.mean);
        let mean = lines_with_means(goal);
        let mut sd = [0.0; 12];
        for month in 0..12 {
            let start = (mean[(month + 11) % 12] + mean[month]) / 2.0;
            let middle = mean[month];
            let end = (mean[month] + mean[(month + 1) % 12]) / 2.0;
            let half = |a: f64, b: f64| (a * a + a * b + b * b) / 6.0;
            let course = half(start, middle) + half(middle, end) - goal[month] * goal[month];
            let whole = months[month].sd;
            sd[month] = (whole * whole - course).max(whole * whole / 4.0).sqrt();
        }
        let sd = lines_with_means(sd).map(|sd| sd.max(LEAST_SPREAD_C));
        Self { mean, sd }
    }

    pub fn on(&self, date: Date) -> Spread {
        let through = (f64::from(date.day()) - 0.5) / f64::from(date.days_in_month());
        let month = date.month() as usize - 1;
        let (from, to, share) = if through < 0.5 {
            ((month + 11) % 12, month, through + 0.5)
        } else {
            (month, (month + 1) % 12, through - 0.5)
        };
        let at = |values: &[f64; 12]| values[from] + (values[to] - values[from]) * share;
        Spread {
            mean: at(&self.mean),
            sd: at(&self.sd),
        }
    }
}

/// The values at mid-month between which straight lines have these monthly means.
///
/// Lines between the means themselves would cut off the peaks of the year.
fn lines_with_means(goal: [f64; 12]) -> [f64; 12] {
    let mut values = goal;
    // Each round leaves at most half of what was wrong.
    for _ in 0..40 {
        let now = values;
        for month in 0..12 {
            let (before, after) = (now[(month + 11) % 12], now[(month + 1) % 12]);
            values[month] += goal[month] - (before + 6.0 * now[month] + after) / 8.0;
        }
    }
    values
}

/// Temperatures of dry and of wet days by month; where one kind of day is too rare to tell, it differs
/// from the other as it does on average in the other months.
pub(super) fn dry_and_wet(
    months: &[MonthClimate; 12],
    dry: fn(&MonthClimate) -> Option<Spread>,
    wet: fn(&MonthClimate) -> Option<Spread>,
) -> Result<[[Spread; 12]; 2], Error> {
    let difference = mean_of(
        months
            .iter()
            .filter_map(|month| Some(wet(month)?.mean - dry(month)?.mean)),
    )
    .unwrap_or(0.0);
    let moved = |spread: Spread, by: f64| Spread {
        mean: spread.mean + by,
        sd: spread.sd,
    };
    let mut both = [[Spread { mean: 0.0, sd: 1.0 }; 12]; 2];
    for (index, month) in months.iter().enumerate() {
        let (dry, wet) = match (dry(month), wet(month)) {
            (Some(dry), Some(wet)) => (dry, wet),
            (Some(dry), None) => (dry, moved(dry, difference)),
            (None, Some(wet)) => (moved(wet, -difference), wet),
            (None, None) => {
                return Err(Error::weather(
                    "",
                    format!("month {} has too few days to draw temperatures", index + 1),
                ));
            }
        };
        both[0][index] = dry;
        both[1][index] = wet;
    }
    Ok(both)
}

/// Mean of what is there.
pub(super) fn mean_of(values: impl Iterator<Item = f64>) -> Option<f64> {
    let (count, sum) = values.fold((0.0, 0.0), |(count, sum), value| (count + 1.0, sum + value));
    (count > 0.0).then(|| sum / count)
}
