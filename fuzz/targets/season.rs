#![no_main]
//! Random bytes as a folder of matches: see `src/season.rs`.

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| standpoint_fuzz::season::check(bytes));
