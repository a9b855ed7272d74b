//! Analysis of charts: how far players stood from the model's places, and what follows from it.
//!
//! The chart itself, with its file and its score, is [`standpoint_board::chart`].
//!
//! * [`notebook`] writes a chart by hand, place after place.
//! * [`import`] reads rows from CSV files with any columns and reports every bad row; [`season`] reads a folder of matches.
//! * [`audit`] compares each shot with the model; [`report`] makes tables and texts of the findings.
//! * [`insight`] ranks findings; [`scouting`] describes the habits of an opponent.
//! * [`pictures`] gathers the drawings of shots on a court; [`practice`] makes drills and rehearsals of findings.
//! * [`moments`] lists positions in a video.
//! * [`filter`] takes parts of a chart.
//! * [`fit`] turns measurements and charts into players.
//! * [`stats`], [`chance`] and [`exact`] have the statistics; [`invented`] makes test charts.
//!
//! Every figure of an audit is a model estimate: how the model's pair of players would have stood, not what the real
//! ones must do.
//!
//! No window and no clock. Charts are audited on all cores.

pub mod audit;
pub mod chance;
pub mod exact;
pub mod filter;
pub mod fit;
pub mod import;
pub mod insight;
pub mod invented;
pub mod moments;
pub mod notebook;
pub mod pictures;
pub mod practice;
pub mod report;
pub mod scouting;
pub mod season;
pub mod spreadsheet;
pub mod stats;

/// Connects the texts of this crate and of those below it to [`standpoint_language::speak`]; before that they are
/// English.
pub fn speak_up() {
    static ONCE: std::sync::Once = std::sync::Once::new();
    ONCE.call_once(|| {
        standpoint_language::set_translator!(standpoint_language::Catalogue);
        standpoint_board::speak_up();
    });
}
