//! A shelf with a year and more behind it: a syrup that outlived its stated life and was proved, a bath mixed from it and thrown
//! away, a fixer of which some was thrown away, a stop bath without a price; a syrup in a cellar of which some stands decanted
//! and whose bath was tested; a stock of which hardly anything is known, and a bottle that is empty.

use meniscus::darkroom::Darkroom;
use meniscus::kit::Kit;

use super::darkroom;

/// What happened, in order.
const EVENTS: &[&str] = &[
    r#"{"day":"2024-11-01","what":"place_noted","place":"cellar","climate":{"seasonal":{"low_mc":9000,"high_mc":19000,"warmest_day":205}},"light":"dark"}"#,
    r#"{"day":"2024-11-01","what":"added","bottle":"pale-1","is":{"product":"Pale Syrup","class":"syrup","container":{"nominal_ul":500000,"material":"pet","colour":"amber"},"full_days":365},"filled_ul":500000,"opened":"never"}"#,
    r#"{"day":"2024-11-01","what":"moved","bottle":"pale-1","place":"cellar"}"#,
    r#"{"day":"2025-01-15","what":"drawn","bottle":"pale-1","volume_ul":18750}"#,
    r#"{"day":"2025-02-01","what":"place_noted","place":"cupboard","climate":{"steady":{"mc":20000}}}"#,
    r#"{"day":"2025-02-01","what":"added","bottle":"blue-1","is":{"product":"Blue Syrup","class":"syrup","dilution":"1+31","container":{"brimful_ul":520000,"nominal_ul":500000,"material":"glass"},"price_cents":2000,"currency":"EUR","unopened_days":730,"full_days":180,"half_full_days":180},"filled_ul":500000,"opened":"never"}"#,
    r#"{"day":"2025-02-01","what":"moved","bottle":"blue-1","place":"cupboard"}"#,
    r#"{"day":"2025-03-01","what":"drawn","bottle":"blue-1","volume_ul":20000}"#,
    r#"{"day":"2025-03-01","what":"films_through","bottle":"blue-1","units_thousandths":2000}"#,
    r#"{"day":"2025-04-01","what":"drawn","bottle":"blue-1","volume_ul":20000}"#,
    r#"{"day":"2025-04-01","what":"films_through","bottle":"blue-1","units_thousandths":2000}"#,
    r#"{"day":"2025-04-01","what":"added","bottle":"grey-1","is":{"product":"Grey Fixer","class":"fixer","dilution":"1+31","container":{"brimful_ul":1040000,"nominal_ul":1000000,"material":"glass"},"price_cents":1500,"currency":"EUR","unopened_days":730,"full_days":730,"half_full_days":730},"filled_ul":1000000,"opened":{"on":"2025-04-01"}}"#,
    r#"{"day":"2025-04-02","what":"drawn","bottle":"grey-1","volume_ul":200000}"#,
    r#"{"day":"2025-04-02","what":"films_through","bottle":"grey-1","units_thousandths":4000}"#,
    r#"{"day":"2025-04-02","what":"drawn","bottle":"pale-1","volume_ul":37500}"#,
    r#"{"day":"2025-05-01","what":"drawn","bottle":"blue-1","volume_ul":20000}"#,
    r#"{"day":"2025-05-01","what":"films_through","bottle":"blue-1","units_thousandths":2000}"#,
    r#"{"day":"2025-05-02","what":"drawn","bottle":"grey-1","volume_ul":200000}"#,
    r#"{"day":"2025-05-02","what":"films_through","bottle":"grey-1","units_thousandths":4000}"#,
    r#"{"day":"2025-06-01","what":"drawn","bottle":"blue-1","volume_ul":20000}"#,
    r#"{"day":"2025-06-01","what":"films_through","bottle":"blue-1","units_thousandths":2000}"#,
    r#"{"day":"2025-06-01","what":"added","bottle":"sour-1","is":{"product":"Sour Stop","class":"stop","dilution":"1+31","container":{"brimful_ul":1040000,"nominal_ul":1000000,"material":"glass"},"unopened_days":730,"full_days":3650,"half_full_days":3650},"filled_ul":1000000,"opened":"some_day"}"#,
    r#"{"day":"2025-06-01","what":"drawn","bottle":"sour-1","volume_ul":50000}"#,
    r#"{"day":"2025-06-02","what":"drawn","bottle":"grey-1","volume_ul":200000}"#,
    r#"{"day":"2025-06-02","what":"films_through","bottle":"grey-1","units_thousandths":4000}"#,
    r#"{"day":"2025-07-01","what":"drawn","bottle":"blue-1","volume_ul":20000}"#,
    r#"{"day":"2025-07-01","what":"films_through","bottle":"blue-1","units_thousandths":2000}"#,
    r#"{"day":"2025-08-01","what":"drawn","bottle":"blue-1","volume_ul":20000}"#,
    r#"{"day":"2025-08-01","what":"films_through","bottle":"blue-1","units_thousandths":2000}"#,
    r#"{"day":"2025-08-20","what":"drawn","bottle":"pale-1","volume_ul":18750}"#,
    r#"{"day":"2025-08-20","what":"tested","bottle":"pale-1","test":"clip","result":"passed","note":"black leader"}"#,
    r#"{"day":"2025-09-01","what":"drawn","bottle":"blue-1","volume_ul":20000}"#,
    r#"{"day":"2025-09-01","what":"films_through","bottle":"blue-1","units_thousandths":2000}"#,
    r#"{"day":"2025-10-01","what":"drawn","bottle":"blue-1","volume_ul":20000}"#,
    r#"{"day":"2025-10-01","what":"films_through","bottle":"blue-1","units_thousandths":2000}"#,
    r#"{"day":"2025-10-15","what":"tested","bottle":"blue-1","test":"clip","result":"passed"}"#,
    r#"{"day":"2025-11-01","what":"drawn","bottle":"blue-1","volume_ul":20000}"#,
    r#"{"day":"2025-11-01","what":"films_through","bottle":"blue-1","units_thousandths":2000}"#,
    r#"{"day":"2025-11-01","what":"added","bottle":"dim-1","is":{"product":"Dim Stock","class":"powder"},"opened":"not_known"}"#,
    r#"{"day":"2025-12-01","what":"drawn","bottle":"blue-1","volume_ul":20000}"#,
    r#"{"day":"2025-12-01","what":"films_through","bottle":"blue-1","units_thousandths":2000}"#,
    r#"{"day":"2025-12-01","what":"discarded","bottle":"grey-1","reason":"clears slowly"}"#,
    r#"{"day":"2025-12-05","what":"drawn","bottle":"pale-1","volume_ul":18750}"#,
    r#"{"day":"2025-12-20","what":"added","bottle":"plain-1","is":{"product":"Plain Stock","class":"powder","container":{"brimful_ul":1060000,"material":"hdpe"},"full_days":180,"half_full_days":60},"filled_ul":1000000,"opened":{"on":"2025-12-20"}}"#,
    r#"{"day":"2025-12-21","what":"tested","bottle":"plain-1","test":"clip","result":{"strength":{"thousandths":850}}}"#,
    r#"{"day":"2025-12-22","what":"decanted","from":"plain-1","into":[{"bottle":"plain-2","container":{"brimful_ul":500000,"material":"glass"},"volume_ul":500000}]}"#,
    r#"{"day":"2026-01-01","what":"drawn","bottle":"blue-1","volume_ul":20000}"#,
    r#"{"day":"2026-01-01","what":"films_through","bottle":"blue-1","units_thousandths":2000}"#,
    r#"{"day":"2026-01-05","what":"drawn","bottle":"plain-1","volume_ul":500000}"#,
    r#"{"day":"2026-01-06","what":"tested","bottle":"plain-2","test":"residual_thiosulfate","result":"passed"}"#,
    r#"{"day":"2026-01-10","what":"mixed","from":[{"bottle":"blue-1","volume_ul":20000}],"water_ul":620000,"into":{"kept":{"bottle":"bath-1","is":{"product":"Blue bath","class":"working","dilution":"1+31","container":{"brimful_ul":665600,"nominal_ul":640000,"material":"glass"},"unopened_days":730,"full_days":7,"half_full_days":7}}}}"#,
    r#"{"day":"2026-01-20","what":"discarded","bottle":"bath-1","reason":"brown"}"#,
    r#"{"day":"2026-01-25","what":"moved","bottle":"plain-2","place":"cellar"}"#,
    r#"{"day":"2026-02-01","what":"drawn","bottle":"blue-1","volume_ul":20000}"#,
    r#"{"day":"2026-02-01","what":"films_through","bottle":"blue-1","units_thousandths":2000}"#,
];

/// A darkroom with that shelf.
pub fn darkroom() -> Darkroom {
    let events: Vec<String> = EVENTS.iter().map(|event| (*event).to_owned()).collect();
    darkroom::with_events(Kit::starter(), &events)
}
