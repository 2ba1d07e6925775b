//! What happened, in German.

use crate::words::shape::EventWords;

pub(super) const EVENTS: EventWords = EventWords {
    start: "{bees} Bienen im Volk",
    queen_out: "die Königin ist aus ihrem Käfig heraus",
    first_eggs: "die ersten Stifte",
    first_capped: "die erste Brut wird verdeckelt",
    first_young: "die ersten jungen Bienen schlüpfen",
    drones_fly: "Drohnen fliegen",
    starving: "das Volk hungert: Es kommt weniger herein, als es braucht, und es hat keinen Vorrat",
    lost: "zu wenige Bienen sind übrig: Das Volk ist verloren",
    box_drawn: "Zarge {box} ist zu acht Zehnteln ausgebaut",
    fewest_bees: "am wenigsten Bienen: {bees}",
    swarm: "ein Schwarm zieht aus, mit der alten Königin und etwa {bees} Bienen",
    after_swarm: "ein Nachschwarm zieht aus, mit einer jungen Königin und etwa {bees} Bienen",
    no_queen: "im Volk ist keine Königin",
    supersedure_cells: "Eier in einer oder wenigen Weiselzellen: Das Volk will still umweiseln",
    emergency_cells: "Nachschaffungszellen werden über jungen Maden angesetzt",
    swarm_cells: "Eier in Weiselzellen: Das Volk bereitet das Schwärmen vor",
    first_cell_capped: "die erste Weiselzelle wird verdeckelt",
    cells_gone: "die Weiselzellen sind weg, und die alte Königin ist noch da",
    young_queen_beside: "eine junge Königin schlüpft neben der alten",
    young_queen: "eine junge Königin schlüpft",
    another_young_queen: "noch eine junge Königin schlüpft",
    young_queen_mated: "die junge Königin ist begattet",
    not_mated_in_time: "die junge Königin wurde nicht rechtzeitig begattet: Sie wird nur Drohnen legen",
    young_queen_lays_old_gone: "die junge Königin ist legereif; die alte ist weg",
    young_queen_lays: "die junge Königin ist legereif",
    young_queen_lost: "die junge Königin kommt von ihrem Flug nicht zurück",
    workers_begin_to_lay: "Arbeiterinnen beginnen zu legen: Aus ihren Eiern werden nur Drohnen",
};
