//! Reports of an audit, for people and programs.
//!
//! [`ReportModel`] is the whole report as plain data; [`ShotsCsv`], [`summary_csv`] and [`ReportJson`] write it. Numbers
//! are rounded to a tenth of a millimetre, of a millisecond and of a thousandth of a share.

mod findings;
mod model;
mod moments;
pub mod names;
mod row;
mod write;

pub use findings::{FIRST, FindingReport, TellReport};
pub use model::{
    BlockReport, ESTIMATE, Figure, GroupReport, HabitReport, InThirtyDays, Named, PlayerReport, ReadyReport, Reason,
    RecoveryHabit, RecoveryReport, ReportModel, TELLING, Table,
};
pub use moments::MomentReport;
pub use row::{BAD_ROW, ShotRow, bad_row, shot_row};
pub use write::{BadRowsCsv, JSON_VERSION, NoShots, Passing, ReportJson, ShotWriter, ShotsCsv, summary_csv};
