//! Sugar as the season wants it, and food that does not last until spring.

use super::*;

#[test]
fn sugar_is_given_as_the_season_wants_it() {
    let feed = |rows: &[&str]| {
        let list = Yard::new(&overwintered()).list(&visits(rows), None);
        let feed = |item: &Item| match &item.job {
            Job::Feed {
                found: Some(_),
                way,
                mix,
                ..
            } => Some((*way, mix.kind)),
            _ => None,
        };
        list.items.iter().find_map(feed).expect("feed")
    };
    assert_eq!(
        feed(&["2013-05-10,9,4,,0.3,yes,,,,"]),
        (Way::Syrup, FeedKind::OneToOne)
    );
    assert_eq!(
        feed(&["2013-08-28,9,3,,0.3,yes,,,,"]),
        (Way::Syrup, FeedKind::TwoToOne)
    );
    let (way, _) = feed(&["2013-12-03,6,0,,1,,,,,"]);
    assert_eq!(way, Way::OnTheBars);
}

#[test]
fn a_colony_whose_food_does_not_last_until_spring_is_told_while_it_can_be_helped() {
    // In October, with so much honey, in the weather of New York.
    let with = |honey_kg: f64| {
        Yard::new(&format!(
            "name = \"In autumn\"
until = 2014-05-31
place = {{ name = \"Quarry Gate\", latitude = 40.78, elevation_m = 40, forage = \"mixed\" }}
weather = {{ record = \"new-york\" }}
start = {{ date = 2013-10-20, established = {{ frames_of_bees = 8, frames_of_brood = 1, honey_kg = {honey_kg}, pollen_kg = 1 }} }}
hive = {{ box = [{{ frames = 10, comb = \"drawn\" }}, {{ frames = 10, comb = \"drawn\" }}] }}
"
        ))
    };
    let on_the_bars = |list: &Agenda| {
        let mut items = list.items.iter();
        let is = |item: &&Item| {
            matches!(
                item.job,
                Job::Feed {
                    way: Way::OnTheBars,
                    ..
                }
            )
        };
        items.find(is).cloned()
    };
    for day in [date(2013, 11, 20), date(2013, 12, 20), date(2014, 1, 20)] {
        let list = with(9.0).list(&[], Some(day));
        let item = on_the_bars(&list).unwrap_or_else(|| panic!("{day}: {:?}", kinds(&list)));
        let Job::Feed {
            mix,
            short_with_it,
            of,
            ..
        } = &item.job
        else {
            unreachable!("just found")
        };
        assert!(item.from.0 == day && item.to.0 >= day, "{item:?}");
        assert!(
            10 * item.sure.count >= *of && 10 * short_with_it <= *of,
            "{item:?}"
        );
        assert!(mix.sugar_kg > 0.5 && mix.sugar_kg < 25.0, "{item:?}");
        for (language, spring) in [
            (Language::English, "before spring"),
            (Language::German, "vor dem Frühling"),
        ] {
            let why = item.told(&list, language.into()).why;
            assert!(why.contains(spring), "{why}");
        }
        // Who has enough is left in peace.
        assert_eq!(on_the_bars(&with(32.0).list(&[], Some(day))), None, "{day}");
    }
    // While syrup is still taken, it is syrup.
    assert_eq!(
        on_the_bars(&with(9.0).list(&[], Some(date(2013, 10, 21)))),
        None
    );
}

#[test]
fn winter_feed_does_not_wait_when_it_is_time() {
    let list = Yard::new(&wet_spring()).list(&visits(&["2012-10-10,7,1,20,5,yes,,,,"]), None);
    let winter = |item: &&Item| {
        matches!(
            item.job,
            Job::Feed {
                for_winter: true,
                ..
            }
        )
    };
    let item = list.items.iter().find(winter).expect("feed for winter");
    assert_eq!(item.from.0, date(2012, 10, 10));
}
