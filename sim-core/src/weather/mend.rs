//! From readings with holes to an unbroken run of days, with a report of every hole.

use jiff::civil::Date;

use super::generator::Generator;
use super::raw::{Beyond, Raw, RawDay, at_line, limits, shown};
use super::report::{Filling, Format, Gap, Report};
use super::{Field, Origin, Weather, WeatherDay};
use crate::Error;
use crate::calendar::CalendarDate;
use crate::calendar::{days_between, plus_days};
use crate::order;
use crate::words::Saying;

/// Gaps up to this many days are filled without drawing.
const SHORT_GAP_DAYS: usize = 3;

/// The seed of days drawn to fill a record: a record is the same record in every scenario.
const FILLING_SEED: u32 = 0;

/// A record with more than one in so many readings that cannot be is not mended.
const MANY_IN: usize = 20;

/// The longest gap that a daily table may have.
const LONGEST_GAP_DAYS: i32 = 366;

/// Faults of one kind that are told one by one before the rest is only counted.
const TOLD_ONE_BY_ONE: usize = 5;

pub(super) fn mend(mut raw: Raw) -> Result<(Weather, Report), Error> {
    set_beyond_aside(&mut raw)?;
    refuse_lone_years(&raw)?;
    let mut gaps = share_out_totals(&mut raw);
    reject_crossed_temperatures(&mut raw)?;
    let (first, last) = span(&mut raw)?;

    let count = (days_between(first, last) + 1) as usize;
    let mut days: Vec<RawDay> = vec![RawDay::default(); count];
    for (&date, day) in raw.days.range(first..=last) {
        days[days_between(first, date) as usize] = *day;
    }
    let measured = days.clone();
    let shared: Vec<Date> = gaps
        .iter()
        .flat_map(|gap| dates(gap.first, gap.last))
        .collect();
    gaps.retain(|gap| gap.first >= first && gap.last <= last);

    let mut filled = vec![false; count];
    for date in shared {
        if let Some(flag) = usize::try_from(days_between(first, date))
            .ok()
            .and_then(|index| filled.get_mut(index))
        {
            *flag = true;
        }
    }
    let mut long = Vec::new();
    for field in [Field::High, Field::Low, Field::Rain] {
        for (from, to) in holes(&days, field) {
            filled[from..=to].fill(true);
            let short = to - from < SHORT_GAP_DAYS;
            let how = match (short, field) {
                (true, Field::Rain) => Filling::AssumedDry,
                (true, _) => Filling::Interpolated,
                (false, _) => Filling::Drawn,
            };
            match how {
                Filling::AssumedDry => days[from..=to]
                    .iter_mut()
                    .for_each(|day| day.set(field, Some(0.0))),
                Filling::Interpolated => interpolate(&mut days, from, to, field),
                _ => long.push((from, to)),
            }
            gaps.push(Gap {
                first: plus_days(first, from as i32),
                last: plus_days(first, to as i32),
                days: to - from + 1,
                field,
                how,
            });
        }
    }
    order::by_key(&mut gaps, |gap| {
        100 * CalendarDate(gap.first).number() + gap.field as i64
    });

    let mut weather = Weather {
        first,
        days: days
            .iter()
            .zip(&filled)
            .map(|(day, &filled)| plain(day, filled))
            .collect(),
    };
    if !long.is_empty() {
        draw_gaps(&mut weather, &days, &mut raw)?;
    }
    uncross_filled(&mut weather, &measured);

    let mut report = Report::empty(&raw.station, first, last);
    report.format = Some(raw.format);
    report.latitude = raw.latitude;
    report.elevation_m = raw.elevation_m;
    report.gaps = gaps;
    report.flags = raw.flags;
    report.repairs = raw.repairs;
    report.notes = raw.notes;
    Ok((weather, report))
}

fn dates(first: Date, last: Date) -> impl Iterator<Item = Date> {
    crate::calendar::dates_from(first).take_while(move |date| *date <= last)
}

/// The day as it stands; what is still missing becomes NaN until the generator fills it.
fn plain(day: &RawDay, filled: bool) -> WeatherDay {
    WeatherDay {
        high_c: day.get(Field::High).unwrap_or(f64::NAN),
        low_c: day.get(Field::Low).unwrap_or(f64::NAN),
        rain_mm: day.get(Field::Rain).unwrap_or(f64::NAN),
        wind_m_s: day.get(Field::Wind),
        sun_mj_m2: day.get(Field::Sun),
        origin: if filled {
            Origin::Filled
        } else {
            Origin::Measured
        },
    }
}

