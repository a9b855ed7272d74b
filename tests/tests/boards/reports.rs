//! Every problem of a file is reported at once, each with its line, its part and a remedy.

use standpoint_board::{
    Board, ProblemKind, Report, file,
    marks::{Form, Ink, Layer, Pattern},
};

use crate::samples::every_mark;

fn demo() -> String {
    file::to_text(&Board::demo()).unwrap()
}

/// The demo with pieces of text replaced; every piece must be there.
fn demo_with(changes: &[(&str, &str)]) -> String {
    changes.iter().fold(demo(), |text, (from, to)| {
        assert!(text.contains(from), "`{from}` is not in\n{text}");
        text.replacen(from, to, 1)
    })
}

fn report(text: &str) -> Report {
    file::from_text(text).expect_err("this text is wrong")
}

/// Line of a piece of text, counted from 1.
fn line_of(text: &str, piece: &str) -> usize {
    text.lines().position(|line| line.contains(piece)).unwrap() + 1
}

/// Checks that the report is exactly these problems: piece of text in their line, role, and part of the message.
fn assert_problems(text: &str, expected: &[(&str, &str, &str)]) {
    let report = report(text);
    let said: Vec<(usize, &str)> =
        report.problems.iter().map(|problem| (problem.at.unwrap().line, problem.role.as_str())).collect();
    let wanted: Vec<(usize, &str)> = expected.iter().map(|(piece, role, _)| (line_of(text, piece), *role)).collect();
    assert_eq!(said, wanted, "\n{report}");
    for (problem, (_, _, words)) in report.problems.iter().zip(expected) {
        assert!(problem.to_string().contains(words), "`{words}` is not in `{problem}`");
    }
}

/// The one problem of a text: line, column and message.
fn only(text: &str) -> (usize, usize, String) {
    let report = report(text);
    assert_eq!(report.count(), 1, "{report}");
    let at = report.problems[0].at.unwrap();
    (at.line, at.column, report.to_string())
}

#[test]
fn problems_of_every_kind_are_told_in_one_go() {
    let text = demo_with(&[
        ("ball: Type2", "ball: Typ2"),
        ("temperature_c: 20.0", "temperature_c: NaN"),
        ("altitude_m: 0.0", "altitude_m: 9000.0"),
        ("units: Metres", "unit: Metres"),
        ("edge_chance: 0.5", "edge_chance: \"half\""),
        ("x: 3.2", "x: 32.0"),
        ("height: 0.9", "height: -0.9"),
        ("speed_kmh: 100.0", "speed_kmh: inf"),
        ("opponent_place: (", "opponent_places: ("),
    ]);
    // A missing part is reported where the parenthesis that lacks it opens.
    assert_problems(
        &text,
        &[
            ("(", "units", "Add `units: ...`"),
            ("ball: Typ2", "ball", "Did you mean `Type2`?"),
            ("temperature_c", "air.temperature_c", "NaN"),
            ("altitude_m", "air.altitude_m", "Write a number from -450 to 6000."),
            ("unit: Metres", "unit", "Did you mean `units`?"),
            ("edge_chance", "settings.edge_chance", "a number expected, found a text"),
            ("        (", "pages[0].shots[0].opponent_place", "`opponent_place` is missing"),
            ("x: 32.0", "pages[0].shots[0].contact.x", "32 m lies outside the site, which reaches to 9.145 m"),
            ("height: -0.9", "pages[0].shots[0].contact.height", "Write a number from 0.03 to 4."),
            ("speed_kmh", "pages[0].shots[0].speed_kmh", "Write an ordinary number."),
            ("opponent_places", "pages[0].shots[0].opponent_places", "Did you mean `opponent_place`?"),
        ],
    );
}

#[test]
fn a_place_on_the_wrong_side_of_the_net_is_told_but_not_when_the_hitter_is_unknown() {
    let text = demo_with(&[("y: -12.4", "y: 12.4")]);
    let (line, _, said) = only(&text);
    assert_eq!(line, line_of(&text, "y: 12.4"));
    assert!(said.contains("page 1, shot 1, contact.y: 12.4 m lies beyond the net"), "{said}");
    let text = demo_with(&[("y: -12.4", "y: 12.4"), ("hitter: Near", "hitter: Nere")]);
    assert!(only(&text).2.contains("Did you mean `Near`?"));
}

#[test]
fn a_place_is_not_called_off_site_when_the_site_is_unknown() {
    let text = demo_with(&[("behind: 6.4", "behind: \"wide\""), ("y: -12.4", "y: -18.0")]);
    assert!(only(&text).2.contains("court.run_off.behind"));
}

