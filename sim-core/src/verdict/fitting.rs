//! The colonies that fit a hive's visits, found in pieces of any size.

use super::Effort;
use super::hive::{Candidate, Hive};
use super::unfit::{self, Seen};
use crate::Error;
use crate::ensemble::{Hands, Member, Peers};
use crate::filter::{Filter, Step};
use crate::visits::Visit;
use crate::words::Saying;

/// The colonies that fit, and what every visit did and was expected to show.
#[derive(Debug)]
pub struct Conditioned {
    /// Equally likely colonies at the last visit.
    pub candidates: Vec<Candidate>,
    /// What each visit did to the ensemble.
    pub steps: Vec<Step>,
    /// Everything that was seen, beside what was expected.
    pub seen: Vec<Seen>,
}

/// An ensemble that is being conditioned on visits.
#[derive(Debug)]
struct Conditioning {
    visits: Vec<Visit>,
    filter: Filter<Candidate>,
    seen: Vec<Seen>,
}

impl Conditioning {
    fn new(peers: &Peers, visits: &[Visit], effort: Effort) -> Self {
        Self {
            visits: visits.to_vec(),
            filter: Filter::new(visits.len(), effort.settings(peers.seed())),
            seen: Vec::new(),
        }
    }

    fn go_on<H: Hands>(
        &mut self,
        peers: &Peers,
        at_most: usize,
        hands: &H,
    ) -> Result<usize, Error> {
        let (visits, seen) = (&self.visits, &mut self.seen);
        let hive = Hive::new(peers, visits);
        self.filter
            .go_on(&hive, at_most, hands, &mut |step, members| {
                seen.extend(unfit::expected(&hive, visits, step, members));
            })
    }

    fn end(self) -> Conditioned {
        let filtered = self.filter.end();
        Conditioned {
            candidates: filtered.members,
            steps: filtered.steps,
            seen: self.seen,
        }
    }
}

/// Conditions an ensemble on visits (in order of date, within the season).
///
/// # Errors
/// A day that does not add up: a fault of the program.
pub fn condition<H: Hands>(
    peers: &Peers,
    visits: &[Visit],
    effort: Effort,
    hands: &H,
) -> Result<Conditioned, Error> {
    let mut conditioning = Conditioning::new(peers, visits, effort);
    while !conditioning.filter.is_over() {
        conditioning.go_on(peers, usize::MAX, hands)?;
    }
    Ok(conditioning.end())
}

/// The colonies that fit a hive's visits.
#[derive(Debug)]
pub struct Fitting {
    /// The colonies, equally likely, at least one.
    pub members: Vec<Member>,
    /// Where they rest on few members.
    pub warnings: Vec<Saying>,
    /// That some were lost before, where some were: they are not among the members.
    pub left_out: Option<Saying>,
}

/// The colonies that fit visits (in order of date, within the season; can be none) on the morning of day `today`, not
/// before the last visit: living ones, if any lives. Any number of the first are a fair choice of all.
///
/// # Errors
/// No members; a day that does not add up.
pub fn fitting<H: Hands>(
    peers: &Peers,
    visits: &[Visit],
    today: usize,
    effort: Effort,
    hands: &H,
) -> Result<Fitting, Error> {
    let mut finding = Finding::new(peers, visits, today, effort);
    while !finding.is_over() {
        finding.go_on(peers, usize::MAX, hands)?;
    }
    finding.end()
}

/// The finding of the colonies that fit visits, on its way: what [`fitting`] gives, in pieces of any size and by any hands.
#[derive(Debug)]
pub struct Finding {
    conditioning: Conditioning,
    today: usize,
    /// Colonies that have gone on to that day.
    walked: Vec<Member>,
}

impl Finding {
    /// Nothing is found yet.
    pub fn new(peers: &Peers, visits: &[Visit], today: usize, effort: Effort) -> Self {
        Self {
            conditioning: Conditioning::new(peers, visits, effort),
            today,
            walked: Vec::new(),
        }
    }

