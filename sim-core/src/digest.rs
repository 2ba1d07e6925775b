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
    use super::bytes;

    #[test]
    fn published_test_vectors_come_out() {
        assert_eq!(bytes(*b""), 0xcbf2_9ce4_8422_2325);
        assert_eq!(bytes(*b"a"), 0xaf63_dc4c_8601_ec8c);
        assert_eq!(bytes(*b"foobar"), 0x8594_4171_f739_67e8);
    }
}
