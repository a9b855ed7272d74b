#![no_main]
//! Random bytes as a chart file: see `src/chart.rs`.

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| standpoint_fuzz::chart::check(bytes));