    /// Whether all are found.
    pub fn is_over(&self) -> bool {
        let filter = &self.conditioning.filter;
        filter.is_over() && self.walked.len() == filter.members().len()
    }

    /// Visits that were taken in, and how many there are.
    pub fn visits(&self) -> (usize, usize) {
        let Conditioning { visits, filter, .. } = &self.conditioning;
        (filter.done(), visits.len())
    }

    /// Goes on with at most so many colonies, at least one; gives how many they were.
    ///
    /// # Errors
    /// A day that does not add up: then there is no going on.
    pub fn go_on<H: Hands>(
        &mut self,
        peers: &Peers,
        at_most: usize,
        hands: &H,
    ) -> Result<usize, Error> {
        if !self.conditioning.filter.is_over() {
            return self.conditioning.go_on(peers, at_most, hands);
        }
        let members = self.conditioning.filter.members();
        let (from, count) = (self.walked.len(), members.len());
        // Resampling puts copies of a member side by side: steps of a golden section part them.
        let mut step = (count as f64 * 0.618_033_988_749_895) as usize;
        while gcd(step, count) != 1 {
            step += 1;
        }
        let piece = at_most.max(1).min(count - from);
        let walked = hands.make(piece, |place| {
            let place = (from + place) * step % count;
            let mut member = members[place].particle.member.clone();
            peers
                .advance(&mut member, self.today, |_, _, _, _| {})
                .map(|()| member)
        });
        for member in walked {
            self.walked.push(member?);
        }
        Ok(piece)
    }

    /// The colonies that were found.
    ///
    /// # Errors
    /// None was.
    pub fn end(self) -> Result<Fitting, Error> {
        let mut members = self.walked;
        let all = members.len();
        if all == 0 {
            return Err(Error::scenario("members", "expected at least one member"));
        }
        // Who asks has a colony.
        if members.iter().any(|member| member.walk.colony.alive) {
            members.retain(|member| member.walk.colony.alive);
        }
        let lost = all - members.len();
        let left_out = (lost > 0).then(|| {
            Saying::new(|words| words.verdict.left_out)
                .grouped("lost", lost as f64)
                .grouped("all", all as f64)
        });
        let visits = self.conditioning.visits.clone();
        Ok(Fitting {
            members,
            warnings: warnings(&self.conditioning.end(), &visits),
            left_out,
        })
    }
}

fn gcd(a: usize, b: usize) -> usize {
    if b == 0 { a } else { gcd(b, a % b) }
}

/// Share of the members under which it is said aloud that a visit left few of them: rehearsed visits to sound
/// colonies leave that many or more.
const FEW: f64 = 0.01;

/// Says aloud where few members carry the verdict.
pub(super) fn warnings(conditioned: &Conditioned, visits: &[Visit]) -> Vec<Saying> {
    let members = conditioned.candidates.len();
    let mut warnings = Vec::new();
    for (place, (step, visit)) in conditioned.steps.iter().zip(visits).enumerate() {
        let few = f64::max(3.0, FEW * members as f64);
        if step.effective < few {
            let worst = conditioned
                .seen
                .iter()
                .filter(|seen| seen.visit == place + 1)
                .min_by(|a, b| a.tail().total_cmp(&b.tail()));
            let said = Saying::new(|words| words.verdict.few_carry)
                .day("date", visit.date)
                .grouped("members", members as f64)
                .grouped("carried", f64::max(step.effective, 1.0));
            warnings.push(match worst {
                Some(seen) => said.and(|words| words.verdict.few_carry_check).choice(
                    "what",
                    |words| &words.verdict.readings,
                    seen.what as usize,
                ),
                None => said,
            });
        }
        if step.distinct < 0.3 {
            let said = Saying::new(|words| words.verdict.alike).day("date", visit.date);
            warnings.push(said.decimal("count", 100.0 * step.distinct, 0));
        }
    }
    warnings
}
