//! What really happened: charted points, and how far players stood from where the model would have them.
//!
//! * [`model`] is the chart: short rows of observed shots, with the players and the conditions.
//! * [`mod@file`] turns charts into text and back, [`check`] says everything that is wrong with one.
//! * [`score`] counts the match by the rules.
//! * [`import`] reads rows from CSV files with any columns, and tells every bad row.
//! * [`audit`] asks the model for each shot and compares; [`report`] puts the findings into tables and words.
//! * [`season`] reads a folder of matches.
//! * [`moments`] lists where to look in a video.
//! * [`notebook`] writes a chart by hand, place after place.
//! * [`insight`] ranks what an audit shows, [`scouting`] tells the habits of an opponent.
//! * [`filter`] takes parts of a chart.
//! * [`fit`] turns measurements and charts into players.
//!
//! Every figure that comes out of an audit is a model estimate: how the model's pair of players would have stood, not
//! what the real ones must do.

pub mod audit;
pub mod chance;
pub mod check;
pub mod date;
pub(crate) mod dice;
pub mod exact;
pub mod file;
pub mod filter;
pub mod fit;
pub mod import;
pub mod insight;
pub mod invented;
pub mod model;
pub mod moments;
pub mod notebook;
pub mod report;
pub mod score;
pub mod scouting;
pub mod season;
pub mod stats;

pub use date::Date;
pub use model::{Chart, Ends, ObservedShot, Point, SessionInfo, Setup, Who};
