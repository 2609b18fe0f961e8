//! Events that come at odd times, twice, from nowhere, or are taken back.

use meniscus::chemistry::Class;
use meniscus::kit::Material;
use meniscus::ledger::{Bath, Counts, Event, Opened, Portion, Shelf, What};
use meniscus::quantity::Units;

use crate::generator::{bottle, day, description, event, ml};
use crate::short::{FIRST, added, daily, decanted, discarded, drawn, filled, fold, left, noted, problems, undo};

#[test]
fn a_clock_set_back_loses_nothing() {
    let mut events = daily(vec![added("a", Some(100.0)), drawn("a", 10.0)]);
    // The draw is dated two days before the bottle came, and so is a decanting and a draw from what was decanted.
    events[1] = event(1, day("2026-02-27"), 0, drawn("a", 10.0));
    events.push(event(2, day("2026-02-26"), 0, decanted("a", vec![filled("b", 40.0)])));
    events.push(event(3, day("2026-02-25"), 0, drawn("b", 5.0)));
    let shelf = Shelf::fold(events, day("2026-03-08"));
    assert_eq!((left(&shelf, "a"), left(&shelf, "b")), (Some(50_000), Some(35_000)));
    problems(
        &shelf,
        &[
            "2026-02-25 This is dated before its bottle came on 2026-02-26, as happens when a clock is set back; it counts as \
             done right after.",
            "2026-02-26 This is dated before its bottle came on 2026-03-01, as happens when a clock is set back; it counts as \
             done right after.",
            "2026-02-27 This is dated before its bottle came on 2026-03-01, as happens when a clock is set back; it counts as \
             done right after.",
        ],
    );
    // A life goes forward whatever the clock did, and ends today.
    let a = &shelf.bottles[0];
    assert_eq!(
        a.life.iter().map(|s| (s.from, s.to)).collect::<Vec<_>>(),
        [(day(FIRST), day("2026-03-08"))]
    );
    assert_eq!(a.draws[0].day, day("2026-02-27"));
}

#[test]
fn events_of_one_moment_follow_their_names() {
    let what = [added("a", Some(100.0)), drawn("a", 60.0), discarded("a")];
    let events: Vec<_> = (0..).zip(what).map(|(n, what)| event(n, day(FIRST), 0, what)).collect();
    for order in [[0, 1, 2], [2, 1, 0], [1, 2, 0]] {
        let events = order.map(|at| events[at].clone()).to_vec();
        let shelf = Shelf::fold(events, day(FIRST));
        assert_eq!(shelf.bottles[0].account.discarded, ml(40.0));
        problems(&shelf, &[]);
    }
}

#[test]
fn a_day_stays_as_the_user_saw_it() {
    // Written far in the east on the second, and eight hours later far in the west, where it is still the first.
    let events = vec![
        event(0, day("2026-03-02"), 0, added("a", Some(100.0))),
        event(1, day("2026-03-01"), 24 * 3_600_000 + 8 * 3_600_000, drawn("a", 10.0)),
    ];
    let shelf = Shelf::fold(events, day("2026-03-01"));
    assert_eq!(left(&shelf, "a"), Some(90_000));
    assert_eq!(shelf.bottles[0].draws[0].day, day("2026-03-01"));
    assert_eq!(
        shelf.life_record("a", Units::default())[1].to_string(),
        "2026-03-01 drew 10 ml; 90 ml left"
    );
    assert_eq!(shelf.bottles[0].life, []);
    problems(&shelf, &[]);
}

#[test]
fn a_clock_far_ahead_is_told() {
    let shelf = Shelf::fold(daily(vec![added("a", Some(100.0)), noted("a"), noted("a")]), day(FIRST));
    problems(&shelf, &["2026-03-03 This is dated after today; was the clock ahead?"]);
}

#[test]
fn strangers_are_told() {
    let shelf = fold(vec![
        added("a", Some(100.0)),
        drawn("b", 10.0),
        noted("c"),
        added("a", Some(5.0)),
    ]);
    assert_eq!(shelf.bottles.len(), 1);
    problems(
        &shelf,
        &[
            "2026-03-02 The bottle of this event is not here; import the file of the device that it was written on.",
            "2026-03-03 The bottle of this event is not here; import the file of the device that it was written on.",
            "2026-03-04 A bottle of this name came on 2026-03-01 already, so this does not count.",
        ],
    );
    assert_eq!(shelf.problems[0].bottle, Some(bottle("b")));
    assert_eq!(shelf.events.len(), 4);
}

