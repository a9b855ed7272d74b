//! Hostile input to the command line, which must do no harm.

#![allow(clippy::unwrap_used, reason = "a test that fails says where")]

mod cli_support;

use std::{
    fs,
    io::{Read as _, Write as _},
    process::{Child, Command, Stdio},
    thread,
    time::{Duration, Instant},
};

use standpoint_board::{Board, chart::Setup};
use standpoint_charting::{
    import::{Mapping, read_chart, write_chart},
    invented::{self, Habit},
};

use cli_support::{BoardFolder, CAUSES, standpoint};

/// A table of a few invented points; `times` repeats its rows.
fn rows(times: usize) -> String {
    let chart = invented::chart(&Setup::default(), 7, 4, [Habit::EXPERT, Habit::MIDDLE]);
    let mut table = Vec::new();
    write_chart(&chart, &Mapping::default(), &mut table).unwrap();
    let table = String::from_utf8(table).unwrap();
    let (heading, rows) = table.split_once('\n').unwrap();
    format!("{heading}\n{}", rows.repeat(times))
}

fn records(text: &str) -> Vec<Vec<String>> {
    let mut reader = csv::ReaderBuilder::new().has_headers(false).from_reader(text.as_bytes());
    reader.records().map(|row| row.unwrap().iter().map(str::to_owned).collect()).collect()
}

/// Starts an audit of standard input.
fn audit(words: &[&str], input: Stdio) -> Child {
    Command::new(env!("CARGO_BIN_EXE_standpoint"))
        .args(["audit", "--quick"])
        .args(words)
        .stdin(input)
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap()
}

fn words(mut stream: impl std::io::Read) -> String {
    let mut said = Vec::new();
    stream.read_to_end(&mut said).unwrap();
    String::from_utf8(said).unwrap()
}

/// The peak memory of a process, MB.
#[cfg(target_os = "linux")]
fn peak_mb(child: &Child) -> Option<u64> {
    let status = fs::read_to_string(format!("/proc/{}/status", child.id())).ok()?;
    let line = status.lines().find(|line| line.starts_with("VmHWM:"))?;
    line.split_whitespace().nth(1)?.parse().ok().map(|kb: u64| kb / 1024)
}

#[cfg(target_os = "linux")]
#[test]
fn a_line_that_never_ends_is_refused_in_little_memory() {
    let mut child = audit(&["-"], Stdio::piped());
    let mut input = child.stdin.take().unwrap();
    let (piece, mut most) = (vec![b'x'; 1 << 20], 0);
    // The program exits long before all of this is written.
    for _ in 0..200 {
        if input.write_all(&piece).is_err() {
            break;
        }
        most = most.max(peak_mb(&child).unwrap_or(0));
    }
    drop(input);
    let said = words(child.stderr.take().unwrap());
    assert_eq!(child.wait().unwrap().code(), Some(1));
    assert!(
        said.contains("the row that begins in line 1 goes on for more than 1048576 bytes — Close a quote"),
        "{said}"
    );
    assert!(said.len() < 400 && most < 100, "{most} MB\n{said}");
}

#[test]
fn a_heading_however_long_is_told_in_a_few_words() {
    let desk = BoardFolder::new();
    let many: Vec<String> = (0..50_000).map(|i| format!("column {i}")).collect();
    for heading in ["a".repeat(100_000_000), "a".repeat(900_000), many.join(",")] {
        let said = standpoint(&["audit", &desk.file("long.csv", &format!("{heading}\n1\n"))]);
        assert!(said.code == 1 && said.err.len() < 3000, "{} bytes: {:.300}", said.err.len(), said.err);
    }
    let said = standpoint(&["audit", &desk.file("many.csv", &format!("{}\n", many.join(",")))]);
    assert!(said.err.contains("`column 0`, `column 1`") && said.err.contains("and 49960 more"), "{}", said.err);
    let cell = format!(
        "{}\n",
        rows(1).lines().take(2).collect::<Vec<_>>().join("\n").replacen("near", &"n".repeat(500_000), 1)
    );
    let said = standpoint(&["audit", &desk.file("cell.csv", &cell)]);
    assert!(said.code == 1 && said.err.len() < 3000, "{:.300}", said.err);
}

#[test]
fn a_reader_that_goes_away_is_no_fault() {
    let desk = BoardFolder::new();
    let file = desk.file("rows.csv", &rows(20));
    for form in [&["--csv"][..], &["--json"], &[]] {
        for lines in [0, 1] {
            let mut child = audit(&[&[file.as_str()], form].concat(), Stdio::null());
            let mut out = child.stdout.take().unwrap();
            let mut byte = [0];
            for _ in 0..lines {
                while out.read(&mut byte).unwrap() > 0 && byte[0] != b'\n' {}
            }
            drop(out);
            let said = words(child.stderr.take().unwrap());
            assert_eq!((child.wait().unwrap().code(), said.as_str()), (Some(0), ""), "{form:?} after {lines} lines");
        }
    }
}

