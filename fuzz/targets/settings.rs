#![no_main]
//! Random bytes as settings: see `src/settings.rs`.

// The program's own reading of settings, without its window.
#[path = "../../crates/workbench/src/settings.rs"]
mod program;
#[path = "../src/settings.rs"]
mod checks;

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| checks::check(bytes));
