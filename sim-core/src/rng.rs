//! Keyed random streams: the generator of a draw is made from what the draw is about.
//!
//! No generator is carried from one day to the next. A new draw in one topic, or one more draw
//! today, therefore cannot move the luck of another topic or of tomorrow; members of an ensemble can
//! run in any order; and two scenarios with one seed share their weather and most of their luck.

use rand_pcg::Pcg64Mcg;

/// What a random stream is for. The numbers are part of every result: never renumber them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Topic {
    /// The weather generator.
    Weather = 1,
    /// Eggs laid.
    Laying = 2,
    /// Worker brood.
    Brood = 3,
    /// Adult bees.
    Adults = 4,
    /// Drones and drone brood.
    Drones = 5,
    /// Flight and foraging.
    Forage = 6,
    /// Mites.
    Mites = 7,
    /// The queen's own fate.
    Queen = 8,
    /// The luck of this one colony: what differs between colonies rather than between days.
    Luck = 9,
}

/// The random stream of one topic on one day of one member of an ensemble.
///
/// `seed` is the scenario's, `member` counts from 0 (0 for a single season) and `day` from the first
/// day of the run; the weather counts its days by date, so that one date has one weather. The same
/// four arguments give the same bits on every machine and in WebAssembly; any other four give a
/// stream without visible relation to it (tested).
pub fn stream(seed: u32, member: u32, topic: Topic, day: u32) -> Pcg64Mcg {
    let who = u64::from(seed) << 32 | u64::from(member);
    let what = (topic as u64) << 32 | u64::from(day);
    // Each half depends on all four, and together they can be undone: no two keys share a state.
    let low = mix(what.wrapping_add(mix(who)));
    let high = mix(who ^ low);
    // The generator needs an odd state and sets the last bit itself.
    Pcg64Mcg::new(u128::from(high) << 64 | u128::from(low))
}

/// The finishing step of SplitMix64 (Steele, Lea & Flood 2014), after its usual increment: a
/// reversible scrambling in which each bit of the input moves about half of the bits of the output.
fn mix(x: u64) -> u64 {
    let x = x.wrapping_add(0x9E37_79B9_7F4A_7C15);
    let x = (x ^ (x >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    let x = (x ^ (x >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    x ^ (x >> 31)
}

#[cfg(test)]
mod tests {
    use super::*;
    use rand::Rng;

    #[test]
    fn the_mixing_step_is_the_published_one() {
        // First outputs of SplitMix64 from state 0 and from state 1234567 (published test vector).
        assert_eq!(mix(0), 0xE220_A839_7B1D_CDAF);
        assert_eq!(mix(1_234_567), 6_457_827_717_110_365_317);
    }

    #[test]
    fn draws_of_a_stream_are_frozen() {
        let mut first = stream(1, 0, Topic::Weather, 100);
        let mut again = stream(1, 0, Topic::Weather, 100);
        let drawn: Vec<u64> = (0..3).map(|_| first.next_u64()).collect();
        assert_eq!(drawn, (0..3).map(|_| again.next_u64()).collect::<Vec<_>>());
        // The same three come from a version of PCG XSL-RR 128/64 (MCG) written apart, in Python.
        assert_eq!(
            drawn,
            [
                5_131_028_358_643_673_688,
                12_327_943_946_868_973_107,
                15_182_670_224_710_788_280
            ]
        );
    }

    #[test]
    fn neighbouring_keys_share_nothing() {
        // Bits that differ between the first outputs of neighbours: 64 fair coins have mean 32 and
        // standard deviation 4; the mean over 1000 pairs lies within 32 ± 0.5 (4 standard errors).
        let first = |seed, member, topic, day| stream(seed, member, topic, day).next_u64();
        let mut by_key = [0_u32; 4];
        for i in 0..1000 {
            let base = first(i, i, Topic::Brood, i);
            by_key[0] += (base ^ first(i + 1, i, Topic::Brood, i)).count_ones();
            by_key[1] += (base ^ first(i, i + 1, Topic::Brood, i)).count_ones();
            by_key[2] += (base ^ first(i, i, Topic::Adults, i)).count_ones();
            by_key[3] += (base ^ first(i, i, Topic::Brood, i + 1)).count_ones();
        }
        for total in by_key {
            let mean = f64::from(total) / 1000.0;
            assert!(
                (mean - 32.0).abs() < 0.5,
                "mean of {mean} bits differ, not 32"
            );
        }
    }
}