#[test]
fn more_threads_than_the_machine_has_are_not_begun_and_that_is_said() {
    let desk = BoardFolder::new();
    let file = desk.file("rows.csv", &rows(1));
    let cores = thread::available_parallelism().unwrap();
    let told = format!("--threads 100000 is more than the {cores} of this machine, so {cores} compute");
    for command in ["audit", "scout"] {
        let said = standpoint(&[command, &file, "--threads", "100000"]);
        assert!(said.code == 0 && said.err.contains(&told), "{}", said.err);
        assert_eq!(said.out, standpoint(&[command, &file, "--threads", "1"]).out);
    }
}

/// Sends a signal and returns the program's output, after it has ended in time with the exit code of that signal.
#[cfg(unix)]
fn ends_soon(mut child: Child, signal: &str) -> String {
    let began = Instant::now();
    // Some senders signal a program twice, once through its process group; the program must treat this as one request.
    for _ in 0..2 {
        assert!(Command::new("kill").args([signal, &child.id().to_string()]).status().unwrap().success());
    }
    while child.try_wait().unwrap().is_none() {
        assert!(began.elapsed() < Duration::from_secs(30), "it does not end");
        thread::sleep(Duration::from_millis(2));
    }
    // The program promises one second; the limit is wider because a busy machine starts and ends processes slowly.
    assert!(began.elapsed() < Duration::from_secs(3), "{:?}", began.elapsed());
    let status = child.wait().unwrap();
    let by_signal = std::os::unix::process::ExitStatusExt::signal(&status).is_some();
    assert!(status.code() == Some(130) || by_signal, "{status}");
    words(child.stderr.take().unwrap())
}

#[cfg(unix)]
#[test]
fn a_signal_ends_an_audit_that_waits_for_rows_and_what_is_done_is_kept() {
    for signal in ["-INT", "-TERM"] {
        let mut child = audit(&["-", "--csv"], Stdio::piped());
        let mut input = child.stdin.take().unwrap();
        input.write_all(rows(60).as_bytes()).unwrap();
        input.flush().unwrap();
        // The first rows are out, so the audit is running; it then waits for more, because the input stays open.
        let mut out = child.stdout.take().unwrap();
        let mut first = [0; 1000];
        out.read_exact(&mut first).unwrap();
        let rest = thread::spawn(move || words(out));
        let said = ends_soon(child, signal);
        let table = String::from_utf8(first.to_vec()).unwrap() + &rest.join().unwrap();
        let done = records(&table).len() - 1;
        assert!(said.contains(&format!("stopped before the end; the first {done} rows are done")), "{said}");
        drop(input);
    }
}

#[cfg(unix)]
#[test]
fn a_signal_ends_an_audit_whose_answer_nobody_reads() {
    let desk = BoardFolder::new();
    let file = desk.file("rows.csv", &rows(400));
    let mut child = audit(&[&file, "--csv"], Stdio::null());
    let mut out = child.stdout.take().unwrap();
    let mut first = [0; 1000];
    out.read_exact(&mut first).unwrap();
    let said = ends_soon(child, "-TERM");
    assert!(said.contains("stopped"), "{said}");
    drop(out);
}

#[cfg(unix)]
#[test]
fn a_signal_ends_every_long_command() {
    let desk = BoardFolder::new();
    let (demo, cache) = (desk.demo(), desk.path("solved"));
    let page = desk.path("points.csv");
    let long: [&[&str]; 4] = [
        &["solve", &demo],
        &["worth", &demo],
        &["simulate", &demo, "--points", "200000", "--rows", page.to_str().unwrap()],
        &["sweep", &demo, "--cause", "speed", "--steps", "500", "--quick"],
    ];
    for words in long {
        let child = Command::new(env!("CARGO_BIN_EXE_standpoint"))
            .args(words)
            .env(standpoint_workbench::solved::CACHE_DIR_VARIABLE, &cache)
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        thread::sleep(Duration::from_millis(400));
        ends_soon(child, "-TERM");
        let left: Vec<_> =
            fs::read_dir(page.parent().unwrap()).unwrap().map(|entry| entry.unwrap().file_name()).collect();
        let known = |name: &std::ffi::OsString| name == "solved" || name == "demo.standpoint";
        assert!(left.iter().all(known), "{left:?}");
    }
}

/// A table with texts that a spreadsheet would run as formulas.
fn formulas() -> String {
    rows(1).replace("Session 1", "=HYPERLINK(0)").lines().enumerate().fold(String::new(), |text, (i, line)| {
        let mut cells: Vec<String> = line.split(',').map(str::to_owned).collect();
        if i > 0 {
            cells[0] = ["=1+1", "+A1", "-A1", "@SUM(A1)", "''=quoted"][i % 5].to_owned();
            cells[1] = format!("=cmd|{}", cells[1]);
        }
        text + &cells.join(",") + "\n"
    })
}

