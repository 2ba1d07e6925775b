//! The only place with transcendental mathematics.
//!
//! Everything goes through the `libm` crate, so that native code and WebAssembly give the same bits.

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

/// `x` to the power `y`.
#[inline]
pub fn pow(x: f64, y: f64) -> f64 {
    libm::pow(x, y)
}

/// Limits `x` to 0..=1.
#[inline]
pub fn unit(x: f64) -> f64 {
    // Plain comparisons compile to two instructions; `f64::clamp` also has to look after NaN.
    let low = if x > 0.0 { x } else { 0.0 };
    if low < 1.0 { low } else { 1.0 }
}

/// Straight ramp: 0 at `from`, 1 at `to` (which may be below `from`), limited to 0..=1.
#[inline]
pub fn ramp(x: f64, from: f64, to: f64) -> f64 {
    unit((x - from) / (to - from))
}

/// S-shaped step from 0 to 1, centred on `centre`, all of it within `centre` ± `width` / 2.
///
/// A cubic in place of a logistic curve: the same shape, no exponential, and exactly 0 and 1 outside.
#[inline]
pub fn smooth_step(x: f64, centre: f64, width: f64) -> f64 {
    let t = unit((x - centre) / width + 0.5);
    t * t * (3.0 - 2.0 * t)
}

/// The smaller of two numbers that are known not to be NaN.
#[inline]
pub fn least(a: f64, b: f64) -> f64 {
    if a < b { a } else { b }
}

/// The larger of two numbers that are known not to be NaN.
#[inline]
pub fn most(a: f64, b: f64) -> f64 {
    if a > b { a } else { b }
}
