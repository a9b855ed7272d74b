#![no_main]
//! Random bytes as a player of a roster: see `src/roster.rs`.

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| standpoint_fuzz::roster::check(bytes));
