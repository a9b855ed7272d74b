//! Saying that the program had to stop.

use std::path::PathBuf;

/// What is told.
#[derive(Debug, Clone, Default, clap::Args)]
pub struct StoppedArgs {
    /// What the fault says of itself.
    #[arg(long, default_value = "no more is known")]
    pub fault: String,
    /// Where it is written down.
    #[arg(long)]
    pub report: Option<PathBuf>,
    /// What has become of the work; may be given several times.
    #[arg(long)]
    pub work: Vec<String>,
}