#[test]
fn what_is_mixed_with_a_stranger_still_counts() {
    let portion = |name: &str| Portion {
        bottle: bottle(name),
        volume: ml(10.0),
    };
    let mixed = What::Mixed {
        from: vec![portion("b"), portion("a")],
        water: ml(80.0),
        dilution: None,
        into: Bath::Kept {
            bottle: bottle("bath"),
            is: Box::new(description("Bath", Class::WorkingDeveloper, None, Material::Glass)),
        },
    };
    let shelf = fold(vec![added("a", Some(100.0)), mixed]);
    assert_eq!((left(&shelf, "a"), left(&shelf, "bath")), (Some(90_000), Some(100_000)));
    assert_eq!(shelf.problems.len(), 1);
    let from = &shelf.bottle("bath").expect("the bath is there").from;
    assert_eq!(
        from.iter().map(|source| source.bottle.as_str()).collect::<Vec<_>>(),
        ["b", "a"]
    );
}

#[test]
fn nothing_happens_to_a_bottle_that_is_gone() {
    let shelf = fold(vec![
        added("a", Some(100.0)),
        discarded("a"),
        drawn("a", 10.0),
        noted("a"),
        decanted("a", vec![filled("b", 20.0)]),
    ]);
    let a = &shelf.bottles[0];
    assert_eq!((a.account.discarded, a.account.drawn), (ml(100.0), ml(0.0)));
    assert_eq!(a.life.last().map(|last| last.to), Some(day("2026-03-02")));
    assert_eq!(a.entries[2].counts, Counts::No);
    assert_eq!(
        shelf.life_record("a", Units::default())[2].to_string(),
        "2026-03-03 drew 10 ml (does not count)"
    );
    // What was decanted is a bottle all the same.
    assert_eq!(left(&shelf, "b"), Some(20_000));
    problems(
        &shelf,
        &[
            "2026-03-03 The bottle was discarded on 2026-03-02; this comes after, and changes nothing in it.",
            "2026-03-05 The bottle was discarded on 2026-03-02; this comes after, and changes nothing in it.",
        ],
    );
    assert_eq!(shelf.standing().count(), 1);
    assert_eq!(shelf.labels().len(), 1);
}

#[test]
fn undo_takes_back_and_undoing_that_restores() {
    let mut events = daily(vec![added("a", Some(100.0)), drawn("a", 10.0)]);
    let today = day(FIRST) + 10;
    let mut undone = Vec::new();
    for n in 2..6 {
        let last = events.last().expect("an event").clone();
        events.push(event(n, day(FIRST) + n as i32, 0, undo(&last)));
        undone.push(left(&Shelf::fold(events.clone(), today), "a"));
    }
    assert_eq!(undone, [Some(100_000), Some(90_000), Some(100_000), Some(90_000)]);
    let shelf = Shelf::fold(events, today);
    let record: Vec<_> = shelf
        .life_record("a", Units::default())
        .iter()
        .map(ToString::to_string)
        .collect();
    assert_eq!(
        record[1..],
        [
            "2026-03-02 drew 10 ml; 90 ml left",
            "2026-03-03 took back: drew 10 ml (2026-03-02) (taken back)",
            "2026-03-04 counts again: drew 10 ml (2026-03-02)",
            "2026-03-05 took back: drew 10 ml (2026-03-02) (taken back)",
            "2026-03-06 counts again: drew 10 ml (2026-03-02)",
        ]
    );
    problems(&shelf, &[]);
}

#[test]
fn undone_in_two_tabs_is_undone_until_both_are_restored() {
    let mut events = daily(vec![added("a", Some(100.0)), drawn("a", 10.0)]);
    let draw = events[1].clone();
    events.push(event(2, day("2026-03-03"), 0, undo(&draw)));
    events.push(event(3, day("2026-03-03"), 0, undo(&draw)));
    let today = day(FIRST) + 10;
    assert_eq!(left(&Shelf::fold(events.clone(), today), "a"), Some(100_000));
    let restore = |n: usize| event(n as u128 + 2, day("2026-03-04"), 0, undo(&events[n]));
    let (one, both) = (restore(2), restore(3));
    events.push(one);
    assert_eq!(left(&Shelf::fold(events.clone(), today), "a"), Some(100_000));
    events.push(both);
    assert_eq!(left(&Shelf::fold(events, today), "a"), Some(90_000));
}

#[test]
fn undo_does_not_hang_on_the_clock() {
    let mut events = daily(vec![added("a", Some(100.0)), drawn("a", 10.0)]);
    let draw = events[1].clone();
    events.push(event(2, day("2020-01-01"), 0, undo(&draw)));
    let shelf = Shelf::fold(events, day(FIRST) + 10);
    assert_eq!(left(&shelf, "a"), Some(100_000));
    problems(&shelf, &[]);
}

