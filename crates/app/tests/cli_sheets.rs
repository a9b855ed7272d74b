//! Sheets, pictures and animations on the command line, checked with general tools: `pdftotext` and `pdfinfo`
//! (poppler-utils) and `identify` (imagemagick), installed by `scripts/install-packages`, roxmltree and the gif crate.

#![allow(clippy::unwrap_used, reason = "a test that fails says where")]

mod cli_support;

use std::{
    fs,
    path::{Path, PathBuf},
    process::Command,
};

use glam::{DVec2, dvec2};
use standpoint_board::{
    Board, Units,
    marks::Form,
    patterns::Pattern,
    playback::Timeline,
    rally::{Rally, Resolved},
    store::load_board,
};
use standpoint_geometry::Solver;

use cli_support::{BoardFolder, standpoint};

/// The output of a tool run on a file.
fn tool(name: &str, words: &[&str]) -> String {
    let said = Command::new(name)
        .args(words)
        .output()
        .unwrap_or_else(|error| panic!("{name} cannot be run ({error}); scripts/install-packages installs it"));
    assert!(said.status.success(), "{name}: {}", String::from_utf8_lossy(&said.stderr));
    String::from_utf8_lossy(&said.stdout).into_owned()
}

fn teaching(name: &str) -> String {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../assets/boards");
    folder.join(name).with_extension("standpoint").to_str().unwrap().to_owned()
}

fn shown(path: &Path) -> &str {
    path.to_str().unwrap()
}

/// Makes a file and returns its path.
fn made(desk: &BoardFolder, name: &str, words: &[&str]) -> PathBuf {
    let path = desk.path(name);
    let mut all = vec!["sheet"];
    all.extend(words);
    all.extend(["-o", shown(&path)]);
    let said = standpoint(&all);
    assert_eq!(said.code, 0, "{}", said.err);
    assert_eq!(said.out.trim(), shown(&path));
    path
}

fn words_of(pdf: &Path) -> String {
    tool("pdftotext", &["-layout", shown(pdf), "-"])
}

