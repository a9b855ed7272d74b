//! The audit on paper: a report with tables and drawings, as PDF.

mod draw;
mod input;
mod places;
mod tables;
mod text;

use std::io::{self, Write};

use standpoint_board::{Units, chart::Setup};
use standpoint_charting::{
    audit::AuditedShot,
    import::BadRow,
    pictures::Pictures,
    report::{ReportModel, ShotWriter},
};
use standpoint_sheet::Paper;

use places::Places;

/// Bad rows that are listed on paper; the rest is counted.
const LISTED: usize = 200;

/// Collects the input of a printed report during an audit, and writes it at the end.
pub struct PdfReport<W: Write> {
    out: W,
    setup: Setup,
    units: Units,
    paper: Paper,
    places: [Places; 2],
    pictures: Pictures,
    bad: Vec<BadRow>,
    unlisted: u64,
}

impl<W: Write> PdfReport<W> {
    /// A report for players and conditions.
    pub fn new(out: W, setup: &Setup, units: Units, paper: Paper) -> Self {
        let places = [Places::default(), Places::default()];
        let pictures = Pictures::new(&setup.court.court());
        Self { out, setup: setup.clone(), units, paper, places, pictures, bad: Vec::new(), unlisted: 0 }
    }
}

impl<W: Write> ShotWriter for PdfReport<W> {
    fn shot(&mut self, shot: &AuditedShot) -> io::Result<()> {
        if let Some(judged) = shot.judged() {
            let player = usize::from(shot.began == standpoint_geometry::End::Far);
            self.places[player].add(judged);
        }
        self.pictures.add(shot);
        Ok(())
    }

    fn bad(&mut self, row: &BadRow) -> io::Result<()> {
        if self.bad.len() < LISTED {
            self.bad.push(row.clone());
        } else {
            self.unlisted += 1;
        }
        Ok(())
    }

    fn finish(&mut self, report: &ReportModel) -> io::Result<()> {
        self.pictures.finish();
        let told = input::ReportInput {
            report,
            setup: &self.setup,
            units: self.units,
            paper: self.paper,
            places: &self.places,
            pictures: &self.pictures,
            bad: &self.bad,
            unlisted: self.unlisted,
        };
        let pdf = told.document().and_then(|document| document.to_pdf()).map_err(io::Error::other)?;
        self.out.write_all(&pdf)?;
        self.out.flush()
    }
}
