//! Varroa mites: on bees, in capped cells, and what they do to the colony.
//!
//! Mites enter cells just before these are capped, breed there, and come out with the young bee. Most
//! deaths are those of mothers and daughters at emergence; that is also what a sticky board counts
//! in summer. In cells the mites are kept with the brood itself ([`Brood::mothers`](crate::brood::Brood)),
//! so that a frame that is taken out takes exactly what is in it.

use crate::brood::Emergence;
use crate::draw::Draw;
use crate::forage::Conditions;
use crate::math::{exp, least, most, ramp, unit};
use crate::rng::Topic;

params! {
    /// Mites and the damage that they do.
    MitesParameters {
        /// Hazard of entering worker cells, for each cell capped in a day and gram of bees.
        into_worker = 0.56, "g/cell", 0.0..=5.0, Published, "Boot et al. 1994, 1995 (from memory; the ratio was seen)";
        /// Hazard of entering drone cells, for each cell capped in a day and gram of bees.
        into_drone = 6.49, "g/cell", 0.0..=50.0, Published, "Boot et al. 1995 (from memory; 462 cells for 95 % was seen)";
        /// Weight of an adult bee.
        bee_g = 0.12, "g", 0.08..=0.2, Published, "8,000 to 9,000 bees in a kilogram (from memory)";
        /// Mature daughters of a mother from a worker cell, in summer.
        daughters_worker = 1.05, "mites", 0.0..=2.0, Published, "1.0: Martin 2001; 0.96 and 1.07 in two other studies";
        /// Mature daughters of a mother from a drone cell.
        daughters_drone = 2.4, "mites", 0.0..=4.0, Published, "2.2 to 2.6: Rosenkranz et al. 2010 (from memory)";
        /// Part of the daughters that mature in the cold season, against summer.
        winter_daughters = 0.5, "-", 0.0..=1.0, Published, "0.5 against 1.0: Martin 2001";
        /// Fall of daughters with crowding, for each mother in a cell beyond 0.3.
        crowding = 0.35, "1/mite", 0.0..=2.0, Assumed, "direction: Donze et al. 1996";
        /// Mites from worker cells that live on after the bee has emerged.
        survive_worker = 0.6, "-", 0.1..=1.0, Tuned, "two to three cycles for each mite: Martin & Kemp 1997; growth of 0.02 a day";
        /// Mites from drone cells that live on after the drone has emerged.
        survive_drone = 0.85, "-", 0.1..=1.0, Assumed, "fall is two to three times higher from worker cells: Lobb & Martin 1997";
        /// Daily death of mites on bees beyond those that die with their bee.
        death_on_bees = 0.0007, "1/d", 0.0..=0.05, Tuned, "39.8 % lost in a winter: Korpela et al. 1992";
        /// Mites that come in from other hives in a day at the height of autumn, few hives around.
        immigration_few = 1.5, "1/d", 0.0..=20.0, Published, "0.7 to 2.4: Frey & Rosenkranz 2014, low density";
        /// The same with many hives around.
        immigration_many = 6.8, "1/d", 0.0..=100.0, Published, "2.5 to 11.2: Frey & Rosenkranz 2014, high density";
        /// Rise of the virus load for each mite on a bee.
        virus_spread = 0.5, "1/d", 0.0..=5.0, Assumed, "form: susceptible and infected with a vector; pinned by the fatal second winter";
        /// Daily loss of virus load.
        virus_loss = 0.05, "1/d", 0.0..=1.0, Assumed, "young bees replace infected ones";
        /// Infested pupae that emerge damaged.
        damage_infested = 0.8, "-", 0.0..=1.0, Assumed, "0.89 get the virus: Martin 2001 (from memory)";
        /// Other pupae that emerge damaged at full virus load.
        damage_virus = 1.0, "-", 0.0..=1.0, Assumed, "nurses pass the virus on";
        /// Infested pupae that die at full virus load.
        pupal_death = 0.2, "-", 0.0..=1.0, Published, "Martin 2001 (from memory)";
        /// Ageing of a damaged bee against a sound one.
        damaged_pace = 1.6, "-", 1.0..=5.0, Published, "18 d instead of 28 d: Schneider & Drescher 1987 (from memory)";
        /// Slowest ageing of a damaged bee: she has no winter physiology.
        damaged_idle = 0.45, "d/d", 0.0..=1.0, Assumed, "no winter physiology: Amdam et al. 2004";
        /// Daily death risk of adults at full virus load.
        virus_death = 0.1, "1/d", 0.0..=0.5, Tuned, "hardly a loss under 3 mites on 100 bees in October: Genersch et al. 2010; Liebig 2001 (from memory)";
    }
}

/// The mites of a colony outside of cells, and the virus that they spread.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Mites {
    /// Mites on adult bees.
    pub on_bees: f64,
    /// Virus load of the colony, 0 (none that harms) to 1.
    pub virus: f64,
}

/// How many hives stand in flying distance: where mites come from in autumn.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "lowercase")]
pub enum Neighbours {
    /// None: nothing comes in.
    #[default]
    None,
    /// A few hives.
    Few,
    /// Many hives.
    Many,
}

