#![no_main]
//! Random bytes as a table of shots (CSV): see `src/table.rs`.

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| standpoint_fuzz::table::check(bytes));
