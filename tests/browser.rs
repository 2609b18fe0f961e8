//! The built page in real Chromium: what `make build` left in `dist/`, served by a host in this
//! process and used as a visitor would. `make test` sets up Chromium and its driver.
#![cfg(not(target_arch = "wasm32"))]

/// The files below `tests/browser/`.
mod browser {
    pub mod chromium;
    pub mod release;
    pub mod site;

    mod annex;
    mod bath;
    mod copies;
    mod day;
    mod example;
    mod kept;
    mod killed;
    mod ledger;
    mod look;
    mod offline;
    mod origin;
    mod proof;
    mod run;
    mod scan;
    mod shelf;
    mod start;
    mod update;
}
