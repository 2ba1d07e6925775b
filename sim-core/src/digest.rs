//! A fingerprint of a season, to compare runs on different machines bit for bit.

use crate::season::Season;

/// FNV-1a (64 bits) over the bits of every number of every day, in order, then over the brakes.
///
/// Equal seasons have equal digests; a change of one bit of one number changes it.
pub fn of(season: &Season) -> u64 {
    let numbers = season
        .days
        .iter()
        .flat_map(|day| day.values())
        .flat_map(|value| value.to_bits().to_le_bytes());
    let brakes = season.days.iter().map(|day| day.brake as u8);
    bytes(numbers.chain(brakes))
}

/// FNV-1a (64 bits) of some bytes.
pub fn bytes(bytes: impl IntoIterator<Item = u8>) -> u64 {
    bytes.into_iter().fold(0xcbf2_9ce4_8422_2325, |hash, byte| {
        (hash ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3)
    })
}

#[cfg(test)]
mod tests {
    use super::of;
    use crate::Parameters;
    use crate::season::Season;

    #[test]
    fn an_empty_season_has_the_offset_basis() {
        let season = Season {
            first: jiff::civil::date(2026, 4, 30),
            days: Vec::new(),
            events: Vec::new(),
            parameters: Parameters::default(),
            seed: 0,
        };
        assert_eq!(of(&season), 0xcbf2_9ce4_8422_2325);
    }
}
