//! Shows that the program had to stop.

use std::path::PathBuf;

/// What is told.
#[derive(Debug, Clone, Default, clap::Args)]
pub struct StoppedArgs {
    /// Message of the fault.
    #[arg(long, default_value = "no more is known")]
    pub fault: String,
    /// Path of the report.
    #[arg(long)]
    pub report: Option<PathBuf>,
    /// What happened to the work; may be given several times.
    #[arg(long)]
    pub work: Vec<String>,
}
