#![no_main]
//! Random bytes as a board file: see `src/board.rs`.

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| standpoint_fuzz::board::check(bytes));
