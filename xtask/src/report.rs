//! Steps of a long check: headings, times, counts, and what to do after a failure.

use std::collections::BTreeSet;
use std::time::{Duration, Instant};

use anyhow::Result;

/// How many checks passed, failed and were left out.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Counts {
    pub passed: u64,
    pub failed: u64,
    pub skipped: u64,
}

impl Counts {
    /// One check that passed.
    pub const ONE: Self = Self {
        passed: 1,
        failed: 0,
        skipped: 0,
    };

    pub fn add(&mut self, other: Self) {
        self.passed += other.passed;
        self.failed += other.failed;
        self.skipped += other.skipped;
    }
}

/// The steps taken so far.
pub struct Report {
    total: Counts,
    good: BTreeSet<&'static str>,
    lines: Vec<String>,
    started: Instant,
}

impl Report {
    pub fn new() -> Self {
        Self {
            total: Counts::default(),
            good: BTreeSet::new(),
            lines: Vec::new(),
            started: Instant::now(),
        }
    }

    /// Takes a step, unless one that it needs did not go well; then it is left out and said to be.
    ///
    /// A step that returns an error counts as one failure; one that returns counts adds them.
    pub fn step(
        &mut self,
        name: &'static str,
        needs: &[&'static str],
        work: impl FnOnce() -> Result<Counts>,
    ) {
        println!("\n== {name}");
        if let Some(missing) = needs.iter().find(|need| !self.good.contains(*need)) {
            let line = format!("left out  {name}: it needs \"{missing}\"");
            println!("{line}");
            self.lines.push(line);
            self.total.skipped += 1;
            return;
        }
        let before = Instant::now();
        let (counts, failure) = match work() {
            Ok(counts) if counts.failed > 0 => (counts, Some(format!("{} failed", counts.failed))),
            Ok(counts) => (counts, None),
            Err(error) => (
                Counts {
                    failed: 1,
                    ..Counts::default()
                },
                Some(format!("{error:#}")),
            ),
        };
        self.total.add(counts);
        let took = seconds(before.elapsed());
        let line = match failure {
            None => {
                self.good.insert(name);
                format!("ok      {took}  {name}")
            }
            Some(why) => format!("FAILED  {took}  {name}: {why}"),
        };
        println!("{line}");
        self.lines.push(line);
    }

    /// Prints what became of each step, then the counts as the last line; returns whether all is well.
    pub fn close(self) -> bool {
        println!("\n== Summary");
        for line in &self.lines {
            println!("{line}");
        }
        println!("        {}  in all\n", seconds(self.started.elapsed()));
        let Counts {
            passed,
            failed,
            skipped,
        } = self.total;
        if skipped > 0 {
            println!("{passed} passed, {failed} failed, {skipped} skipped");
        } else {
            println!("{passed} passed, {failed} failed");
        }
        failed == 0
    }
}

fn seconds(time: Duration) -> String {
    format!("{:6.1} s", time.as_secs_f64())
}

#[cfg(test)]
mod tests {
    use super::*;
    use anyhow::bail;

    #[test]
    fn a_step_whose_need_failed_is_left_out() {
        let mut report = Report::new();
        report.step("ground", &[], || bail!("no ground"));
        report.step("wall", &["ground"], || panic!("must not be built"));
        report.step("tree", &[], || Ok(Counts::ONE));
        assert_eq!(
            report.total,
            Counts {
                passed: 1,
                failed: 1,
                skipped: 1
            }
        );
        assert!(!report.close());
    }

    #[test]
    fn one_failed_test_makes_the_step_a_need_unmet() {
        let mut report = Report::new();
        report.step("tests", &[], || {
            Ok(Counts {
                passed: 5,
                failed: 1,
                skipped: 0,
            })
        });
        report.step("next", &["tests"], || Ok(Counts::ONE));
        assert_eq!(report.total.skipped, 1);
        assert!(!report.close());
    }
}