/// Hazard of a mite on bees to enter a cell today, into worker and into drone cells, 1/d.
///
/// `capped` in cells capped today, `bees_g` the weight of all adult bees.
///
/// ```
/// use combcast_core::mites::{MitesParameters, hazard};
/// // 462 drone cells trap 95 % of the mites on a kilogram of bees (Boot et al. 1995).
/// let (worker, drone) = hazard(0.0, 462.0, 1000.0, &MitesParameters::default());
/// assert!((1.0 - (-worker - drone).exp() - 0.95).abs() < 0.005);
/// ```
pub fn hazard(
    worker_capped: f64,
    drone_capped: f64,
    bees_g: f64,
    p: &MitesParameters,
) -> (f64, f64) {
    let bees_g = most(bees_g, 1.0);
    (
        p.into_worker * worker_capped / bees_g,
        p.into_drone * drone_capped / bees_g,
    )
}

/// Part of the daughters that mature, 0 to 1: fewer in the cold season, fewer in crowded cells.
pub fn maturing(mothers_in_a_cell: f64, ten_days_c: f64, p: &MitesParameters) -> f64 {
    let season = p.winter_daughters + (1.0 - p.winter_daughters) * ramp(ten_days_c, 3.0, 13.0);
    season / (1.0 + p.crowding * most(0.0, mothers_in_a_cell - 0.3))
}

/// What happens to mites on a day.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct MiteFlows {
    /// Mites that came out of cells alive, mothers and daughters.
    pub came_out: f64,
    /// Daughters that matured.
    pub born: f64,
    /// Mites that died in the cell or just after.
    pub died_at_emergence: f64,
    /// Mites that died on bees.
    pub died_on_bees: f64,
    /// Mites that came in from other hives.
    pub came_in: f64,
    /// Mites that left with a swarm.
    pub left: f64,
}

impl MiteFlows {
    /// Mites that a sticky board under the hive would catch today.
    pub fn fall(&self) -> f64 {
        self.died_at_emergence + self.died_on_bees
    }
}

/// Mites come out of cells with the young bees that emerged today.
pub fn come_out<D: Draw>(
    emerged: &Emergence,
    drone: bool,
    today: &Conditions,
    draw: &mut D,
    p: &MitesParameters,
) -> MiteFlows {
    let mothers = emerged.mothers;
    if mothers <= 0.0 {
        return MiteFlows::default();
    }
    // The last cells of a season can be less than one on average: guard the load.
    let load = mothers / most(emerged.cells, 1.0);
    let (daughters, survive) = if drone {
        (p.daughters_drone, p.survive_drone)
    } else {
        (p.daughters_worker, p.survive_worker)
    };
    let born = draw.events(
        Topic::Mites,
        mothers * daughters * maturing(load, today.ten_days_c, p),
    );
    let died = draw.how_many(Topic::Mites, mothers + born, 1.0 - survive);
    MiteFlows {
        came_out: mothers + born - died,
        born,
        died_at_emergence: died,
        ..MiteFlows::default()
    }
}

/// Mites that come in from other hives on a day like this: none while days lengthen, most in late
/// summer and autumn flight weather.
pub fn immigration(neighbours: Neighbours, today: &Conditions, p: &MitesParameters) -> f64 {
    let most_a_day = match neighbours {
        Neighbours::None => return 0.0,
        Neighbours::Few => p.immigration_few,
        Neighbours::Many => p.immigration_many,
    };
    if today.day_length_change_h >= 0.0 {
        return 0.0;
    }
    most_a_day * unit(1.0 - today.laying_season / 0.6) * unit(today.flight_hours / 3.0)
}

/// Share of the cells that emerge today with at least one mother, where mothers are spread by chance.
pub fn infested(emerged: &Emergence) -> f64 {
    if emerged.mothers <= 0.0 {
        return 0.0;
    }
    1.0 - exp(-emerged.mothers / most(emerged.cells, 1.0))
}

/// Share of the cells that emerge today in which the pupa has died of mites and virus, `infested` of them
/// with a mite.
pub fn pupal_death(infested: f64, virus: f64, p: &MitesParameters) -> f64 {
    infested * p.pupal_death * (0.3 + 0.7 * virus)
}

/// Share of young bees that emerge damaged, short-lived and without winter physiology, `infested` of them
/// with a mite; the virus that nurses pass on rises with the square of the load.
pub fn damaged(infested: f64, virus: f64, p: &MitesParameters) -> f64 {
    p.damage_infested * infested + p.damage_virus * virus * virus * (1.0 - infested)
}

impl Mites {
    /// The virus load moves with the mites on bees.
    pub fn spread_virus(&mut self, adults: f64, p: &MitesParameters) {
        let mites_per_bee = self.on_bees / most(adults, 1.0);
        let rise = p.virus_spread * mites_per_bee * (1.0 - self.virus);
        self.virus = unit(self.virus + least(rise, 1.0 - self.virus) - p.virus_loss * self.virus);
    }

    /// Daily death risk of adults by the virus: next to none at low loads, steep at high ones, as losses over winter are.
    pub fn death_of_bees(&self, p: &MitesParameters) -> f64 {
        let steep = self.virus * self.virus;
        p.virus_death * steep * steep
    }
}
