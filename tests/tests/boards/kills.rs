//! Killing the program in the middle of saving, again and again, loses nothing.
//!
//! Each round starts a process that saves one board after the other to the same file and reports each save, and kills
//! it without warning at a varying moment. The file must then load, and hold the last board reported or the one after
//! it.

use std::{
    env, fs,
    io::{BufRead, BufReader, Write},
    path::Path,
    process::{Command, Stdio},
    sync::Arc,
    thread,
    time::{Duration, Instant},
};

use standpoint_board::{Board, file, store};

/// Tells the saving process what to save to.
const PATH: &str = "STANDPOINT_TEST_SAVE_TO";
/// Environment variable with the number of kills, see [`rounds`].
const ROUNDS: &str = "STANDPOINT_TEST_KILLS";
/// Prefix of the count in a report of a save; tells it from other test output.
const SAVED: &str = "saved #";

/// Default number of kills.
const KILLS: u64 = 500;
/// Fewest kills when [`PATIENCE`] runs out on a busy machine; a number from the environment overrides it.
const AT_LEAST: u64 = 150;
/// Time after which [`AT_LEAST`] kills are enough.
const PATIENCE: Duration = Duration::from_secs(60);

/// The number of kills that the environment asks for.
fn rounds() -> Option<u64> {
    env::var(ROUNDS).ok()?.parse().ok()
}

/// The board with this count as text: small and large boards in turn.
fn text(count: u64, templates: &[String; 2]) -> String {
    templates[(count % 2) as usize].replacen("COUNT", &count.to_string(), 1)
}

fn templates() -> [String; 2] {
    let board = Board { title: "COUNT".to_owned(), ..Board::demo() };
    let mut large = board.clone();
    large.pages = (0..150).map(|_| Arc::clone(&board.pages[0])).collect();
    [file::to_text(&board).unwrap(), file::to_text(&large).unwrap()]
}

fn count_in(path: &Path) -> u64 {
    let board = store::load_board(path).unwrap_or_else(|error| panic!("{error}"));
    let count = board.title.parse().unwrap();
    assert_eq!(board.pages.len(), if count % 2 == 0 { 1 } else { 150 }, "the file of another board");
    count
}

#[test]
#[ignore = "the process that the next test kills"]
fn saves_until_it_is_killed() {
    let path = env::var_os(PATH).expect("started by the test of kills");
    let (path, templates) = (Path::new(&path), templates());
    let mut out = std::io::stdout();
    for count in count_in(path) + 1.. {
        store::save_text(path, &text(count, &templates)).unwrap();
        writeln!(out, "{SAVED}{count}").and_then(|()| out.flush()).unwrap();
    }
}

#[test]
fn killed_in_the_middle_of_saving_nothing_is_lost_and_the_file_always_loads() {
    let (began, asked) = (Instant::now(), rounds());
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("board.standpoint");
    store::save_text(&path, &text(0, &templates())).unwrap();
    let (mut left_over, mut unsaid) = (0, 0);
    let mut rounds = 0;
    for round in 0..asked.unwrap_or(KILLS) {
        if asked.is_none() && round >= AT_LEAST && began.elapsed() > PATIENCE {
            break;
        }
        rounds += 1;
        let mut process = Command::new(env::current_exe().unwrap())
            .args(["--exact", "kills::saves_until_it_is_killed", "--ignored", "--nocapture"])
            .env(PATH, &path)
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let mut out = BufReader::new(process.stdout.take().unwrap());
        let mut first = String::new();
        // Wait for the first save, so that the process is at work. The kill times then spread evenly over two saves.
        while !first.contains(SAVED) {
            first.clear();
            assert!(out.read_line(&mut first).unwrap() > 0, "the process saved nothing");
        }
        thread::sleep(Duration::from_micros(round * 7919 % 9000));
        process.kill().unwrap();
        process.wait().unwrap();
        let told = out.lines().map_while(Result::ok).chain([first]);
        let told: u64 =
            told.filter_map(|line| line.split_once(SAVED)?.1.trim().parse().ok()).max().expect("a save was told");
        let found = count_in(&path);
        assert!(found == told || found == told + 1, "round {round}: {told} was saved, {found} is there");
        unsaid += found - told;
        left_over += usize::from(fs::read_dir(dir.path()).unwrap().count() > 1);
    }
    store::save_text(&path, &text(0, &templates())).unwrap();
    let names: Vec<_> = fs::read_dir(dir.path()).unwrap().map(|entry| entry.unwrap().file_name()).collect();
    assert_eq!(names, ["board.standpoint"], "the next save sweeps up");
    eprintln!(
        "{rounds} kills in {:.1} s: {left_over} left a temporary file, {unsaid} came between rename and report",
        began.elapsed().as_secs_f64()
    );
    assert!(left_over * 20 > rounds as usize, "the kills missed the saves: {left_over} of {rounds}");
}
