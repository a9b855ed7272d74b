//! Standpoint: a tactics board for tennis that shows where to stand.

fn main() -> std::process::ExitCode {
    standpoint_app::run()
}
