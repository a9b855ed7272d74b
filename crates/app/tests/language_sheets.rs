//! Sheets, file errors and the library in German. A separate test binary, because the language is set per process.
//!
//! The text of a sheet is read back by `pdftotext` (poppler-utils), which `scripts/install-packages` installs.

#![allow(clippy::unwrap_used, reason = "a test that fails says where")]

use std::{fs, process::Command};

use standpoint_app::dialogs::{finder, left};
use standpoint_board::{Board, file, library::Library};
use standpoint_charting::{
    fit::{SprintTrial, fit_sprint},
    import::HeaderFault,
};
use standpoint_export::{make, offscreen_canvas::OffscreenCanvas};
use standpoint_language::{Language, speak};
use standpoint_workbench::wanted::Look;

/// Switches to German; every test in this binary calls it.
fn german() {
    standpoint_app::speak_up();
    speak(Language::German);
}

fn titled(library: &Library, title: &str) -> Board {
    let found = library.entries.iter().find(|entry| entry.title == title);
    found.unwrap_or_else(|| panic!("no board is called {title}")).board.as_ref().clone()
}

/// The words of a sheet of a board.
fn sheet_of(board: &Board) -> String {
    let pages = (0..board.pages.len()).collect();
    let pdf =
        make::pdf(&mut OffscreenCanvas::new().unwrap(), &[(board.clone(), pages)], &board.title, &Look::default())
            .unwrap();
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("sheet.pdf");
    fs::write(&path, pdf).unwrap();
    let said = Command::new("pdftotext").args([path.to_str().unwrap(), "-"]).output().unwrap();
    assert!(said.status.success());
    String::from_utf8(said.stdout).unwrap().split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn a_drill_sheet_is_german_from_its_title_to_its_foot() {
    german();
    let said = sheet_of(&titled(&Library::shipped(), "Zwei-Linien-Übung"));
    for part in [
        "Einer spielt longline, der andere cross",
        "Hütchen 1",
        "1,50 m innerhalb der rechten Einzelseitenlinie",
        "2,50 m innerhalb der fernen Grundlinie",
        "Zuspiel",
        "Ablauf",
        "Erst aufwärmen, dann beginnen",
        "Ein ausgebildeter Trainer entscheidet",
        "Medizinische Fragen gehören in fachkundige Hände.",
        "Die Zahlen sind Schätzungen eines Modells",
    ] {
        assert!(said.contains(part), "{part} is missing in {said}");
    }
    assert_eq!(
        said.matches("ausgebildeter Trainer").count(),
        1,
        "the cautions of the notes are not said twice: {said}"
    );
    let words: Vec<&str> = said.split(|c: char| !c.is_alphanumeric()).collect();
    for english in ["the", "of", "and", "shot", "inside", "court", "baseline"] {
        assert!(!words.contains(&english), "{english} is left in {said}");
    }
}

#[test]
fn numbers_on_a_sheet_have_commas_only() {
    german();
    let said = sheet_of(&Board::demo());
    let letters: Vec<char> = said.chars().collect();
    let point = letters.windows(3).find(|w| w[0].is_ascii_digit() && w[1] == '.' && w[2].is_ascii_digit());
    assert_eq!(point, None, "{said}");
    assert!(letters.windows(3).any(|w| w[0].is_ascii_digit() && w[1] == ',' && w[2].is_ascii_digit()), "{said}");
}

#[test]
fn what_is_wrong_with_a_board_is_said_in_german_with_place_and_remedy() {
    german();
    let text = file::to_text(&Board::demo()).unwrap().replacen("title:", "titel:", 1).replacen("20.0", "-99.0", 1);
    let said = file::from_text(&text).unwrap_err().to_string();
    assert!(said.contains("Zeile 3, Spalte 3: titel: `titel` gehört nicht hierher. Meinten Sie `title`?"), "{said}");
    assert!(
        said.contains("air.temperature_c: -99 liegt außerhalb von -30 bis 60 °C."),
        "numbers as in the file: {said}"
    );
    let cut = file::from_text(&text[..200]).unwrap_err().to_string();
    assert!(cut.contains("die Datei endet, bevor die runde Klammer geschlossen ist (Beginn: Zeile"), "{cut}");
}

#[test]
fn teaching_boards_are_found_by_the_words_of_both_languages() {
    german();
    let library = Library::shipped();
    let titles = |words: &str| library.search(words).into_iter().map(|e| e.title.clone()).collect::<Vec<_>>();
    for (german, english) in
        [("linkshänder", "left-hander"), ("rollstuhl", "wheelchair"), ("aufschlag nach außen", "wide serve")]
    {
        let (by_german, by_english) = (titles(german), titles(english));
        assert!(!by_german.is_empty() && by_german == by_english, "{german}: {by_german:?}; {english}: {by_english:?}");
    }
    assert!(library.tags().iter().any(|(tag, _)| tag == "netz"), "{:?}", library.tags());
    assert!(finder::found("speichern").first().is_some_and(|spec| spec.label() == "Speichern"));
}

#[test]
fn an_age_has_the_form_of_its_number() {
    german();
    let said = [5.0, 61.0, 7300.0, 86_400.0 * 3.2].map(left::age);
    assert_eq!(said, ["vor weniger als einer Minute", "vor 1 Minute", "vor 2 Stunden", "vor 3 Tagen"]);
}

#[test]
fn what_is_wrong_with_measurements_and_tables_is_said_in_german() {
    german();
    let movement = Board::demo().near.player().movement;
    let fitted = |first: (f64, f64), second: (f64, f64)| {
        let trials = [first, second].map(|(distance, time)| SprintTrial { distance, time });
        fit_sprint(&movement, &trials, 0.5, 1).unwrap_err().to_string()
    };
    assert!(fitted((5.0, 3.1), (10.0, 1.86)).starts_with("Sprintzeiten müssen"));
    assert!(fitted((5.0, 1.1), (5.1, 1.1)).starts_with("nötig sind zwei Sprintstrecken"));
    assert_eq!(fitted((0.5, 1.1), (5.1, 1.1)), "Messung 1: 0,5 m liegt außerhalb von 1 bis 100 m");
    let table = HeaderFault::Missing { names: vec!["contact_x"], headings: vec!["a".to_owned(), "b".to_owned()] };
    assert_eq!(table.to_string(), "es gibt keine Spalte für `contact_x`");
    assert!(table.remedy().ends_with("die Datei hat `a` und `b`."), "{}", table.remedy());
}
