//! PDF documents checked with a general PDF tool: poppler's `pdftotext` and `pdfinfo` (poppler-utils, which
//! `scripts/install-packages` installs).

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use std::{path::Path, process::Command};

use standpoint_sheet::{Block, Column, Document, Drawing, Figure, KeyFigure, Paper, Table};

/// Runs a tool on a PDF and returns its output.
fn tool(name: &str, before: &[&str], pdf: &Path, after: &[&str]) -> String {
    let said = Command::new(name)
        .args(before)
        .arg(pdf)
        .args(after)
        .output()
        .unwrap_or_else(|error| panic!("{name} cannot be run ({error}); scripts/install-packages installs it"));
    assert!(said.status.success(), "{name}: {}", String::from_utf8_lossy(&said.stderr));
    assert!(said.stderr.is_empty(), "{name} warns: {}", String::from_utf8_lossy(&said.stderr));
    String::from_utf8(said.stdout).unwrap()
}

fn written(document: &Document) -> tempfile::TempPath {
    let mut file = tempfile::Builder::new().suffix(".pdf").tempfile().unwrap();
    std::io::Write::write_all(&mut file, &document.to_pdf().unwrap()).unwrap();
    file.into_temp_path()
}

fn words(document: &Document) -> String {
    tool("pdftotext", &["-layout"], &written(document), &["-"])
}

fn info(document: &Document, what: &str) -> String {
    let said = tool("pdfinfo", &[], &written(document), &[]);
    let line = said.lines().find(|line| line.starts_with(what)).unwrap_or_else(|| panic!("no {what} in {said}"));
    line[what.len()..].trim_start_matches(':').trim().to_owned()
}

fn squares() -> Drawing {
    Drawing::new(200.0, 400.0, "<rect x=\"1\" y=\"1\" width=\"198\" height=\"398\" fill=\"none\" stroke=\"#14181A\"/>")
}

/// A word for each number, so that a lost one is found.
fn long_text(words: usize) -> String {
    (0..words).map(|i| format!("word{i}")).collect::<Vec<_>>().join(" ")
}

#[test]
fn paper_has_the_sizes_of_its_standards() {
    // In points of 1/72 inch. A4 is 210 mm by 297 mm (ISO 216), Letter 8.5 in by 11 in (ANSI/ASME Y14.1).
    for (paper, width, height) in [(Paper::A4, 210.0 / 25.4, 297.0 / 25.4), (Paper::Letter, 8.5, 11.0)] {
        let mut document = Document::new(paper, "Size");
        document.paragraph("One line");
        let said = info(&document, "Page size");
        let sides: Vec<f64> = said.split_whitespace().filter_map(|part| part.parse().ok()).collect();
        assert!((sides[0] - width * 72.0).abs() < 0.01 && (sides[1] - height * 72.0).abs() < 0.01, "{paper:?}: {said}");
    }
}

#[test]
fn long_text_goes_on_overleaf_and_no_word_is_lost() {
    let mut document = Document::new(Paper::A4, "Long");
    document.heading("Notes");
    document.paragraph(long_text(3000));
    let said = words(&document);
    let pages: u32 = info(&document, "Pages").parse().unwrap();
    assert!(pages >= 4, "{pages}");
    let found: std::collections::HashSet<&str> = said.split_whitespace().collect();
    let lost: Vec<String> = (0..3000).map(|i| format!("word{i}")).filter(|w| !found.contains(w.as_str())).collect();
    assert!(lost.is_empty(), "{lost:?}");
}

