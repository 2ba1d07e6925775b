//! What happened, in English.

use crate::words::shape::EventWords;

pub(super) const EVENTS: EventWords = EventWords {
    start: "{bees} bees in the hive",
    queen_out: "the queen is out of her cage",
    first_eggs: "first eggs",
    first_capped: "first brood is capped",
    first_young: "first young bees emerge",
    drones_fly: "drones are flying",
    starving: "the colony is starving: less comes in than it needs, and nothing is in store",
    lost: "too few bees are left: the colony is lost",
    box_drawn: "eight tenths of box {box} are drawn",
    fewest_bees: "fewest bees: {bees}",
    swarm: "a swarm leaves with the old queen and about {bees} bees",
    after_swarm: "an after-swarm leaves with a young queen and about {bees} bees",
    no_queen: "there is no queen in the hive",
    supersedure_cells: "eggs in one to a few queen cells: the colony means to replace its queen",
    emergency_cells: "emergency queen cells are begun over young larvae",
    swarm_cells: "eggs in queen cells: the colony prepares to swarm",
    first_cell_capped: "the first queen cell is capped",
    cells_gone: "the queen cells are gone, and the old queen is still there",
    young_queen_beside: "a young queen emerges beside the old one",
    young_queen: "a young queen emerges",
    another_young_queen: "another young queen emerges",
    young_queen_mated: "the young queen has mated",
    not_mated_in_time: "the young queen has not mated in time: she will lay only drones",
    young_queen_lays_old_gone: "the young queen is ready to lay; the old one is gone",
    young_queen_lays: "the young queen is ready to lay",
    young_queen_lost: "the young queen does not come back from her flight",
    workers_begin_to_lay: "workers begin to lay: only drones come of their eggs",
};
