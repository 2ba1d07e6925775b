//! The only place with transcendental mathematics.
//!
//! Everything goes through the `libm` crate, so that native code and WebAssembly give the same bits.
//! The small ones are always inlined: the page's module is built to be small, which would leave them as calls in the hot loops.
//! Square roots and rounding are exact by the floating-point standard: there the language's own are used.

/// Natural exponential.
#[inline]
pub fn exp(x: f64) -> f64 {
    libm::exp(x)
}

/// Natural logarithm.
#[inline]
pub fn ln(x: f64) -> f64 {
    libm::log(x)
}

/// `x` to the power `y`, for `x` of 0 and above.
///
/// Through the logarithm: some units in the last place less exact than `libm::pow`, at a fifth of its cost.
#[inline]
pub fn pow(x: f64, y: f64) -> f64 {
    if x > 0.0 {
        libm::exp(y * libm::log(x))
    } else {
        0.0
    }
}

/// Limits `x` to 0..=1.
#[inline(always)]
pub fn unit(x: f64) -> f64 {
    // Plain comparisons compile to two instructions; `f64::clamp` also has to look after NaN.
    let low = if x > 0.0 { x } else { 0.0 };
    if low < 1.0 { low } else { 1.0 }
}

/// Straight ramp: 0 at `from`, 1 at `to` (which may be below `from`), limited to 0..=1.
#[inline(always)]
pub fn ramp(x: f64, from: f64, to: f64) -> f64 {
    unit((x - from) / (to - from))
}

/// S-shaped step from 0 to 1, centred on `centre`, all of it within `centre` ± `width` / 2.
///
/// A cubic in place of a logistic curve: the same shape, no exponential, and exactly 0 and 1 outside.
#[inline(always)]
pub fn smooth_step(x: f64, centre: f64, width: f64) -> f64 {
    // One division serves a whole loop over ages.
    let t = unit((x - centre) * (1.0 / width) + 0.5);
    t * t * (3.0 - 2.0 * t)
}

/// The smaller of two numbers that are known not to be NaN.
#[inline(always)]
pub fn least(a: f64, b: f64) -> f64 {
    if a < b { a } else { b }
}

/// The larger of two numbers that are known not to be NaN.
#[inline(always)]
pub fn most(a: f64, b: f64) -> f64 {
    if a > b { a } else { b }
}

/// The sum of `values`, added in four strands: a fixed order that a processor can work side by side.
#[inline(always)]
pub fn sum<const N: usize>(values: &[f64; N]) -> f64 {
    const { assert!(N.is_multiple_of(4), "whole strands") };
    let mut strands = [0.0; 4];
    for chunk in values.as_chunks::<4>().0 {
        for (strand, value) in strands.iter_mut().zip(chunk) {
            *strand += value;
        }
    }
    (strands[0] + strands[1]) + (strands[2] + strands[3])
}