/// The text without its line breaks.
fn running(pdf: &Path) -> String {
    tool("pdftotext", &[shown(pdf), "-"]).split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A length as printed on a sheet, m: `1.50 m`, `4′ 6″`, `5′`, `6″`.
fn metres(text: &str) -> f64 {
    if let Some(number) = text.strip_suffix(" m") {
        return number.parse().unwrap();
    }
    let (feet, inches) = match (text.strip_suffix('′'), text.strip_suffix('″')) {
        (Some(feet), _) => (feet, "0"),
        (None, Some(inches)) => inches.split_once("′ ").unwrap_or(("0", inches)),
        (None, None) => panic!("{text}"),
    };
    // An international foot is 0.3048 m exactly.
    feet.parse::<f64>().unwrap() * 0.3048 + inches.parse::<f64>().unwrap() * 0.0254
}

/// The place that two distances name, by the dimensions of a full court (ITF Rules of Tennis, rule 1: singles 8.23 m by
/// 23.77 m, service lines 6.40 m from the net), read as a person with a tape would.
fn laid_out(across: &str, along: &str) -> DVec2 {
    let signed = |text: &str| -> f64 {
        let Some((length, rest)) = [" inside", " outside", " behind", " in front of", " left of", " right of"]
            .iter()
            .find_map(|word| text.split_once(word))
        else {
            assert!(text.starts_with("on the "), "{text}");
            return 0.0;
        };
        let out = text.contains("outside") || text.contains("behind") || text.contains("right of");
        let _ = rest;
        if out { metres(length.trim()) } else { -metres(length.trim()) }
    };
    let x = match across {
        t if t.ends_with("right singles sideline") => 4.115 + signed(t),
        t if t.ends_with("left singles sideline") => -(4.115 + signed(t)),
        t if t.ends_with("right doubles sideline") => 5.485 + signed(t),
        t if t.ends_with("left doubles sideline") => -(5.485 + signed(t)),
        t => signed(t),
    };
    let far = if along.contains("far ") { 1.0 } else { -1.0 };
    let line = if along.ends_with("baseline") { 11.885 } else { 6.40 };
    dvec2(x, far * (line + signed(along)))
}

/// The places in those rows of the table of places whose names begin with `name`.
fn places(pdf: &Path, name: &str) -> Vec<DVec2> {
    // Read row by row: the bounding boxes of words keep columns apart.
    let table = words_of(pdf);
    let mut found = Vec::new();
    // "Cone" or "Cone 1", but not "Cones: ..." of the notes.
    let named = |line: &&str| line.trim_start().strip_prefix(name).is_some_and(|rest| rest.starts_with(' '));
    for line in table.lines().filter(named) {
        let cells: Vec<&str> = line.split("  ").map(str::trim).filter(|cell| !cell.is_empty()).collect();
        assert_eq!(cells.len(), 3, "{line}");
        found.push(laid_out(cells[1], cells[2]));
    }
    found
}

#[test]
fn the_cones_of_a_sheet_stand_where_the_board_has_them_as_near_as_a_tape_can_set() {
    let desk = BoardFolder::new();
    let file = teaching("two-line-drill");
    let board = load_board(Path::new(&file)).unwrap();
    let cones = |wanted: fn(&Form) -> bool| -> Vec<DVec2> {
        board.pages[0].marks.list.iter().filter(|m| wanted(&m.form)).filter_map(|m| m.form.standing_at()).collect()
    };
    // Half of the 5 cm and of the half foot to which places are rounded.
    for (units, near) in [("metres", 0.0251), ("feet", 0.0763)] {
        let pdf = made(&desk, &format!("{units}.pdf"), &[&file, "--units", units]);
        for (name, wanted) in [
            ("Cone", cones(|form| matches!(form, Form::Cone { .. }))),
            ("Basket", cones(|form| matches!(form, Form::Basket { .. }))),
            ("Player", cones(|form| matches!(form, Form::Person { .. }))),
        ] {
            let on_paper = places(&pdf, name);
            assert_eq!(on_paper.len(), wanted.len(), "{name}");
            for (paper, board) in on_paper.iter().zip(&wanted) {
                let off = (*paper - *board).abs();
                assert!(off.max_element() <= near, "{name} in {units}: {paper} on paper, {board} on the board");
            }
        }
    }
}

#[test]
fn a_drill_sheet_says_everything_that_is_needed_on_court() {
    let desk = BoardFolder::new();
    let said = running(&made(&desk, "drill.pdf", &[&teaching("two-line-drill")]));
    for part in [
        "One plays the lines, the other one cross-court",
        "Setting up",
        "1.50 m inside the right singles sideline",
        "2.50 m inside the near baseline",
        "Feed",
        "The coach feeds the first ball from the basket",
        "Sequence",
        "Tessa Ovell",
        "Topspin drive, 85 km/h",
        "Cues",
        "Feel who runs further",
        "Targets",
        "counts two",
        "Progression",
        "half speed",
        "Equipment",
        "4 cones",
        "Warm up before you start, and clear loose balls",
        "tired, dizzy or in pain",
        "rest in the shade",
        "A qualified coach decides",
        "Medical questions go to a professional",
        "estimates of a model",
    ] {
        assert!(said.contains(part), "{part} is missing in\n{said}");
    }
    assert!(!said.contains("#drill"), "tags are for the library");
}

#[test]
fn the_drawing_is_on_the_sheet_as_text_and_lines_each_said_once() {
    let desk = BoardFolder::new();
    let pdf = made(&desk, "demo.pdf", &[&desk.demo()]);
    let said = running(&pdf);
    for part in ["over the net", "The opponent wins in 100", "bisector", "Stand ", "right of the centre mark"] {
        assert!(said.contains(part), "{part} is missing in\n{said}");
    }
    assert_eq!(said.matches("over the net").count(), 1, "a halo is no second text");
    let fonts = tool("pdffonts", &[shown(&pdf)]);
    assert!(fonts.contains("Barlow"), "{fonts}");
}

#[test]
fn a_sheet_has_fields_to_fill_in_and_a_drill_that_fits_takes_one_page() {
    let desk = BoardFolder::new();
    for paper in ["a4", "letter"] {
        let pdf =
            made(&desk, &format!("one-{paper}.pdf"), &[&teaching("cross-court"), "--pages", "1", "--paper", paper]);
        let said = running(&pdf);
        for field in ["Date", "Group", "Duration", "Scoring"] {
            assert!(said.contains(field), "{field} is missing in\n{said}");
        }
        let info = tool("pdfinfo", &[shown(&pdf)]);
        let pages = info.lines().find(|line| line.starts_with("Pages")).unwrap();
        assert!(pages.ends_with(" 1"), "{paper}: {pages}");
    }
}

#[test]
fn the_shipped_drill_with_set_up_and_sequence_takes_one_page_in_both_languages() {
    let desk = BoardFolder::new();
    for (paper, language) in [("a4", "en"), ("letter", "en"), ("a4", "de"), ("letter", "de")] {
        let name = format!("drill-{paper}-{language}.pdf");
        let pdf = made(&desk, &name, &[&teaching("two-line-drill"), "--paper", paper, "--language", language]);
        let said = running(&pdf);
        let last = if language == "en" { ["Setting up", "Sequence"] } else { ["Aufbau", "Ablauf"] };
        assert!(last.iter().all(|heading| said.contains(heading)) && said.contains("85 km/h"), "{said}");
        let info = tool("pdfinfo", &[shown(&pdf)]);
        let pages = info.lines().find(|line| line.starts_with("Pages")).unwrap();
        assert!(pages.ends_with(" 1"), "{paper}, {language}: {pages}");
    }
}

#[test]
fn a_picture_can_be_what_the_player_sees() {
    let desk = BoardFolder::new();
    for (seen, said) in [("eye", "What "), ("behind", "From behind the court")] {
        let file = made(&desk, &format!("{seen}.svg"), &[&desk.demo(), "--seen", seen]);
        let svg = std::fs::read_to_string(file).unwrap();
        assert!(svg.contains(said), "{seen}");
    }
}

#[test]
fn paper_has_the_size_that_is_asked_for() {
    let desk = BoardFolder::new();
    // ISO 216: A4 is 210 mm by 297 mm. ANSI/ASME Y14.1: A is 8.5 in by 11 in.
    for (paper, width, height) in [("a4", 210.0 / 25.4 * 72.0, 297.0 / 25.4 * 72.0), ("letter", 612.0, 792.0)] {
        let pdf = made(&desk, &format!("{paper}.pdf"), &[&desk.demo(), "--paper", paper]);
        let info = tool("pdfinfo", &[shown(&pdf)]);
        let line = info.lines().find(|line| line.starts_with("Page size")).unwrap();
        let sides: Vec<f64> = line.split_whitespace().filter_map(|word| word.parse().ok()).collect();
        assert!((sides[0] - width).abs() < 0.01 && (sides[1] - height).abs() < 0.01, "{line}");
    }
}

/// A board with these notes on its page.
fn noted(notes: String) -> Board {
    let mut board = Board::demo();
    board.page_mut(0).unwrap().notes = notes;
    board
}

#[test]
fn long_notes_go_on_overleaf_and_lose_no_word() {
    let desk = BoardFolder::new();
    let notes: Vec<String> = (0..1500).map(|i| format!("word{i}")).collect();
    let board = desk.board("long.standpoint", &noted(notes.join(" ")));
    let pdf = made(&desk, "long.pdf", &[&board]);
    let said = running(&pdf);
    let found: std::collections::HashSet<&str> = said.split(' ').collect();
    let lost: Vec<&String> = notes.iter().filter(|word| !found.contains(word.as_str())).collect();
    assert!(lost.is_empty(), "{lost:?}");
    assert!(tool("pdfinfo", &[shown(&pdf)]).lines().any(|l| l.starts_with("Pages:") && !l.ends_with(" 1")));
}

#[test]
fn several_pages_and_boards_make_one_pdf_with_contents() {
    let desk = BoardFolder::new();
    let mut board = Board::demo();
    for pattern in Pattern::ALL {
        board.pages.push(std::sync::Arc::new(pattern.page(&board, false)));
    }
    let many = desk.board("many.standpoint", &board);
    let pdf = made(&desk, "all.pdf", &[&many, &desk.demo()]);
    let first = tool("pdftotext", &["-l", "1", "-layout", shown(&pdf), "-"]);
    assert!(first.contains("Contents"), "{first}");
    for page in &board.pages {
        assert!(first.contains(&page.title), "{} is not in\n{first}", page.title);
    }
    let some = made(&desk, "some.pdf", &[&many, "--pages", "2,4-5"]);
    let said = running(&some);
    assert!(!said.contains("Contents"), "three pages are found without a sheet that lists them: {said}");
    assert!(said.contains(&board.pages[1].title) && !said.contains(&board.pages[2].title), "{said}");
}

#[test]
fn an_svg_is_well_formed_and_its_text_is_text() {
    let desk = BoardFolder::new();
    let svg = fs::read_to_string(made(&desk, "demo.svg", &[&desk.demo()])).unwrap();
    let xml = roxmltree::Document::parse(&svg).unwrap();
    let root = xml.root_element();
    assert_eq!((root.tag_name().name(), root.tag_name().namespace()), ("svg", Some("http://www.w3.org/2000/svg")));
    let texts: Vec<&str> = root.descendants().filter(|n| n.has_tag_name("text")).filter_map(|n| n.text()).collect();
    assert!(texts.iter().any(|text| text.ends_with("over the net")), "{texts:?}");
    assert!(texts.contains(&"Mara Quell") && texts.contains(&"Ivo Tander"), "{texts:?}");
}

#[test]
fn a_png_has_any_size_that_is_asked_for() {
    let desk = BoardFolder::new();
    for size in ["320x640", "1920x1080", "1200x1200"] {
        for colours in ["paper", "surface", "bright"] {
            let name = format!("{colours}-{size}.png");
            let png = made(&desk, &name, &[&desk.demo(), "--size", size, "--colours", colours]);
            assert_eq!(tool("identify", &["-format", "%m %wx%h", shown(&png)]), format!("PNG {size}"));
        }
    }
    // The sheet uses only black, white and grey, so a black-and-white print loses nothing.
    let grey = made(&desk, "grey.png", &[&desk.demo(), "--size", "600x1000"]);
    let colourful: f64 =
        tool("identify", &["-format", "%[fx:255*maxima.r-255*maxima.b]", shown(&grey)]).parse().unwrap();
    let most = tool(
        "convert",
        &[shown(&grey), "-colorspace", "HCL", "-channel", "G", "-separate", "-format", "%[fx:maxima]", "info:"],
    );
    assert!(colourful.abs() < 16.0 && most.trim().parse::<f64>().unwrap() < 0.1, "{colourful} {most}");
}

fn rally_duration(board: &Board) -> f64 {
    let (mut rally, mut solver) = (Rally::new(), Solver::new());
    let page = board.page(0).unwrap();
    let shots: Vec<Resolved> =
        (0..page.shots.len()).map_while(|i| rally.resolve(board, page, i, &mut solver).ok().cloned()).collect();
    Timeline::new(board, &shots).duration()
}

#[test]
fn a_gif_lasts_as_long_as_the_rally() {
    let desk = BoardFolder::new();
    let board = Board::demo();
    let duration = rally_duration(&board);
    assert!(duration > 0.5);
    for (pace, slower) in [("true", 1.0), ("half", 2.0)] {
        let name = format!("{pace}.gif");
        let gif = made(&desk, &name, &[&desk.demo(), "--rate", "10", "--pace", pace, "--size", "240x480"]);
        // Checked by a general picture tool: delays in hundredths of a second, and the size.
        let delays: f64 = tool("identify", &["-format", "%T ", shown(&gif)])
            .split_whitespace()
            .map(|delay| delay.parse::<f64>().unwrap())
            .sum();
        assert!((delays / 100.0 - duration * slower).abs() <= 0.0051, "{delays} hundredths, {duration} s, {pace}");
        assert!(tool("identify", &["-format", "%m ", shown(&gif)]).starts_with("GIF"));
    }
    let apng = fs::read(made(&desk, "rally.apng", &[&desk.demo(), "--rate", "5", "--size", "240x480"])).unwrap();
    let reader = png::Decoder::new(std::io::Cursor::new(apng)).read_info().unwrap();
    let frames = reader.info().animation_control().unwrap().num_frames;
    assert_eq!(frames, (duration * 5.0).ceil() as u32);
}

#[test]
fn a_folder_becomes_a_folder_of_sheets_with_progress() {
    let desk = BoardFolder::new();
    let boards = desk.path("boards");
    fs::create_dir(&boards).unwrap();
    for name in ["approach", "middle", "two-line-drill"] {
        fs::copy(teaching(name), boards.join(name).with_extension("standpoint")).unwrap();
    }
    let out = desk.path("sheets");
    let said = standpoint(&["sheet", shown(&boards), "-o", shown(&out)]);
    assert_eq!(said.code, 0, "{}", said.err);
    let files: Vec<String> = said.out.lines().map(|line| line.rsplit('/').next().unwrap().to_owned()).collect();
    assert_eq!(files, ["approach.pdf", "middle.pdf", "two-line-drill.pdf"]);
    assert!(said.err.contains("[1/3]") && said.err.contains("[3/3]"), "{}", said.err);
    let pictures = standpoint(&["sheet", shown(&boards), "-o", shown(&out), "--format", "svg"]);
    assert_eq!(pictures.code, 0, "{}", pictures.err);
    assert_eq!(fs::read_dir(&out).unwrap().count(), 3 + pictures.out.lines().count());
}

#[test]
fn a_broken_board_does_not_stop_the_others_and_is_told() {
    let desk = BoardFolder::new();
    let broken = desk.file("broken.standpoint", "(standpoint_board: 2, title: 3)");
    let pdf = desk.path("out.pdf");
    let said = standpoint(&["sheet", &broken, &desk.demo(), "-o", shown(&pdf)]);
    assert_eq!(said.code, 1);
    assert!(said.err.contains("broken.standpoint:1:") && said.err.contains('—'), "{}", said.err);
    assert!(running(&pdf).contains("From the deuce corner"));
}

#[test]
fn what_makes_no_sense_is_refused_with_the_remedy() {
    let desk = BoardFolder::new();
    let demo = desk.demo();
    let out = |name: &str| shown(&desk.path(name)).to_owned();
    for (words, part, code) in [
        (vec!["sheet", &demo, "-o", &out("a.doc")], "End it in .pdf", 1),
        (vec!["sheet", &demo, "-o", &out("a.pdf"), "--pages", "7"], "there is no page 7", 1),
        (vec!["sheet", &demo, "-o", &out("a.pdf"), "--format", "png"], "Leave --format out", 1),
        (vec!["sheet", &out("nowhere"), "-o", &out("a.pdf")], "nowhere", 1),
        (vec!["sheet", &demo, "-o", &out("none/there/a.pdf")], "—", 1),
        (vec!["sheet", &demo, "-o", &out("a.png"), "--size", "9x9"], "from 16", 2),
        (vec!["sheet", &demo, "-o", &out("a.gif"), "--rate", "0"], "from 1 to 50", 2),
        (vec!["sheet", "-o", &out("a.pdf")], "BOARD", 2),
    ] {
        let said = standpoint(&words);
        assert_eq!(said.code, code, "{words:?}: {}", said.err);
        assert!(said.err.contains(part), "{words:?}: {}", said.err);
    }
    assert!(!desk.path("a.pdf").exists());
}

#[test]
fn a_rally_that_cannot_be_played_is_no_moving_picture_but_a_sheet_all_the_same() {
    let desk = BoardFolder::new();
    let board = desk.board("slow.standpoint", &cli_support::demo_with(|spec| spec.shot.speed = 4.0));
    let pdf = made(&desk, "slow.pdf", &[&board]);
    assert!(running(&pdf).contains("cannot be played"));
    let said = standpoint(&["sheet", &board, "-o", shown(&desk.path("slow.gif"))]);
    assert_eq!(said.code, 1);
    assert!(said.err.contains("has no rally") && said.err.contains("Change its first shot"), "{}", said.err);
}

#[test]
fn a_board_in_feet_has_a_sheet_in_feet() {
    let desk = BoardFolder::new();
    let mut board = Board::demo();
    board.units = Units::Feet;
    let said = running(&made(&desk, "feet.pdf", &[&desk.board("feet.standpoint", &board)]));
    assert!(said.contains("mph") && said.contains('′') && !said.contains("km/h"), "{said}");
}

#[test]
fn options_before_a_command_are_told_where_they_belong() {
    let said = standpoint(&["--language", "en", "present", "x.standpoint"]);
    assert_eq!(said.code, 2);
    assert!(said.err.contains("options stand behind the command"), "{}", said.err);
}
