//! Compares the places where players stood with those of the model.
//!
//! [`Auditor`] takes one shot; [`stream`] takes a file or a chart, on all cores; [`findings`] has the totals.
//! Errors are signed in the frame of the player: across is positive to their right, along is positive when they stood
//! too deep. The avoidable cost is measured against the best place that could be *reached* in time, not against
//! an unreachable spot.

mod ask;
pub(crate) mod by_name;
mod context;
mod direction;
mod fill;
pub mod findings;
mod group;
mod judge;
mod keyed;
mod merge;
mod moment;
mod refusal;
pub mod stream;
pub mod summary;
mod trend;

pub use ask::{Ask, Joiner, Origin, Served, asks};
pub use context::{Context, Length, Pressure, Role};
pub use direction::{Direction, FromSide};
pub use fill::{Assumed, Miss};
pub use findings::{Findings, Section};
pub use group::Group;
pub use judge::{APART_M, AuditedShot, Auditor, Compare, Judged, MIDDLE_SHARE, Outcome};
pub use refusal::{RefusalKind, message};
pub use stream::{AuditError, CollectedShots, Crew, Progress, Sink, Watch};
pub use summary::{Summary, SummaryError};
pub use trend::{Block, Trend, in_thirty_days};