#[test]
fn no_text_of_a_table_is_run_by_a_spreadsheet_and_ours_come_back_as_they_were() {
    let desk = BoardFolder::new();
    let file = desk.file("formulas.csv", &formulas());
    let summary = desk.path("summary.csv");
    let said = standpoint(&["audit", &file, "--csv", "--summary", summary.to_str().unwrap()]);
    assert_eq!((said.code, said.err.as_str()), (0, ""));
    let runs = |cell: &String| cell.starts_with(['=', '+', '-', '@', '\t', '\r']) && cell.parse::<f64>().is_err();
    let (shots, groups) = (records(&said.out), records(&fs::read_to_string(&summary).unwrap()));
    for table in [&shots, &groups] {
        assert!(table.iter().flatten().all(|cell| !runs(cell)), "{table:?}");
        assert!(table.iter().flatten().any(|cell| cell == "'=1+1"));
        assert!(table.iter().flatten().any(|cell| cell == "''=quoted"));
        assert!(table.iter().flatten().any(|cell| cell.starts_with('-')), "numbers stay numbers");
    }
    // Messages about bad rows quote headings of the file.
    let bad = desk.path("bad.csv");
    let named = formulas().replacen("wing", "=wing", 1).replace("forehand", "sideways");
    let named = desk.file("named.csv", &named);
    let said = standpoint(&["audit", &named, "--map", "wing==wing", "--bad-rows", bad.to_str().unwrap()]);
    assert_eq!(said.code, 1);
    let bad = records(&fs::read_to_string(&bad).unwrap());
    assert!(bad.len() > 1 && bad.iter().flatten().all(|cell| !runs(cell)), "{bad:?}");
    // A chart exported as a table and imported again is the same, whatever its texts.
    let read = |text: &str| read_chart(text.as_bytes(), &Mapping::default(), Setup::default()).unwrap().chart;
    let chart = read(&formulas());
    assert!(chart.points.iter().any(|point| point.session == "=1+1" && point.label.starts_with("=cmd|")));
    let mut table = Vec::new();
    write_chart(&chart, &Mapping::default(), &mut table).unwrap();
    let table = String::from_utf8(table).unwrap();
    assert!(records(&table).iter().flatten().all(|cell| !runs(cell)));
    assert_eq!(read(&table).points, chart.points);
}

#[test]
fn an_absurd_range_is_blamed_itself_and_told_in_few_digits() {
    let desk = BoardFolder::new();
    let demo = desk.demo();
    let digits = "9".repeat(300);
    for cause in CAUSES {
        for (from, to) in
            [("-1e300", "1e300"), ("-1e308", "1.7e308"), ("1e6", "1e7"), ("-5000", "-4000"), ("0", digits.as_str())]
        {
            let said = standpoint(&["sweep", &demo, "--cause", cause, "--from", from, "--to", to, "--steps", "2"]);
            let told = said.err.contains("the range from") && said.err.contains("goes beyond what can be computed");
            assert!(said.code == 1 && told && said.err.len() < 400, "{}", said.err);
            assert!(!said.err.contains("NaN") && said.err.contains("Keep --from and --to within"), "{}", said.err);
        }
    }
    let far = standpoint_board::file::to_text(&Board::demo()).unwrap().replacen("target: (x: ", "target: (x: 1", 1);
    let far = far.replacen("speed_kmh: ", &format!("speed_kmh: {digits}"), 1);
    for words in [vec!["check", "far.standpoint"], vec!["solve", "far.standpoint", "--page", &digits]] {
        let mut words: Vec<String> = words.into_iter().map(str::to_owned).collect();
        words[1] = desk.file("far.standpoint", &far);
        let said = standpoint(&words.iter().map(String::as_str).collect::<Vec<_>>());
        let line = |line: &str| !line.contains(&"9".repeat(50));
        assert!(said.code != 0 && said.err.lines().chain(said.out.lines()).all(line), "{}{}", said.out, said.err);
    }
}