#[test]
fn a_table_goes_on_overleaf_with_its_head_and_a_row_longer_than_a_page_is_continued() {
    let mut document = Document::new(Paper::Letter, "Table");
    let mut table = Table::new([Column::left("What"), Column::right("Figure")]);
    (0..120).for_each(|i| table.row([format!("row {i}"), format!("{i}.5")]));
    table.row([long_text(2500), "last".to_owned()]);
    document.table(table);
    let said = words(&document);
    let pages: usize = info(&document, "Pages").parse().unwrap();
    assert_eq!(said.matches("What").count(), pages, "a head on every page");
    for i in 0..120 {
        assert!(said.contains(&format!("row {i} ")), "row {i} is lost");
    }
    assert!(said.contains("word2499"));
}

#[test]
fn what_does_not_fit_beside_a_figure_goes_on_below_it() {
    let mut document = Document::new(Paper::A4, "Beside");
    document.add(Block::Beside(Figure::new(squares()).width(200.0), vec![Block::Paragraph(long_text(1200))]));
    document.paragraph("after all");
    let said = words(&document);
    assert!(said.contains("word0") && said.contains("word1199") && said.contains("after all"));
    assert_eq!(info(&document, "Pages"), "2");
}

#[test]
fn the_contents_name_every_part_with_its_page_and_lead_there() {
    let mut document = Document::new(Paper::A4, "Parts");
    document.contents(true);
    for i in 0..60 {
        document.part(format!("Part {i} of many"));
        document.key_figures((0..4).map(|k| KeyFigure::new(format!("{k}.{i}"), "points lost in 100")));
    }
    let pages = document.pages().unwrap();
    assert_eq!(pages.entries.len(), 60);
    let links: usize = pages.pages.iter().map(|page| page.links.len()).sum();
    assert_eq!(links, 60);
    // The contents name the page on which the part stands, compared with that page's own footer.
    let pdf = written(&document);
    for entry in pages.entries.iter().step_by(17) {
        let number = (entry.page + 1).to_string();
        let page = tool("pdftotext", &["-f", &number, "-l", &number, "-layout"], &pdf, &["-"]);
        assert!(page.contains(&entry.title) && page.contains(&format!("{number} / {}", pages.pages.len())), "{page}");
        let contents = tool("pdftotext", &["-l", "2", "-layout"], &pdf, &["-"]);
        let line = contents.lines().find(|line| line.contains(&entry.title)).unwrap();
        assert!(line.trim_end().ends_with(&number), "{line}");
    }
}

#[test]
fn every_page_is_well_formed_as_an_svg() {
    // A general XML reader: roxmltree.
    let mut document = Document::new(Paper::A4, "A & B <c>");
    document.footer("x < y & z");
    document.paragraph("1 < 2 & \"quoted\" \u{7}bell, ü and 場");
    document.bullets(["a < b"]);
    let pages = document.pages().unwrap();
    let svg = pages.to_svg(0, &document.title).unwrap();
    let xml = roxmltree::Document::parse(&svg).unwrap();
    assert_eq!(xml.root_element().attribute("width"), Some("210.000mm"));
    assert_eq!(xml.root_element().attribute("height"), Some("297.000mm"));
    document.to_pdf().unwrap();
}

#[test]
fn a_document_with_nothing_in_it_is_one_empty_page() {
    assert_eq!(info(&Document::new(Paper::A4, ""), "Pages"), "1");
}

#[test]
fn a_heading_stays_with_what_it_is_over() {
    // Heading, note and table head are on one page, whatever height is used before them.
    for lines in 30..60 {
        let mut document = Document::new(Paper::A4, "Heading");
        (0..lines).for_each(|i| document.note(format!("line {i}")));
        document.heading("Setting up");
        document.note("Measured from two lines");
        let mut table = Table::new([Column::left("What"), Column::left("Where")]);
        table.row(["Cone one", "there"]);
        document.table(table);
        let pages = document.pages().unwrap();
        let page_of = |words: &str| pages.pages.iter().position(|page| page.body.contains(words)).unwrap();
        let all = ["Setting up", "Measured from", "What", "Cone one"].map(page_of);
        assert!(all.iter().all(|page| *page == all[0]), "{lines} lines: {all:?}");
    }
}