#[test]
fn a_newer_version_is_refused_with_its_number_even_when_its_notation_is_unknown() {
    let (line, column, said) = only("// later\n(standpoint_board: 7, marks: <<new notation>>)");
    assert_eq!((line, column), (2, 20));
    assert!(said.contains("the file is of version 7, and this program reads versions up to 2"), "{said}");
    assert!(only("(title: \"a\", standpoint_board: 3)").2.contains("version 3"));
}

#[test]
fn what_is_no_board_or_of_no_version_is_refused() {
    for text in ["(title: \"a\")", "[1, 2]", "hello", "()", "{}", "3"] {
        assert!(only(text).2.contains("this is not a board"), "{text}");
    }
    for version in ["0", "-1", "0.5", "NaN", "\"1\"", "Some(1)"] {
        let said = only(&format!("(standpoint_board: {version})")).2;
        assert!(said.contains("there is no version") && said.contains("Write `standpoint_board: 2`."), "{said}");
    }
}

#[test]
fn an_empty_file_says_so() {
    for text in ["", " \n\t", "\u{feff}", "// only a comment", "/* and */ // another\n"] {
        assert!(only(text).2.contains("the file is empty"));
    }
}

#[test]
fn bytes_that_are_no_text_are_told_with_their_place() {
    let mut bytes = demo().into_bytes();
    let at = demo().find("Larkfield").unwrap();
    bytes[at] = 0xff;
    let report = file::from_bytes(&bytes).unwrap_err();
    assert_eq!(report.problems[0].kind, ProblemKind::NotText { byte: at });
    assert_eq!(report.problems[0].at.unwrap().line, line_of(&demo(), "Larkfield"));
}

#[test]
fn deep_nesting_is_refused_before_it_can_do_harm() {
    for open in ["(", "[", "{", "Some(", "(standpoint_board: 1, title: ["] {
        let said = only(&open.repeat(100_000)).2;
        assert!(said.contains("nested more than 32 deep") || said.contains("not a board"), "{said}");
    }
    // Brackets in texts and comments do not count as nesting.
    let deep = "(".repeat(100);
    let text = demo_with(&[("\"hard\"", &format!("\"{deep}\" /* {deep} */"))]);
    assert_eq!(file::from_text(&text).unwrap().theme, deep);
}

#[test]
fn a_file_over_the_limit_is_refused_and_so_is_one_with_too_many_values() {
    let large = " ".repeat(16 * 1024 * 1024 + 1);
    assert!(matches!(file::from_text(&large).unwrap_err().problems[0].kind, ProblemKind::TooLarge { .. }));
    let many = format!("(standpoint_board: 1, pages: [{}])", "0,".repeat(1_100_000));
    assert!(only(&many).2.contains("more than 1000000 values"));
}

#[test]
fn a_chart_that_makes_a_board_too_large_to_be_read_is_not_written_into_it() {
    use standpoint_charting::invented::{self, Habit};
    let mut board = standpoint_board::Board::demo();
    let setup = standpoint_board::chart::Setup::default();
    let short = invented::chart(&setup, 3, 20, [Habit::EXPERT, Habit::MIDDLE]);
    let per_point = short.points.len();
    let mut long = short.clone();
    while long.points.len() < per_point * 600 {
        long.points.extend(short.points.iter().cloned());
    }
    board.chart = Some(long.into());
    let report = file::to_text(&board).unwrap_err();
    let said = report.to_string();
    assert!(said.contains("chart") && said.contains("16777216 are allowed"), "{said}");
    assert!(said.contains("Move the notes to a file of their own"), "{said}");
    let shots = short.shots();
    board.chart = Some(short.into());
    let read = file::from_text(&file::to_text(&board).unwrap()).unwrap();
    assert_eq!(read.chart.unwrap().shots(), shots);
}

#[test]
fn hostile_files_of_the_largest_size_are_refused_soon() {
    let size = 16 * 1024 * 1024 - 100;
    for piece in ["(a:1),", "x:", "\"\\n\",", "/*", "r#", "-", "1,", "[", "'", "é"] {
        for before in ["", "(standpoint_board: 1, pages: ["] {
            let began = std::time::Instant::now();
            let text = format!("{before}{}", piece.repeat(size / piece.len()));
            let report = report(&text);
            assert!(report.to_string().len() < 100_000);
            assert!(began.elapsed().as_secs() < 20, "{piece} took {:?}", began.elapsed());
        }
    }
}

#[test]
fn of_very_many_problems_the_first_are_listed_and_the_rest_counted() {
    let pages = "(title: 1, notes: 2, shots: 3),".repeat(500);
    let text = demo_with(&[("pages: [", &format!("pages: [{pages}"))]);
    let report = report(&text);
    assert_eq!((report.problems.len(), report.count()), (200, 3000));
    assert!(report.to_string().ends_with("and 2800 more"));
}

