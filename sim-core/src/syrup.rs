//! Sugar syrup: densities, sugar in a volume, and what it comes to in the comb.

use crate::scenario::FeedKind;

/// Density of sucrose solutions at 20 °C, g/cm³, by percent of sugar by weight
/// (ICUMSA 1990; 20 and 30 % from the CRC table, from memory).
const DENSITY: [(f64, f64); 8] = [
    (0.0, 0.998_23),
    (20.0, 1.081_0),
    (30.0, 1.127_0),
    (40.0, 1.176_5),
    (50.0, 1.229_65),
    (60.0, 1.286_6),
    (65.0, 1.316_6),
    (70.0, 1.347_5),
];

/// Litres in a US gallon.
pub const LITRES_PER_GALLON: f64 = 3.785_411_784;
/// Litres in the quart jar of a jar feeder.
pub const LITRES_PER_JAR: f64 = LITRES_PER_GALLON / 4.0;
/// Kilograms in a pound.
pub const KG_PER_POUND: f64 = 0.453_592_37;
/// Sugar in honey, by weight: sugar of any kind is counted as the honey that it could become.
pub const SUGAR_IN_HONEY: f64 = 0.82;

/// Density at 20 °C, g/cm³, of syrup with `share` of its weight sugar (0 to 0.70): the curve
/// through the table's points.
pub fn density(share: f64) -> f64 {
    let percent = share * 100.0;
    // Lagrange's polynomial through the points; smooth, and exact at each of them.
    DENSITY
        .iter()
        .enumerate()
        .map(|(i, &(at, value))| {
            let others = DENSITY.iter().enumerate().filter(|&(j, _)| j != i);
            value
                * others
                    .map(|(_, &(x, _))| (percent - x) / (at - x))
                    .product::<f64>()
        })
        .sum()
}

/// Dry sugar in a litre of syrup, g, when `share` of its weight is sugar.
pub fn sugar_g_per_litre(share: f64) -> f64 {
    share * density(share) * 1000.0
}

/// Litres of syrup from a litre of water (0.9982 kg) when `share` of the syrup's weight is sugar.
pub fn litres_from_a_litre_of_water(share: f64) -> f64 {
    DENSITY[0].1 / (1.0 - share) / density(share)
}

/// Share of sugar by weight in 1:1 syrup.
pub const ONE_TO_ONE: f64 = 1.0 / 2.0;
/// Share of sugar by weight in 2:1 syrup.
pub const TWO_TO_ONE: f64 = 2.0 / 3.0;

/// Syrup of one filling, g as honey; kept full (infinite) without an amount.
pub fn filling_g(kind: FeedKind, litres: Option<f64>, jars: Option<f64>) -> f64 {
    let share = if kind == FeedKind::TwoToOne {
        TWO_TO_ONE
    } else {
        ONE_TO_ONE
    };
    let litres = litres.or(jars.map(|jars| jars * LITRES_PER_JAR));
    litres.map_or(f64::INFINITY, |litres| {
        litres * sugar_g_per_litre(share) / SUGAR_IN_HONEY
    })
}