#[test]
fn what_a_terminal_would_obey_does_not_reach_it() {
    let desk = BoardFolder::new();
    let (turned, mark) =
        ("Board \u{202e}draob\u{2066}\u{200f}", ['\u{202e}', '\u{2066}', '\u{200f}', '\u{1b}', '\u{9b}']);
    let board = Board { title: turned.to_owned(), ..Board::demo() };
    let file = desk.board("a.standpoint", &board);
    let shown = "Board \\u202edraob\\u2066\\u200f";
    let said = standpoint(&["solve", &file]);
    assert!(said.code == 0 && said.out.contains(shown) && !said.out.contains(mark), "{}", said.out);
    // In JSON these characters are escaped, so a program reads the title unchanged.
    let said = standpoint(&["solve", &file, "--json"]);
    assert!(!said.out.contains(mark));
    let answer: serde_json::Value = serde_json::from_str(&said.out).unwrap();
    assert_eq!(answer.pointer("/source/title").unwrap(), turned);
    // Table cells, file names and command-line arguments, quoted in messages.
    let cells = rows(1).replacen("near", "n\u{1b}[2J\u{202e}\u{9b}", 1);
    let said = standpoint(&["audit", &desk.file("a\u{202e}vsc.csv", &cells)]);
    assert!(said.code == 1 && said.err.contains("n\\u001b[2J\\u202e\\u009b"), "{}", said.err);
    assert!(!said.err.contains(mark) && !said.out.contains(mark), "{}{}", said.err, said.out);
    let said = standpoint(&["solve", &file, "--page", "\u{1b}[2J\u{202e}"]);
    assert!(said.code == 2 && !said.err.contains(mark), "{}", said.err);
}

#[cfg(unix)]
#[test]
fn a_home_that_is_no_whole_path_is_told_and_nothing_is_written_into_the_working_folder() {
    let desk = BoardFolder::new();
    let demo = desk.demo();
    let here = desk.path("here");
    fs::create_dir(&here).unwrap();
    let mut command = Command::new(env!("CARGO_BIN_EXE_standpoint"));
    for name in ["XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_CACHE_HOME", "XDG_STATE_HOME", "STANDPOINT_CACHE_DIR"] {
        command.env_remove(name);
    }
    let mut child = command
        .args(["solve", &demo])
        .current_dir(&here)
        .env("HOME", "some/folder")
        .stdout(Stdio::null())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let mut said = Vec::new();
    let mut errors = child.stderr.take().unwrap();
    let mut byte = [0];
    // Both sentences are printed before the rally is solved, which is slow.
    while said.iter().filter(|byte| **byte == b'\n').count() < 2 && errors.read(&mut byte).unwrap() > 0 {
        said.push(byte[0]);
    }
    child.kill().unwrap();
    child.wait().unwrap();
    let said = String::from_utf8(said).unwrap();
    assert!(said.contains("HOME is `some/folder`, which is not a whole path, so nothing is kept"), "{said}");
    assert!(!said.contains("kept for the next time"), "{said}");
    assert_eq!(fs::read_dir(&here).unwrap().count(), 0);
}

#[cfg(unix)]
#[test]
fn an_answer_that_takes_the_place_of_a_file_with_other_names_says_so() {
    let desk = BoardFolder::new();
    let (file, demo) = (desk.file("rows.csv", &rows(1)), desk.demo());
    for (name, words) in [("answer.csv", vec!["audit", &file, "--csv", "-o"]), ("page.svg", vec!["sheet", &demo, "-o"])]
    {
        let (path, other) = (desk.path(name), desk.path("other"));
        fs::write(&path, "former").unwrap();
        fs::hard_link(&path, &other).unwrap();
        let said = standpoint(&[&words[..], &[path.to_str().unwrap()]].concat());
        assert!(
            said.code == 0 && said.err.contains("its other names (hard links) keep what was there before"),
            "{}",
            said.err
        );
        assert_eq!(fs::read_to_string(&other).unwrap(), "former");
        assert_ne!(fs::read_to_string(&path).unwrap(), "former");
        let again = standpoint(&[&words[..], &[path.to_str().unwrap()]].concat());
        assert!(!again.err.contains("hard links"), "{}", again.err);
        fs::remove_file(&other).unwrap();
    }
}

#[test]
fn every_command_and_every_exit_code_stands_in_the_documents() {
    use clap::CommandFactory as _;
    let codes = [
        standpoint_cli::EXIT_OK,
        standpoint_cli::EXIT_INPUT,
        standpoint_cli::EXIT_USAGE,
        standpoint_cli::EXIT_NO_DISPLAY,
        standpoint_app::EXIT_FAULT,
        standpoint_cli::EXIT_STOPPED,
    ];
    for document in ["command-line.md", "command-line.de.md"] {
        let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs").join(document);
        let text = fs::read_to_string(path).unwrap();
        for command in standpoint_cli::Cli::command().get_subcommands().filter(|command| !command.is_hide_set()) {
            let name = command.get_name();
            assert!(text.contains(&format!("\nstandpoint {name} ")), "{document} does not list {name}");
            assert!(text.contains(&format!("\n### `{name}`\n")), "{document} does not describe {name}");
        }
        for code in codes {
            assert!(text.contains(&format!("\n| {code} | ")), "{document} does not explain the exit code {code}");
        }
    }
}
