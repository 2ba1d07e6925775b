//! The English catalogue.

mod agenda;
mod alarms;
mod cautions;
mod events;
mod forms;
mod moves;
mod problems;
mod story;
mod verdict;
mod weather;

use super::Words;

pub(super) static WORDS: Words = Words {
    forms: forms::FORMS,
    brakes: story::BRAKES,
    story: story::STORY,
    twin: story::TWIN,
    window: story::WINDOW,
    agenda: agenda::AGENDA,
    alarms: alarms::ALARMS,
    causes: cautions::CAUSES,
    treatments: cautions::TREATMENTS,
    cautions: cautions::CAUTIONS,
    search: agenda::SEARCH,
    moves: moves::MOVES,
    refusals: moves::REFUSALS,
    events: events::EVENTS,
    without: story::WITHOUT,
    verdict: verdict::VERDICT,
    aside: verdict::ASIDE,
    weather: weather::WEATHER,
    problems: problems::PROBLEMS,
    actions: moves::ACTIONS,
};