#[test]
fn slips_of_notation_are_told_where_they_are() {
    let said = |from, to| {
        let text = demo_with(&[(from, to)]);
        let (line, column, said) = only(&text);
        (text.lines().nth(line - 1).unwrap().chars().skip(column - 1).collect::<String>(), said)
    };
    let (at, words) = said("coached: Near,", "coached: Near;");
    assert!(at == ";" && words.contains("`,` or `)` expected, found `;`"), "{at} {words}");
    let (at, words) = said("theme: \"hard\"", "theme= \"hard\"");
    assert!(at.starts_with("= ") && words.contains("`:` expected"), "{at} {words}");
    let (at, words) = said("100.0", "1OO.0");
    assert!(at.starts_with("1OO.0") && words.contains("a number expected, found `1OO.0`"), "{at} {words}");
    let (_, words) = said("\"hard\"", "\"hard");
    assert!(words.contains("expected") || words.contains("ends inside"), "{words}");
    let (at, words) = said("\"hard\"", "\"ha\\qrd\"");
    assert!(at.starts_with("\\qrd") && words.contains("an escaped character expected"), "{at} {words}");
}

#[test]
fn a_part_that_is_here_twice_or_a_list_without_entries_is_told() {
    assert!(
        only(&demo_with(&[("coached: Near", "coached: Near, coached: Far")])).2.contains("`coached` is here twice")
    );
    let text = demo();
    let pages = text.find("pages: [").unwrap();
    let none = format!("{}pages: [])", &text[..pages]);
    assert!(only(&none).2.contains("there is no page"));
    let none = format!(
        "{}pages: [(title: \"\", notes: \"\", cues: [], shots: [], marks: [], hidden_layers: [])])",
        &text[..pages]
    );
    assert!(only(&none).2.contains("page 1, shots: there is no shot"));
}

#[test]
fn texts_that_are_too_long_or_cannot_be_shown_are_told() {
    assert!(only(&demo_with(&[("\"hard\"", &format!("\"{}\"", "x".repeat(201)))])).2.contains("201 characters"));
    assert!(only(&demo_with(&[("Mara Quell", "Mara\\u{7}Quell")])).2.contains("control character U+0007"));
}

#[test]
fn figures_entered_by_hand_are_checked_one_by_one() {
    let mut board = Board::demo();
    board.far.make_custom();
    let text = file::to_text(&board).unwrap();
    assert_eq!(file::from_text(&text).unwrap().far.level(), None);
    let text = text.replacen("bounces: 1", "bounces: 3", 1).replacen("top_speed_m_s:", "top_speed:", 1);
    let roles: Vec<String> = report(&text).problems.into_iter().map(|problem| problem.role).collect();
    let figures = "players.far.figures";
    assert_eq!(
        roles,
        [".bounces", ".movement.top_speed_m_s", ".movement.top_speed"].map(|part| format!("{figures}{part}"))
    );
}

#[test]
fn problems_of_marks_are_told_one_by_one() {
    let mut board = Board::demo();
    board.page_mut(0).unwrap().marks = every_mark();
    let text = file::to_text(&board).unwrap();
    assert_eq!(file::from_text(&text).unwrap().page(0).unwrap().marks, every_mark());
    let changes = [
        ("id: 2,", "id: 1,"),
        ("ink: Warning", "ink: Warming"),
        ("form: Person(at: (x: 3.0,", "form: Person(at: (x: NaN,"),
        ("letter: \"A\"", "letter: \"ABC\""),
        ("from: (x: -4.1,", "from: (x: -41.0,"),
        ("round: false", "round: 0"),
        ("(-1.2345, -2.0)", "(-1.2345, -200.0)"),
        ("(0.0, -1.0)", "(0.0, -1.0, 2.0)"),
        ("bend: 0.8", "bend: 80.0"),
        ("size: 0.45", "size: 45"),
        ("hidden_layers: [", "hidden_layers: [Nodes, "),
    ];
    let text = changes.iter().fold(text, |text, (from, to)| {
        assert!(text.contains(from), "`{from}` is not in\n{text}");
        text.replacen(from, to, 1)
    });
    let report = report(&text);
    let said: Vec<(&str, String)> =
        report.problems.iter().map(|p| (p.role.trim_start_matches("pages[0]."), p.to_string())).collect();
    let expected = [
        ("marks[1].id", "the number 1 names another mark"),
        ("marks[1].ink", "Did you mean `Warning`?"),
        ("marks[2].form.at.x", "NaN"),
        ("marks[2].form.letter", "2 are allowed"),
        ("marks[3].form.from.x", "marks may lie up to 15.145 m away"),
        ("marks[4].form.round", "`true` or `false` expected, found the number 0"),
        ("marks[5].form.points[2].y", "-200 m is too far off"),
        ("marks[5].form.points[3]", "two numbers `(x, y)` expected"),
        ("marks[6].form.bend", "80 is outside -50 to 50 m"),
        ("marks[7].form.size", "45 is outside 0.05 to 5 m"),
        ("hidden_layers[0]", "Did you mean `Notes`?"),
    ];
    assert_eq!(said.len(), expected.len(), "{report}");
    for ((role, words), (wanted, part)) in said.iter().zip(expected) {
        assert!(*role == wanted && words.contains(part), "{wanted} {part}: {words}");
        assert!(words.starts_with("line "), "{words}");
    }
}

