//! Putting things in order, by a whole number for each.
//!
//! The library's sorting is compiled anew for each type and each key, at some kilobytes of the page's module; here it
//! is compiled once for all lists that are sorted a few times a season.

use std::cmp::Ordering;

/// Sorts by a whole number; equals stay in their order.
pub fn by_key<T>(list: &mut Vec<T>, key: impl Fn(&T) -> i64) {
    let mut keys: Vec<(i64, usize)> = list.iter().map(key).zip(0..).collect();
    sort(&mut keys);
    let mut unsorted: Vec<Option<T>> = list.drain(..).map(Some).collect();
    list.extend(keys.iter().filter_map(|&(_, at)| unsorted[at].take()));
}

#[inline(never)]
fn sort(keys: &mut [(i64, usize)]) {
    keys.sort_unstable();
}

/// Sorts whole numbers, the least first.
#[inline(never)]
pub fn whole(list: &mut [i64]) {
    list.sort_unstable();
}

/// Sorts numbers, the least first.
pub fn numbers(list: &mut [f64]) {
    let mut ranks: Vec<i64> = list.iter().map(|&x| rank(x)).collect();
    whole(&mut ranks);
    for (place, rank) in list.iter_mut().zip(ranks) {
        *place = f64::from_bits(flipped(rank) as u64);
    }
}

/// A whole number that orders as `x` does, with -0 before 0, and what is not a number outside all others.
pub fn rank(x: f64) -> i64 {
    flipped(x.to_bits() as i64)
}

/// Numbers below zero order the other way round than their bits do. It undoes itself.
fn flipped(bits: i64) -> i64 {
    bits ^ (((bits >> 63) as u64) >> 1) as i64
}

/// Orders names as people do: numbers in them count as numbers, so that 2 comes before 10.
pub fn natural(one: &str, other: &str) -> Ordering {
    let (mut a, mut b) = (one, other);
    loop {
        let (number_a, rest_a) = leading_number(a);
        let (number_b, rest_b) = leading_number(b);
        // Without its zeros the longer number is the larger.
        let by_number = (number_a.len(), number_a).cmp(&(number_b.len(), number_b));
        let both = rest_a.len() < a.len() && rest_b.len() < b.len();
        if both {
            if by_number.is_ne() {
                return by_number;
            }
            (a, b) = (rest_a, rest_b);
            continue;
        }
        let (mut letters_a, mut letters_b) = (a.chars(), b.chars());
        match (letters_a.next(), letters_b.next()) {
            (None, None) => return one.cmp(other),
            (x, y) if x != y => return x.cmp(&y),
            _ => (a, b) = (letters_a.as_str(), letters_b.as_str()),
        }
    }
}

/// The digits that a text begins with, without leading zeros, and what comes after them.
fn leading_number(text: &str) -> (&str, &str) {
    let rest = text.trim_start_matches(|letter: char| letter.is_ascii_digit());
    (
        text[..text.len() - rest.len()].trim_start_matches('0'),
        rest,
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ranks_order_as_numbers_do() {
        let mut given = [
            3.0,
            -1e300,
            0.0,
            -0.0,
            f64::INFINITY,
            1e-310,
            -2.5,
            f64::NEG_INFINITY,
            f64::NAN,
        ];
        let mut by_rank = given.to_vec();
        by_key(&mut by_rank, |&x| rank(x));
        numbers(&mut given);
        let bits = |list: &[f64]| list.iter().map(|x| x.to_bits()).collect::<Vec<_>>();
        assert_eq!(bits(&by_rank), bits(&given));
    }

    #[test]
    fn equals_stay_in_their_order() {
        let mut list = vec![(2, 'a'), (1, 'b'), (2, 'c'), (1, 'd')];
        by_key(&mut list, |&(key, _)| key);
        assert_eq!(list, [(1, 'b'), (1, 'd'), (2, 'a'), (2, 'c')]);
    }

    #[test]
    fn numbers_in_names_count_as_numbers() {
        let names = [
            "", "01", "1", "2", "10", "Hive 2", "Hive 2b", "Hive 10", "Hive x", "b",
        ];
        for (place, name) in names.iter().enumerate() {
            for (other_place, other) in names.iter().enumerate() {
                let expected = place.cmp(&other_place);
                assert_eq!(natural(name, other), expected, "{name} {other}");
            }
        }
    }
}
