//! Replays the settings saved from fuzzing through the checks of the fuzz target.

#![allow(clippy::unwrap_used, reason = "a check that cannot read its own data has failed")]

use standpoint_workbench::settings as program;

#[path = "../../../fuzz/src/settings.rs"]
mod checks;

#[test]
fn kept_settings_are_read_or_refused_in_words() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../fuzz/corpus/settings");
    let mut files = 0;
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        eprintln!("{}", path.display());
        checks::check(&std::fs::read(path).unwrap());
        files += 1;
    }
    assert!(files > 5, "{files}");
}
