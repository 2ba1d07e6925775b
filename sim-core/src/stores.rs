//! Sugar and pollen: what comes in, what is eaten, and the room it takes.
//!
//! All sugar is counted as the honey that it could become, in grams.

use crate::adults::Census;
use crate::math::{exp, least, most, unit};

params! {
    /// Sugar and pollen: stores and feed.
    StoresParameters {
        /// Ripe honey in a full cell.
        honey_per_cell_g = 0.42, "g", 0.2..=0.7, Published, "6 to 8 lb on a deep frame: derived";
        /// Pollen in a full cell.
        pollen_per_cell_g = 0.20, "g", 0.1..=0.4, Published, "two thirds full cells (from memory)";
        /// Room that nectar and syrup take while they ripen, against honey.
        unripe_room = 2.0, "-", 1.0..=4.0, Assumed, "water to be driven off";
        /// Part of the unripe sugar that is ripened in a day.
        ripening = 0.30, "1/d", 0.05..=1.0, Assumed, "some days for nectar";
        /// Sugar that a bee's crop holds.
        crop_g = 0.06, "g/bee", 0.0..=0.1, Published, "nectar load to 70 mg";
        /// Sugar in the crop of a package bee.
        package_crop_g = 0.03, "g/bee", 0.0..=0.1, Assumed, "fed in transit";
        /// Nectar that a forager brings in an hour in the air, in a strong flow.
        nectar_load_g = 0.0828, "g/h", 0.005..=0.3, Tuned, "loads of 25 to 40 mg, 10 trips a day: Park 1928";
        /// Pollen that a forager brings in an hour in the air, with plenty about.
        pollen_load_g = 0.128, "g/h", 0.01..=0.4, Tuned, "loads of 14 to 20 mg, trips under 15 min: Park 1928";
        /// Part of the foragers that fetch pollen in any case.
        pollen_foragers = 0.0893, "-", 0.0..=0.6, Tuned, "15 to 30 % usual (from memory)";
        /// Further part when the pollen store is empty.
        pollen_foragers_short = 0.49, "-", 0.0..=0.9, Tuned, "45 % in pollen-poor colonies: Dogterom & Winston 1999";
        /// Largest pollen store.
        pollen_most_g = 1800.0, "g", 100.0..=10000.0, Published, "2 kg at peak brood: McLellan 1978";
        /// Largest share of the drawn cells under pollen.
        pollen_most_share = 0.12, "-", 0.02..=0.5, Assumed, "an arc over the brood";
        /// Syrup that a bee of the colony takes in a day, as honey.
        syrup_per_bee_g = 0.0576, "g/bee/d", 0.005..=0.3, Tuned, "0.071: a quart a day on a 3-pound package";
        /// Part of that which bees take from a feeder over the cluster in the cold.
        syrup_in_cold = 0.15, "-", 0.0..=1.0, Assumed, "a jar over the cluster feeds a package in cold weather: common practice, no source";
        /// Syrup that one feeder can give in a day, as honey.
        feeder_most_g = 2840.0, "g/d", 100.0..=20000.0, Published, "a strong colony empties a gallon in 1 to 2 days";
        /// Part of the syrup drive that goes straight into wax when there are no cells to store in.
        straight_to_wax = 0.345, "-", 0.0..=1.0, Tuned, "a package with no cells takes feed";
        /// Part of a patty's weight that counts as pollen.
        patty_pollen = 0.5, "-", 0.0..=1.0, Assumed, "the rest is sugar";
        /// Patty that a full nurse eats in a day.
        patty_per_nurse_g = 0.008, "g", 0.0..=0.05, Published, "a pound in 7 to 14 days: DeGrandi-Hoffman et al. 2008 (from memory)";
        /// Share of drawn comb that a colony keeps for brood at the most.
        nest_share = 0.60, "-", 0.1..=0.95, Tuned, "a fed colony must not choke";
        /// Days of best laying that the brood nest is meant to hold.
        nest_days = 16.0, "d", 5.0..=21.0, Assumed, "between two rounds of brood";
        /// Sugar drive into the nest when only the queen's cells are free.
        leak = 0.0387, "-", 0.0..=0.5, Tuned, "slow backfill when there is feed and no comb";
        /// Sugar that an idle adult eats.
        adult_g = 0.00314, "g/bee/d", 0.001..=0.02, Tuned, "broodless winter use: Harbo 1983";
        /// Heat that a bee of a cluster of 10,000 makes in frost-free cold.
        heat_g = 0.0036, "g/bee/d", 0.0..=0.02, Tuned, "broodless winter use: Harbo 1983";
        /// Fall of heat per bee with cluster size.
        heat_exponent = -0.479, "-", -1.0..=0.0, Published, "Southwick 1985";
        /// House bee at full care.
        care_g = 0.0020, "g/bee/d", 0.0..=0.02, Tuned, "about 60 kg honey a year: Seeley 2019";
        /// Forager in the air.
        flight_g = 0.0050, "g/h", 0.0..=0.05, Tuned, "about 60 kg honey a year: Seeley 2019";
        /// Open larva.
        larva_g = 0.0125, "g/d", 0.005..=0.05, Published, "59.4 mg sugar a larva: Hrassnigg & Crailsheim 2005";
        /// Warmth of a brood cell when air is 30 degrees colder than the nest.
        brood_heat_g = 0.00549, "g/d", 0.0..=0.02, Tuned, "12.2 mg a bee with brood: Harbo 1993";
        /// Pollen for a young bee that nurses; a tenth when there is no brood.
        young_pollen_g = 0.002, "g/d", 0.0..=0.02, Tuned, "3.4 to 4.3 mg at most: Crailsheim et al. 1992 (from memory)";
        /// Pollen for a larva.
        larva_pollen_g = 0.017, "g/d", 0.005..=0.05, Published, "100 to 145 mg a larva (from memory)";
        /// Larva food of a drone against a worker.
        drone_larva = 1.65, "-", 1.0..=4.0, Published, "98.2 mg sugar: Hrassnigg & Crailsheim 2005 (from memory)";
    }
}