/// Spreads rain that was read after several days evenly over those of them without a reading.
fn share_out_totals(raw: &mut Raw) -> Vec<Gap> {
    let mut gaps = Vec::new();
    for total in std::mem::take(&mut raw.totals) {
        let missing = |raw: &Raw, date: Date| {
            raw.days
                .get(&date)
                .is_none_or(|day| day.get(Field::Rain).is_none())
        };
        // Without a stated span: back to the last day with a reading, a month at most.
        let longest = total.days.unwrap_or(31) as i32;
        let span = (0..longest)
            .take_while(|&back| missing(raw, plus_days(total.last, -back)))
            .count();
        if span == 0 {
            raw.notes.push(
                Saying::new(|words| words.weather.total_beside_days).text("last", total.last),
            );
            continue;
        }
        let share = total.rain_mm / span as f64;
        let first = plus_days(total.last, 1 - span as i32);
        for date in dates(first, total.last) {
            raw.days
                .entry(date)
                .or_default()
                .set(Field::Rain, Some(share));
        }
        gaps.push(Gap {
            first,
            last: total.last,
            days: span,
            field: Field::Rain,
            how: Filling::SharedTotal,
        });
    }
    gaps
}

/// Readings that cannot be: taken as missing; where they are many: other units, or another column. Those that are
/// seldom are named and used.
fn set_beyond_aside(raw: &mut Raw) -> Result<(), Error> {
    for field in Field::ALL {
        let beyond = raw.beyond.iter().filter(|reading| reading.field == field);
        let Some(first) = beyond.clone().next() else {
            continue;
        };
        let (beyond, sound) = (
            beyond.count(),
            raw.days
                .values()
                .filter(|day| day.get(field).is_some())
                .count(),
        );
        if beyond * MANY_IN > beyond + sound {
            let limits = limits(field);
            return Err(at_line(
                first.line,
                format!(
                    "{field} of {} {} is outside {} to {} (as {beyond} of {} are): a fault, or the record has other \
                     units, which `units` under [weather] or --units-of-file tells",
                    shown(first.value),
                    limits.unit,
                    limits.possible.start(),
                    limits.possible.end(),
                    beyond + sound,
                ),
            ));
        }
    }
    let told = |reading: &Beyond, pattern| {
        let limits = limits(reading.field);
        Saying::new(pattern)
            .text("date", reading.date)
            .count("line", reading.line)
            .choice(
                "field",
                |words| &words.weather.fields,
                reading.field as usize,
            )
            .text("value", shown(reading.value))
            .text("unit", limits.unit)
    };
    let more = |more: usize, pattern| {
        Saying::new(pattern).counted("readings", |words| words.weather.more_readings, more as f64)
    };
    let beyond = std::mem::take(&mut raw.beyond);
    for reading in beyond.iter().take(TOLD_ONE_BY_ONE) {
        let possible = limits(reading.field).possible;
        raw.repairs.push(
            told(reading, |words| words.weather.beyond)
                .text("least", shown(*possible.start()))
                .text("most", shown(*possible.end())),
        );
    }
    if beyond.len() > TOLD_ONE_BY_ONE {
        let rest = beyond.len() - TOLD_ONE_BY_ONE;
        raw.repairs
            .push(more(rest, |words| words.weather.more_beyond));
    }
    let unusual = std::mem::take(&mut raw.unusual);
    for reading in unusual.iter().take(TOLD_ONE_BY_ONE) {
        raw.repairs
            .push(told(reading, |words| words.weather.unusual));
    }
    if unusual.len() > TOLD_ONE_BY_ONE {
        let rest = unusual.len() - TOLD_ONE_BY_ONE;
        raw.repairs
            .push(more(rest, |words| words.weather.more_unusual));
    }
    Ok(())
}

/// A table with more than a year between two of its days has a year mistyped. Stations' own files are let be: some
/// were closed for years.
fn refuse_lone_years(raw: &Raw) -> Result<(), Error> {
    if !matches!(raw.format, Format::Csv | Format::Table) {
        return Ok(());
    }
    let mut before: Option<(Date, usize)> = None;
    for (index, (&date, day)) in raw.days.iter().enumerate() {
        if let Some((last, last_line)) = before
            && days_between(last, date) > LONGEST_GAP_DAYS
        {
            // The fewer days are the likelier fault.
            let (line, here, there, other) = if index * 2 < raw.days.len() {
                (last_line, last, date, day.line)
            } else {
                (day.line, date, last, last_line)
            };
            return Err(at_line(
                line,
                format!(
                    "{} days without a reading lie between {here} and {there} (line {other}): a year mistyped? \
                     Expected a daily table without a gap of more than a year",
                    days_between(last, date) - 1
                ),
            ));
        }
        before = Some((date, day.line));
    }
    Ok(())
}

