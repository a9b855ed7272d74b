//! The built-in catalogue is read and used. A test program of its own, because the language is set per process.

use standpoint_language::{Language, decimal, set_translator, speak, text, text_in, tr};

#[test]
fn what_is_spoken_follows_the_language() {
    set_translator!(standpoint_language::Catalogue);
    assert_eq!((text("Save"), text_in("menu", "Board")), ("Save", "Board"));
    speak(Language::German);
    assert_eq!((text("Save"), text_in("menu", "Board")), ("Speichern", "Tafel"));
    assert_eq!(text("nothing of the catalogue"), "nothing of the catalogue");
    assert_eq!(tr!("{} behind the baseline", decimal(2.3, 1)), "2,3 hinter der Grundlinie");
    let days = [1, 4].map(|n| tr!("1 day ago" | "{n} days ago" % n));
    assert_eq!(days, ["vor 1 Tag", "vor 4 Tagen"]);
    speak(Language::English);
    assert_eq!(text("Save"), "Save");
}
