//! The ledger: what it says of bottles, that its laws hold, and that nothing that is done to it loses what could be kept.
#![cfg(not(target_arch = "wasm32"))]

#[path = "ledgers/copies.rs"]
mod copies;
#[path = "ledgers/faults.rs"]
mod faults;
#[path = "ledgers/file.rs"]
mod file;
#[path = "ledgers/fixtures.rs"]
mod fixtures;
#[path = "ledgers/generator.rs"]
mod generator;
#[path = "ledgers/kinds.rs"]
mod kinds;
#[path = "ledgers/laws.rs"]
mod laws;
#[path = "ledgers/life.rs"]
mod life;
#[path = "ledgers/migration.rs"]
mod migration;
#[path = "ledgers/order.rs"]
mod order;
#[path = "ledgers/sessions.rs"]
mod sessions;
#[path = "ledgers/shelf.rs"]
mod shelf;
#[path = "ledgers/short.rs"]
mod short;