/// Days whose low stands above their high: both taken as missing; in most days: swapped columns.
fn reject_crossed_temperatures(raw: &mut Raw) -> Result<(), Error> {
    let mut both = 0;
    let mut crossed = Vec::new();
    for (&date, day) in &raw.days {
        if let (Some(high), Some(low)) = (day.get(Field::High), day.get(Field::Low)) {
            both += 1;
            if low > high {
                crossed.push((date, day.line, high, low));
            }
        }
    }
    if crossed.len() * 2 > both {
        let (date, line, high, low) = crossed[0];
        return Err(at_line(
            line,
            format!(
                "the columns of high and low look swapped: on {} of {both} days the low is above the high \
                 (on {date} a low of {} and a high of {})",
                crossed.len(),
                shown(low),
                shown(high)
            ),
        ));
    }
    for (index, &(date, line, high, low)) in crossed.iter().enumerate() {
        if let Some(day) = raw.days.get_mut(&date) {
            day.set(Field::High, None);
            day.set(Field::Low, None);
        }
        if index < TOLD_ONE_BY_ONE {
            raw.repairs.push(
                Saying::new(|words| words.weather.crossed)
                    .text("date", date)
                    .count("line", line)
                    .text("low", shown(low))
                    .text("high", shown(high)),
            );
        }
    }
    if crossed.len() > TOLD_ONE_BY_ONE {
        let more = (crossed.len() - TOLD_ONE_BY_ONE) as f64;
        let said = Saying::new(|words| words.weather.more_crossed);
        raw.repairs
            .push(said.counted("days", |words| words.weather.more_days, more));
    }
    Ok(())
}

/// First and last day that have both temperatures.
fn span(raw: &mut Raw) -> Result<(Date, Date), Error> {
    for field in [Field::High, Field::Low, Field::Rain] {
        if raw.days.values().all(|day| day.get(field).is_none()) {
            return Err(Error::weather(
                "",
                format!(
                    "the record has no {field} for {}: high, low and rain are all needed",
                    raw.station
                ),
            ));
        }
    }
    let whole = |(_, day): &(&Date, &RawDay)| {
        day.get(Field::High).is_some() && day.get(Field::Low).is_some()
    };
    let first = raw.days.iter().find(whole).map(|(date, _)| *date);
    let last = raw.days.iter().rev().find(whole).map(|(date, _)| *date);
    let (Some(first), Some(last)) = (first, last) else {
        return Err(Error::weather(
            "",
            format!("no day of {} has both a high and a low", raw.station),
        ));
    };
    let outside = raw.days.range(..first).count()
        + raw
            .days
            .iter()
            .rev()
            .take_while(|(d, _)| **d > last)
            .count();
    if outside > 0 {
        raw.notes.push(
            Saying::new(|words| words.weather.outside)
                .counted("days", |words| words.forms.days, outside as f64)
                .text("first", first)
                .text("last", last),
        );
    }
    Ok((first, last))
}

/// Runs of days without a value, as first and last index.
fn holes(days: &[RawDay], field: Field) -> Vec<(usize, usize)> {
    let mut holes: Vec<(usize, usize)> = Vec::new();
    for (index, day) in days.iter().enumerate() {
        if day.get(field).is_none() {
            match holes.last_mut() {
                Some((_, to)) if *to + 1 == index => *to = index,
                _ => holes.push((index, index)),
            }
        }
    }
    holes
}

/// A straight line over a hole that has a value on both sides.
fn interpolate(days: &mut [RawDay], from: usize, to: usize, field: Field) {
    // The record starts and ends with both temperatures, so a hole never touches its ends.
    let (Some(before), Some(after)) = (days[from - 1].get(field), days[to + 1].get(field)) else {
        return;
    };
    let steps = (to - from + 2) as f64;
    for (step, day) in days[from..=to].iter_mut().enumerate() {
        day.set(
            field,
            Some(before + (after - before) * (step + 1) as f64 / steps),
        );
    }
}

/// Fills what is still NaN with the generator's days, keeping what was measured on them.
fn draw_gaps(weather: &mut Weather, days: &[RawDay], raw: &mut Raw) -> Result<(), Error> {
    let (generator, note) = Generator::for_record(weather)?;
    raw.notes.extend(note);
    let mut state = None;
    let first = weather.first;
    for (index, (day, known)) in weather.days.iter_mut().zip(days).enumerate() {
        let date = plus_days(first, index as i32);
        let mut before = state.take().unwrap_or_default();
        let whole = !(day.high_c.is_nan() || day.low_c.is_nan() || day.rain_mm.is_nan());
        if !whole {
            let drawn = generator.next(&mut before, date, FILLING_SEED, 0);
            let range = drawn.high_c - drawn.low_c;
            let (high, low) = match (known.get(Field::High), known.get(Field::Low)) {
                (Some(high), Some(low)) => (high, low),
                (Some(high), None) => (high, high - range),
                (None, Some(low)) => (low + range, low),
                (None, None) => (drawn.high_c, drawn.low_c),
            };
            day.high_c = high;
            day.low_c = low;
            day.rain_mm = known.get(Field::Rain).unwrap_or(drawn.rain_mm);
        }
        state = Some(generator.state_of(date, day));
    }
    Ok(())
}

/// A filled high can come to lie under the low (or the reverse): what was measured stays, and the
/// day then has no range.
fn uncross_filled(weather: &mut Weather, measured: &[RawDay]) {
    for (day, measured) in weather.days.iter_mut().zip(measured) {
        if day.low_c > day.high_c {
            if measured.get(Field::Low).is_some() {
                day.high_c = day.low_c;
            } else {
                day.low_c = day.high_c;
            }
        }
    }
}
