//! Before paid work: whatever is taken away of what is known, an answer that was not yet never becomes ready.

use meniscus::calculators::calculate;
use meniscus::entries::{self, Entry};
use meniscus::fields::Named;
use meniscus::kit::{Instrument, Kept, Kit};
use meniscus::quantity::Units;
use proptest::prelude::*;

use super::{darkroom, tries};

/// What may be known, one bit each.
const PIECES: usize = 19;

fn calibrated(kit: &mut Kit, name: &str, kind: &str, capacity: &str, graduation: &str, known: bool) {
    let limits = if known { "calibrated" } else { "standard_b" };
    let mut named = Named::from(
        [
            ("name", name),
            ("kind", kind),
            ("capacity", capacity),
            ("graduation", graduation),
            ("limits", limits),
        ]
        .map(|(field, text)| (field.to_owned(), text.to_owned())),
    );
    if known {
        for (field, text) in [
            ("bias", "0 ml"),
            ("bias_uncertainty", "0.02 ml"),
            ("repeatability", "0.02 ml"),
        ] {
            named.insert(field.to_owned(), text.to_owned());
        }
    }
    let mut item: Instrument = entries::read(&named, Units::default()).expect(Instrument::FORM);
    item.calibrated_on = known.then(|| "2026-01-12".parse().expect("a day"));
    kit.instruments.push(Kept {
        id: name.to_owned(),
        item,
    });
}

/// Whether all is ready with these pieces known, and so much drawn.
fn is_ready(knows: &[bool], drawn: u32, films: u32) -> bool {
    let mut kit = Kit::starter();
    kit.instruments.clear();
    calibrated(&mut kit, "syringe", "syringe", "20 ml", "1 ml", knows[0]);
    calibrated(&mut kit, "cylinder", "cylinder", "1 l", "10 ml", knows[1]);
    let piece = |known: bool, text: &str| if known { text.to_owned() } else { String::new() };
    let bottle = |at: usize, id: &str, class: &str, more: &str, dilution: &str, filled: u32| {
        format!(
            r#"{{"day":"2026-01-05","what":"added","bottle":"{id}","is":{{"product":"{id}","class":"{class}"{}{}{},"container":{{"material":"glass"{}}}}}{},"opened":{{"on":"2000-01-01"}}}}"#,
            piece(knows[at], more),
            piece(knows[at + 1], &format!(r#","dilution":"{dilution}""#)),
            r#","full_days":150"#,
            piece(knows[at + 2], r#","brimful_ul":1100000"#),
            piece(knows[at + 3], &format!(r#","filled_ul":{filled}"#)),
        )
    };
    let test = |id: &str, test: &str| {
        format!(r#"{{"day":"2026-02-20","what":"tested","bottle":"{id}","test":"{test}","result":"passed"}}"#)
    };
    let mut events = vec![
        bottle(2, "dev", "syrup", r#","least_per_film_ul":6000"#, "1+31", 500_000),
        bottle(
            6,
            "fix",
            "fixer",
            r#","films_per_litre_thousandths":50000"#,
            "1+4",
            1_000_000,
        ),
        bottle(10, "stop", "stop", "", "1+19", 1_000_000),
    ];
    for (known, id, kind) in [
        (knows[14], "dev", "clip"),
        (knows[15], "fix", "clearing"),
        (knows[16], "stop", "indicator"),
    ] {
        if known {
            events.push(test(id, kind));
        }
    }
    if knows[5] && drawn > 0 {
        events.push(format!(
            r#"{{"day":"2026-02-22","what":"drawn","bottle":"dev","volume_ul":{}}}"#,
            drawn * 1000
        ));
    }
    let mut named = Named::from(
        [("bottle", "dev"), ("fixer_bottle", "fix"), ("stop_bottle", "stop")]
            .map(|(field, text)| (field.to_owned(), text.to_owned())),
    );
    named.insert("films_135".to_owned(), films.to_string());
    if knows[17] {
        named.insert("thermometer_on".to_owned(), "2026-01-10".to_owned());
    }
    if !knows[18] {
        named.insert("tank".to_owned(), "none".to_owned());
    }
    let answer = calculate("job", &named, &darkroom::with_events(kit, &events)).expect("job");
    assert_eq!(answer.faults, []);
    answer.sheet.figure("ready").expect("an answer").shown == "Ready"
}

proptest! {
    #![proptest_config(tries(60))]

    #[test]
    fn less_knowledge_never_makes_it_ready(
        forgotten in proptest::collection::vec(0..PIECES, 0..3),
        more in proptest::collection::vec(0..PIECES, 0..3),
        drawn in 0..500_u32,
        films in 1..6_u32,
    ) {
        let mut knows = [true; PIECES];
        for at in forgotten { knows[at] = false; }
        let with = is_ready(&knows, drawn, films);
        for at in more { knows[at] = false; }
        prop_assert!(with || !is_ready(&knows, drawn, films), "{:?} {} {}", knows, drawn, films);
    }

    /// More film, or less in the bottle, never makes it ready either.
    #[test]
    fn more_film_or_less_liquid_never_makes_it_ready(drawn in 0..500_u32, films in 1..6_u32, more in 0..100_u32) {
        let knows = [true; PIECES];
        let with = is_ready(&knows, drawn, films);
        prop_assert!(with || !is_ready(&knows, (drawn + more).min(499), films));
        prop_assert!(with || !is_ready(&knows, drawn, films + more % 3));
    }
}

/// The laws would hold of a sheet that is never ready, too: it can be, and every single piece is needed, but for what the label of a
/// stop bath has no use for.
#[test]
fn every_piece_is_needed() {
    assert!(is_ready(&[true; PIECES], 0, 2));
    for at in 0..PIECES {
        let mut knows = [true; PIECES];
        knows[at] = false;
        assert_eq!(is_ready(&knows, 0, 2), at == 10, "without piece {at}");
    }
}
