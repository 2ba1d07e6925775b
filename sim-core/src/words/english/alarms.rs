//! What a visit found that cannot wait, in English.

use crate::words::Counted;
use crate::words::shape::AlarmWords;

pub(super) const ALARMS: AlarmWords = AlarmWords {
    names: [
        "queen cells were found",
        "hardly any stores were found",
        "mites are over the mark",
        "too many mites fall",
        "the colony is lost",
        "plan and hive contradict each other",
    ],
    cells_found: "On {date} {cells} were found.",
    cells_charged: Counted {
        one: "1 charged queen cell",
        many: "{count} charged queen cells",
    },
    cells_capped: Counted {
        one: "1 capped queen cell",
        many: "{count} capped queen cells",
    },
    cells_both: "{capped} and {charged}",
    cells_mean: [
        "With no eggs seen, the old queen has most likely left with a swarm, or is lost: the next queen of this colony is in those cells.",
        "A swarm leaves about when the first cell is capped: she can go on the next fine day, or has gone within the last three, for eggs stay eggs that long. Or she is being replaced.",
        "None is capped yet: within about a week the colony swarms, or it is replacing its queen.",
        "Of eggs and queen nothing was written down: she may be about to leave with a swarm, be gone, or be replaced.",
    ],
    cells_do: [
        "If there are no eggs and no queen, leave one good cell, large and well formed, and do not shake its frame; cut the others, or a second swarm leaves with a young queen. Then keep the hive shut for three weeks, and look for eggs: if there are none by then, give a frame with eggs or a mated queen.",
        "If she is there and they are crowded, split today: take her with two or three frames of brood and their bees to a box of her own, and leave one good cell behind. If neither she nor eggs can be found, leave one good cell, cut the others, and keep the hive shut for three weeks.",
        "If they are crowded, give room and split before the first cell is capped: take the queen with two or three frames of brood and their bees to a box of her own, and leave one good cell behind. If she is being replaced, leave them alone.",
        "If there are eggs and they are crowded, split: take the queen with two or three frames of brood and their bees to a box of her own, and leave one good cell behind. If there are no eggs and no queen, leave one good cell, cut the others, and keep the hive shut for three weeks.",
    ],
    cells_tell: "Before you cut any, look for eggs and for the queen, whether bees are crowded, and where the cells hang. Many along the edges of the combs and the bottom bars of a crowded hive: she swarms. One to three on the face of a comb, no crowding: she is being replaced; leave them to it. Drawn out of worker cells amid the brood, and no eggs: she was lost. To cut all of them does not keep a colony from swarming for long, and leaves one whose queen has gone without any.",
    cells_title: "Queen cells were found: tell today why, and cut none before you know",
    cells_why: "{found} {mean} What was written down counts, though queen cells are there in {colonies} that fit the visits.",
    no_stores: "On {date} no stores were found; a colony of that size eats {aim} in {days} days. It starves: feed today.",
    low_stores: "On {date} only {found} of stores were found; a colony of that size eats {aim} in {days} days. Feed today.",
    feed_now: "What was written down counts; the middle one of the colonies that fit the visits has {middle}.",
    mites: "The wash of {date} found {mites} mites on {bees} bees: {share} on 100, where {act_from} are the mark. Another wash tells no more: it is time to treat.",
    fallen: "The board of {date} caught {mites} mites in {days}: {a_day} a day, where {act_from} a day are the mark. It is time to treat.",
    treat_now: "Treat against mites now",
    no_bees: "On {date} no bees were found.",
    all_lost: "By {date} {lost} of this plan are lost.",
    starved: "{starved} that were lost had starved: what this plan feeds does not last.",
    lost_title: "The colony is lost: close the hive and find out why",
    lost_do: [
        "Close the entrance today: robbers carry mites and disease home.",
        "Look through the combs for the reason: bees head first in empty cells have starved. Where brood looks or smells wrong, no comb goes to another hive before the bee inspector has seen it.",
        "Combs of a hive that was sound can be used again: freeze them for two days, and keep them from wax moth and mice.",
    ],
    lost_why: "{why} Nothing can be done for it any more, so nothing else is on this list.",
    at_odds: "Plan and hive contradict each other: the hive that was seen on {date} lives, where {lost} of 100 colonies of this plan and weather are lost by then.",
    at_odds_title: "Mend the plan: it and the hive contradict each other",
    at_odds_do: "Look in the plan at what the hive was fed and treated with, what comb and stores and how many bees it began with, and when; enter what was really done. Until then the model says nothing of this colony: go by what you see in the hive.",
    at_odds_why: "{why} So this list has only what was found.",
    disease: "While you look at brood: sunken, greasy or perforated cappings, a foul smell, or a dead larva that draws a thread on a matchstick can be foulbrood. Where you find any of it, close the hive, move nothing to another one, and call the bee inspector: the law wants it.",
};
