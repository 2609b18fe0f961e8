//! Any calculator from a shell: `cargo run --release --example sheet -- mix dilution=1:31 total="600 ml"`.
//! With `--json` as data, else as text. Without a name it lists the calculators and their fields.

use std::process::ExitCode;
use std::time::{SystemTime, UNIX_EPOCH};

use meniscus::calculators::{self, calculate};
use meniscus::darkroom::Darkroom;
use meniscus::fields::Named;
use meniscus::quantity::{Day, Units};
use meniscus::view;

fn main() -> ExitCode {
    let (flags, words): (Vec<String>, Vec<String>) = std::env::args().skip(1).partition(|word| word.starts_with("--"));
    if let Some(unknown) = flags.iter().find(|flag| *flag != "--json") {
        eprintln!("{unknown} is not known; only --json is");
        return ExitCode::FAILURE;
    }
    let Some((name, fields)) = words.split_first() else {
        list();
        return ExitCode::SUCCESS;
    };
    let mut named = Named::new();
    for field in fields {
        let Some((field, text)) = field.split_once('=') else {
            eprintln!("“{field}” is not field=value");
            return ExitCode::FAILURE;
        };
        named.insert(field.to_owned(), text.to_owned());
    }
    let Some(answer) = calculate(name, &named, &Darkroom::starter(today())) else {
        eprintln!("there is no calculator called {name}");
        list();
        return ExitCode::FAILURE;
    };
    if flags.is_empty() {
        print!("{}", view::text(&answer));
    } else {
        match serde_json::to_string_pretty(&view::data(&answer)) {
            Ok(json) => println!("{json}"),
            Err(error) => eprintln!("{error}"),
        }
    }
    match answer.faults.is_empty() {
        true => ExitCode::SUCCESS,
        false => ExitCode::FAILURE,
    }
}

/// The day in UTC; a clock before 1970 counts as its first day.
fn today() -> Day {
    let since = SystemTime::now().duration_since(UNIX_EPOCH).unwrap_or_default();
    Day::from_days((since.as_secs() / 86_400) as i32)
}

fn list() {
    for calculator in calculators::ALL {
        println!("{}: {}", calculator.name, calculator.title);
        for field in calculator.fields {
            let words: Vec<_> = field.options().iter().map(|(word, _)| *word).collect();
            let takes = match words.is_empty() {
                true => field.takes(Units::default()),
                false => words.join(", "),
            };
            println!("  {:<18} {}; {takes}", field.name(), field.label());
        }
    }
}