#[test]
fn marks_of_no_known_form_and_lines_without_points_are_told() {
    let with =
        |form: &str| demo_with(&[("marks: [", &format!("marks: [(id: 1, layer: Sketch, ink: Plain, form: {form}),"))]);
    assert!(only(&with("Con(at: (x: 0.0, y: 0.0))")).2.contains("Did you mean `Cone`?"));
    assert!(only(&with("Cone")).2.contains("named parts in parentheses expected"));
    assert!(only(&with("Cone(1.0, 2.0)")).2.contains("named parts in parentheses expected"));
    assert!(only(&with("3.0")).2.contains("a form such as"));
    assert!(only(&with("Pen(points: [], pattern: Solid)")).2.contains("at least 2 points and has 0"));
    assert!(only(&with("Pen(points: [(0.0, 0.0)], pattern: Solid)")).2.contains("Add a point, or remove the mark."));
    let many = "(0.0, 0.0),".repeat(10_001);
    let said = only(&with(&format!("Pen(points: [{many}], pattern: Solid)"))).2;
    assert!(said.contains("there are 10001 points, 10000 are allowed"), "{said}");
    let said = only(&with("Text(at: (x: 0.0, y: 0.0), text: \"a\\u{7}\", size: 0.4)")).2;
    assert!(said.contains("U+0007"), "{said}");
    let said =
        only(&demo_with(&[("marks: [", "marks: [(id: 1.5, layer: Drill, ink: Plain, form: Cone(at: (x: 0, y: 0))),")]))
            .2;
    assert!(said.contains("page 1, mark 1, id: 0 is outside 1 to"), "{said}");
}

#[test]
fn a_shot_that_cannot_follow_is_told() {
    let said = only(&demo_with(&[("follows: false", "follows: true")])).2;
    assert!(said.contains("shot 1, follows: the first shot of a page has none before it"), "{said}");
    let mut board = Board::demo();
    let mut next = board.shot(0, 0).unwrap().turned();
    next.follows = true;
    board.page_mut(0).unwrap().shots.push(next);
    let text = file::to_text(&board).unwrap();
    assert_eq!(file::from_text(&text).unwrap().page(0).unwrap().shots.len(), 2);
    board.page_mut(0).unwrap().shots.insert(1, next.turned());
    let said = file::to_text(&board).unwrap_err().to_string();
    assert!(said.contains("shot 2, follows: the shot follows one that is struck from the same end"), "{said}");
    // A misspelt end is reported alone, without a problem of order.
    let text = text.replacen("hitter: Far", "hitter: Fare", 1);
    assert!(only(&text).2.contains("Did you mean `Far`?"));
    let wrong = demo_with(&[("opponent_place:", "recover_to: (x: 0.0, y: 1.0), opponent_place:")]);
    assert!(only(&wrong).2.contains("shot 1, recover_to.y: 1 m lies beyond the net"));
}

#[test]
fn cues_and_hidden_layers_are_checked_one_by_one() {
    let said = only(&demo_with(&[("cues: [", "cues: [3,")])).2;
    assert!(said.contains("page 1, cue 1: a text in quotes expected, found the number 3"), "{said}");
    let twice = demo_with(&[("hidden_layers: [", "hidden_layers: [Notes, Drill, Notes")]);
    assert!(only(&twice).2.contains("page 1, hidden_layers[2]: `Notes` is here twice"));
    let many = format!("cues: [{}", "\"a\",".repeat(50));
    assert!(only(&demo_with(&[("cues: [", &many)])).2.contains("there are 52 cues, 50 are allowed"));
}

#[test]
fn a_board_with_more_values_than_a_file_may_have_is_not_written() {
    let mut board = Board::demo();
    let marks = &mut board.page_mut(0).unwrap().marks;
    for _ in 0..40 {
        let points = (0..9_000).map(|i| glam::DVec2::new(0.0, f64::from(i) / 1000.0)).collect();
        let form = Form::Pen { points, pattern: Pattern::Solid };
        marks.add(Layer::Sketch, Ink::Plain, form);
    }
    let said = file::to_text(&board).unwrap_err().to_string();
    assert!(said.contains("more than 1000000 values"), "{said}");
    board.page_mut(0).unwrap().marks.list.truncate(36);
    board.tidy();
    let text = file::to_text(&board).unwrap();
    assert_eq!(file::from_text(&text).unwrap(), board);
}
