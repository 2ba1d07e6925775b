//! What can be wrong, treatments, and what to beware of, in English.

use crate::treatments::{LABEL, TREATMENTS as TABLE};
use crate::words::shape::{CauseWords, CautionWords};

pub(super) const CAUSES: CauseWords = CauseWords {
    names: [
        "no laying queen",
        "a poor queen",
        "forage or feed that does not reach them",
        "foundation that is hardly taken up",
        "far more mites than was thought",
        "bees lost to a swarm or another hive",
    ],
    tell: [
        "look for eggs and young larvae with the sun behind you, and for the queen herself",
        "look for eggs and for a close, even brood pattern; mark the frames she lays in",
        "look for open nectar beside the brood, and at the level in the feeder",
        "hold a sheet against the light, and see whether they have touched the wax",
        "wash half a cup of bees, about 300, from a brood frame, without the queen",
        "count the frames of bees early in the morning; look for torn-open queen cells",
    ],
    remedy: [
        "If so, look for emergency cells if they were given brood, and leave them the best; if there are none, give a frame with eggs and young larvae from a healthy hive, or a mated queen, or unite the bees with a colony that has one.",
        "First rule out disease: sunken, greasy or perforated cappings, a foul smell, a dead larva that draws a thread on a matchstick. Where you find any of it, close the hive and call the bee inspector: the law wants it. If it is the queen, give a new one while there is time for her brood to grow up, or unite the colony with another.",
        "If so, put the feeder over the cluster, and look that it runs.",
        "If they have not, give drawn comb, or wax the foundation afresh, beside the brood.",
        "If so, treat: weeks lost now are winter bees lost later.",
        "If so, give a frame of capped brood from a strong and healthy hive, and take away boxes that they cannot cover.",
    ],
};

/// The table of treatments is English.
pub(super) const TREATMENTS: [&str; 10] = {
    let mut names = [""; 10];
    let mut row = 0;
    while row < 10 {
        names[row] = TABLE[row].name;
        row += 1;
    }
    names
};

pub(super) const CAUTIONS: CautionWords = CautionWords {
    stings: "Stings can kill people who are allergic. Wear a veil, light the smoker first, and put it out with care.",
    lifting: "Boxes are heavy: a full deep one weighs about as much as a grown person can lift. Get help.",
    robbing: "Spilt syrup draws robbers: feed in the evening, and make the entrance small.",
    washed: "The bees in the jar die: be sure that the queen is not among them. Alcohol burns: keep it away from the smoker.",
    label: LABEL,
    treatments: {
        let mut cautions = [""; 10];
        let mut row = 0;
        while row < 10 {
            cautions[row] = TABLE[row].caution;
            row += 1;
        }
        cautions
    },
};