/// What a colony has in store.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Stores {
    /// Ripe honey, g.
    pub honey_g: f64,
    /// Nectar and syrup in crops and in open cells, g as honey.
    pub unripe_g: f64,
    /// Pollen in the comb, g.
    pub pollen_g: f64,
}

impl Stores {
    /// All sugar, g as honey.
    pub fn sugar_g(&self) -> f64 {
        self.honey_g + self.unripe_g
    }

    /// Unripe sugar that is in cells, beyond what the crops of `bees` hold, g as honey.
    pub fn unripe_in_cells_g(&self, bees: f64, p: &StoresParameters) -> f64 {
        most(0.0, self.unripe_g - p.crop_g * bees)
    }

    /// Cells under stores.
    pub fn cells(&self, bees: f64, p: &StoresParameters) -> f64 {
        (self.honey_g + p.unripe_room * self.unripe_in_cells_g(bees, p)) / p.honey_per_cell_g
            + self.pollen_g / p.pollen_per_cell_g
    }

    /// Takes `wanted` grams of sugar, fresh first; returns what there was.
    pub fn eat_sugar(&mut self, wanted: f64) -> f64 {
        let fresh = least(wanted, self.unripe_g);
        self.unripe_g -= fresh;
        let ripe = least(wanted - fresh, self.honey_g);
        self.honey_g -= ripe;
        fresh + ripe
    }

    /// Ripens a part of what is in open cells.
    pub fn ripen(&mut self, bees: f64, p: &StoresParameters) {
        let ripe = p.ripening * self.unripe_in_cells_g(bees, p);
        self.unripe_g -= ripe;
        self.honey_g += ripe;
    }
}

/// How storage stands against the brood nest.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Room {
    /// Drive to store, 0 (none) to 1 (as much as comes).
    pub drive: f64,
    /// Most sugar that can be put away today, in cells and crops, g as honey.
    pub most_g: f64,
    /// Cells with nothing in them.
    pub free_cells: f64,
}

/// Works out the room for sugar.
///
/// `drawn`, `brood` and `store_cells` in cells; `wanted_brood` is the nest that the colony means to have.
pub fn room(
    drawn: f64,
    brood: f64,
    wanted_brood: f64,
    store_cells: f64,
    crop_room_g: f64,
    p: &StoresParameters,
) -> Room {
    // A little behind the brood, so that there is always a ring to lay in; at most a brood and 4,000 cells.
    let reserve = most(
        brood,
        most(0.6 * wanted_brood, least(wanted_brood, brood + 4000.0)),
    );
    let free_cells = most(0.0, drawn - brood - store_cells);
    let drive = unit((drawn - reserve - store_cells) / (0.06 * drawn + 800.0));
    Room {
        drive: most(drive, p.leak * unit(free_cells / 4000.0)),
        most_g: free_cells * p.honey_per_cell_g / p.unripe_room + crop_room_g,
        free_cells,
    }
}

/// The brood nest that the colony means to have, cells.
pub fn wanted_nest(drawn: f64, best_rate: f64, laying_season: f64, p: &StoresParameters) -> f64 {
    least(
        p.nest_share * drawn,
        p.nest_days * best_rate * laying_season + 600.0,
    )
}

/// Sugar that a colony lives on in a day, g as honey; wax comes on top.
///
/// `care` is the care load limited to 1, `brood` all cells with worker and drone brood, `larvae` the open
/// ones with a drone larva counted by its appetite.
pub fn sugar_need_g(
    count: &Census,
    care: f64,
    hours_flown: f64,
    larvae: f64,
    brood: f64,
    mean_c: f64,
    p: &StoresParameters,
) -> f64 {
    let bees = count.adults();
    if bees < 1.0 {
        return 0.0;
    }
    // Least near 10 °C; rises with frost, and falls as the air nears the bees' own warmth.
    let cold = 0.6 + most(0.0, 10.0 - mean_c) / 25.0;
    let mild = most(0.25, unit((22.0 - mean_c) / 12.0));
    let heat = p.heat_g * exp(p.heat_exponent * (count.ln_adults - LN_10_000)) * cold * mild;
    let nest_heat = p.brood_heat_g * brood * most(0.0, 30.0 - mean_c) / 30.0 * unit(bees / 3000.0);
    bees * (p.adult_g + heat)
        + p.care_g * count.house * care
        + p.flight_g * count.foragers * hours_flown
        + p.larva_g * larvae
        + nest_heat
}

/// Natural logarithm of 10,000, the cluster that the heat rule is given for.
const LN_10_000: f64 = 9.210_340_371_976_182;

/// How readily bees take syrup at a day's mean temperature, 0 to 1.
pub fn syrup_uptake(mean_c: f64, p: &StoresParameters) -> f64 {
    most(
        unit((mean_c - 3.0) / 10.0),
        p.syrup_in_cold * unit((mean_c + 5.0) / 5.0),
    )
}

/// Part of the foragers that fetch pollen; a hungry colony (`hunger` 0 to 1) turns to nectar.
pub fn pollen_foragers(store_g: f64, need_g: f64, hunger: f64, p: &StoresParameters) -> f64 {
    let short = most(0.0, 1.0 - store_g / most(8.0 * need_g, 1.0));
    let wanted = least(1.0, p.pollen_foragers + p.pollen_foragers_short * short);
    wanted * (1.0 - 0.8 * hunger)
}