#[test]
fn corrections_in_a_circle_have_no_effect() {
    let mut events = daily(vec![added("a", Some(100.0)), noted("a"), noted("a"), noted("a")]);
    let [one, two] = [events[1].clone(), events[2].clone()];
    events[1].what = undo(&two);
    events[2].what = undo(&one);
    let third = events[3].clone();
    events[3].what = undo(&third);
    events.push(event(
        9,
        day("2026-03-09"),
        0,
        What::Corrected {
            event: event(77, day(FIRST), 0, noted("a")).id,
        },
    ));
    let shelf = Shelf::fold(events, day(FIRST) + 10);
    assert_eq!(left(&shelf, "a"), Some(100_000));
    problems(
        &shelf,
        &[
            "2026-03-02 This takes back an event that takes back this one; neither does.",
            "2026-03-03 This takes back an event that takes back this one; neither does.",
            "2026-03-04 This takes back an event that takes back this one; neither does.",
            "2026-03-09 The event that this takes back is not here.",
        ],
    );
}

#[test]
fn a_bottle_whose_coming_is_taken_back_can_come_again() {
    let mut events = daily(vec![added("a", Some(100.0)), drawn("a", 10.0)]);
    let coming = events[0].clone();
    events.push(event(2, day("2026-03-03"), 0, undo(&coming)));
    let today = day(FIRST) + 10;
    let shelf = Shelf::fold(events.clone(), today);
    assert_eq!(shelf.bottles, []);
    problems(
        &shelf,
        &["2026-03-02 The coming of this bottle was taken back, so this does not count."],
    );
    let mut again = added("a", Some(250.0));
    if let What::Added { opened, .. } = &mut again {
        *opened = Opened::On(day("2025-11-11"));
    }
    events.push(event(3, day("2026-02-20"), 0, again));
    let shelf = Shelf::fold(events, today);
    assert_eq!(left(&shelf, "a"), Some(240_000));
    assert_eq!(shelf.bottles[0].opened, Opened::On(day("2025-11-11")));
    problems(&shelf, &[]);
}

#[test]
fn twice_the_same_is_once() {
    let mut events = daily(vec![added("a", Some(100.0)), drawn("a", 10.0)]);
    events.extend(events.clone());
    let shelf = Shelf::fold(events, day(FIRST) + 10);
    assert_eq!(shelf.events.len(), 2);
    assert_eq!(left(&shelf, "a"), Some(90_000));
    problems(&shelf, &[]);
}

#[test]
fn two_records_of_one_event_count_once_and_the_same_everywhere() {
    let events = daily(vec![added("a", Some(100.0)), drawn("a", 10.0)]);
    let mut other = events[1].clone();
    other.what = drawn("a", 20.0);
    // The other one is even of another day.
    other.at = event(1, day("2026-03-09"), 0, noted("a")).at;
    // The one whose text is first in the alphabet counts.
    let name = other.id;
    let first = [&events[1], &other].map(Event::to_text).into_iter().min();
    let one_way = [events.clone(), vec![other.clone()]].concat();
    let other_way = [vec![other], events].concat();
    let shelf = Shelf::fold(one_way, day(FIRST) + 10);
    assert_eq!(shelf, Shelf::fold(other_way, day(FIRST) + 10));
    assert_eq!(shelf.events.len(), 2);
    assert_eq!(shelf.event(name).map(Event::to_text), first);
    problems(
        &shelf,
        &[
            "2026-03-02 There are two different records of this event; both are kept, and every device counts the same one.",
        ],
    );
}

/// Nothing recurs on the stack, however long the chain.
#[test]
fn long_chains_hold() {
    let n: usize = 20_000;
    let name = |at: usize| format!("bottle {at}");
    // Every bottle is decanted into the next, and every decanting is dated before the one that brings its bottle.
    let mut events: Vec<Event> = (0..n)
        .map(|at| {
            let into = vec![filled(&name(at + 1), 1.0)];
            event(
                at as u128,
                day("2026-01-01"),
                (n - at) as i64,
                decanted(&name(at), into),
            )
        })
        .collect();
    events.push(event(n as u128, day(FIRST), 0, added(&name(0), Some(1.0))));
    // And every undo undoes the one before.
    for at in n..2 * n {
        let last = events[at].clone();
        events.push(event(at as u128 + 1, day(FIRST), at as i64, undo(&last)));
    }
    let shelf = Shelf::fold(events, day("2026-03-02"));
    assert_eq!(shelf.bottles.len(), n + 1);
    assert_eq!(left(&shelf, &name(n)), Some(1000));
    let back = std::iter::successors(shelf.bottle(&name(n)), |bottle| shelf.decanted_from(bottle));
    assert_eq!(back.count(), n + 1);
    assert_eq!(shelf.problems.len(), n);
}

#[test]
fn bottles_that_come_from_each_other_never_come() {
    let shelf = fold(vec![
        decanted("a", vec![filled("b", 1.0)]),
        decanted("b", vec![filled("a", 1.0)]),
        drawn("a", 1.0),
    ]);
    assert_eq!(shelf.bottles, []);
    assert_eq!(shelf.problems.len(), 3);
}
