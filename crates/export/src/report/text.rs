//! Text and tables of the report.

use standpoint_charting::{
    pictures::{Kind, Picture},
    report::{FIRST, Figure as Spread, FindingReport, PlayerReport, RecoveryHabit, TellReport},
};
use standpoint_geometry::End;
use standpoint_language::{mark, text, tr, whole};
use standpoint_sheet::{Block, Document, Figure, KeyFigure, SheetError};
use standpoint_workbench::{
    chart::{names, trend},
    words,
};

use super::{
    draw,
    input::{FEWEST, ReportInput},
    tables::{percent, points},
};
use crate::pictures::PicturePress;

/// Footer of every page.
const FOOTER: &str = mark("Estimates of a model for these two players. A qualified coach decides.");
/// Width of the court and of half a line of drawings, points.
const COURT: f32 = 190.0;
const HALF: f32 = 225.0;
/// Pictures beside each other.
const BESIDE: usize = 2;
impl ReportInput<'_> {
    /// The report.
    ///
    /// # Errors
    /// When a drawing cannot be made.
    pub fn document(&self) -> Result<Document, SheetError> {
        let title = self.report.title.trim();
        let name =
            if title.is_empty() { text("Positioning report").to_owned() } else { tr!("Positioning report: {}", title) };
        let mut doc = Document::new(self.paper, name);
        doc.footer(text(FOOTER));
        if !self.report.complete {
            let rows = self.report.rows;
            doc.note(tr!("The report was stopped before its end: this is about the first {} rows.", rows));
        }
        for player in &self.report.players {
            self.player(&mut doc, player)?;
        }
        if self.report.players.is_empty() {
            doc.paragraph(text("No row could be read."));
        }
        self.meanings(&mut doc);
        self.bad_rows(&mut doc);
        Ok(doc)
    }

    fn player(&self, doc: &mut Document, player: &PlayerReport) -> Result<(), SheetError> {
        if player.all.judged == 0 {
            // Not worth a page of its own.
            doc.heading(player.name.clone());
        } else {
            doc.part(player.name.clone());
        }
        let level = names::group(player.level);
        let near = player.began == words::end(End::Near);
        let (title, hand) = (self.report.title.trim(), names::group(player.hand));
        let (shots, judged) = (words::shots(player.all.shots as usize), whole(player.all.judged as usize));
        doc.note(if near {
            tr!("{}. Began at the near end; level {}, {} hand. {}, {} judged.", title, level, hand, shots, judged)
        } else {
            tr!("{}. Began at the far end; level {}, {} hand. {}, {} judged.", title, level, hand, shots, judged)
        });
        if player.all.judged == 0 {
            doc.paragraph(text("No place could be judged."));
            return Ok(());
        }
        self.findings(doc, player);
        doc.key_figures(self.key_figures(player));
        doc.paragraph(sentence(player));
        let end = if player.began == words::end(End::Far) { 1 } else { 0 };
        let court = draw::court(&self.setup.court.court(), &self.places[end], COURT)?;
        let caption =
            text("Discs: where they stood, larger where it cost more; rings: where they should have. They face up.");
        let facts = self.facts(player);
        doc.add(Block::Beside(Figure::new(court).width(COURT).caption(caption), vec![Block::Table(facts)]));
        self.groups(doc, player);
        self.on_court(doc, player);
        self.pictures(doc, player)?;
        self.moments(doc, player);
        self.habits(doc, player);
        Ok(())
    }

    /// Findings about a player, and habits for their opponents.
    fn findings(&self, doc: &mut Document, player: &PlayerReport) {
        let own = self.report.findings.iter().filter(|finding| finding.began() == player.began);
        let said: Vec<String> = own.take(FIRST).map(FindingReport::sentence).collect();
        if said.is_empty() {
            doc.paragraph(text("No group of shots differs beyond luck from the others."));
        } else {
            doc.steps(said);
        }
        if !player.tells.is_empty() {
            doc.subheading(text("To know as an opponent"));
            doc.bullets(player.tells.iter().take(FIRST).map(TellReport::sentence));
        }
    }

    fn key_figures(&self, player: &PlayerReport) -> Vec<KeyFigure> {
        let all = &player.all;
        let length = |figure: &Spread| words::fine_length(figure.mean.unwrap_or_default().abs(), self.units);
        let side = |figure: &Spread, above: &'static str, below: &'static str| {
            if figure.mean.unwrap_or_default() < 0.0 { below } else { above }
        };
        let mut figures = vec![
            KeyFigure::new(points(all.avoidable.mean), text("points in 100 given away by the place")),
            KeyFigure::new(length(&all.across), side(&all.across, text("to the right"), text("to the left"))),
            KeyFigure::new(length(&all.along), side(&all.along, text("too deep"), text("too far forward"))),
        ];
        if let Some(share) = all.to_the_middle {
            figures.push(KeyFigure::new(
                format!("{} %", percent(share.value)),
                text("stood in the middle, where it mattered"),
            ));
        }
        figures
    }

    /// Pictures on the court, as far as there are enough shots for them.
    fn on_court(&self, doc: &mut Document, player: &PlayerReport) {
        let end = if player.began == words::end(End::Far) { End::Far } else { End::Near };
        let all = self.pictures.player(end).iter();
        // Positions stand on the first page already.
        let wanted: Vec<&Picture> = all.filter(|of| of.tells() && of.kind != Kind::Positions).collect();
        let Ok(mut press) = PicturePress::new() else { return };
        let court = self.setup.court.court();
        for (i, row) in wanted.chunks(BESIDE).enumerate() {
            if i == 0 {
                doc.heading(text("On the court"));
            }
            let drawing = press.drawing(row, &court, self.units, (BESIDE, HALF));
            let width = drawing.width;
            doc.figure(Figure::new(drawing).width(width));
        }
    }

    fn pictures(&self, doc: &mut Document, player: &PlayerReport) -> Result<(), SheetError> {
        if player.all.judged < FEWEST {
            return Ok(());
        }
        doc.heading(text("How the errors are spread"));
        let (unit, name, _) = words::length_unit(self.units);
        let pictures = [
            (&player.across, 1.0 / unit, 1, tr!("Left-right: left to right, {}", name)),
            (&player.along, 1.0 / unit, 1, tr!("Depth: too far forward to too deep, {}", name)),
            (&player.avoidable, 100.0, 0, text("Points given away, in 100").to_owned()),
        ];
        let caption = text("Each from the best place in reach, which is at the dashed line.");
        doc.figure(Figure::new(draw::histograms(&pictures, 2.0 * HALF)?).width(2.0 * HALF).caption(caption));
        if player.blocks.len() > 1 {
            doc.heading(text("How they change"));
            let values = |of: fn(&standpoint_charting::report::BlockReport) -> Option<f64>| -> Vec<f64> {
                player.blocks.iter().map(|block| of(block).unwrap_or_default() / unit).collect()
            };
            let drawing = draw::trend(&values(|block| block.across), &values(|block| block.along), name, 2.0 * HALF)?;
            let length = player.blocks.first().map_or(1, |block| block.shots);
            let caption = tr!("Mean error over {} judged shots in a row each: left-right solid, depth dashed.", length);
            doc.figure(Figure::new(drawing).width(2.0 * HALF).caption(caption));
            doc.bullets(trend::sentences(player, self.units));
        }
        Ok(())
    }

    fn meanings(&self, doc: &mut Document) {
        doc.heading(text("What the figures mean"));
        doc.paragraph(text(self.report.estimate));
        doc.bullets([
            text(
                "The spot is where the opponent wins least. The best place in reach is the one that could be run \
                  to by the opponent's contact; it is the spot when there was time.",
            ),
            text(
                "Points given away are those that the opponent wins beyond what the best place in reach allows; \
                  against the spot, beyond what the spot allows.",
            ),
            text(
                "In the middle: nearer to the middle than a third of the way to where they should have been, counted only where the two are at least 0.4 m apart.",
            ),
            text("In brackets stands the interval at 95 %. Single shots say little."),
            text("Places noted by eye are good to half a metre; no report can be better than its chart."),
        ]);
        doc.note(text(
            "To be talked over with a qualified coach. Warm up, clear loose balls, and mind heat and load when you train; medical questions go to a professional.",
        ));
    }
}

/// Where the player recovers to, in a sentence.
fn sentence(player: &PlayerReport) -> String {
    let what = match player.recovery.habit {
        RecoveryHabit::TooFew => {
            return text("Too few shots that count to say where this player recovers to.").to_owned();
        }
        RecoveryHabit::Middle => text("Recovers to the middle, whatever the ball"),
        RecoveryHabit::Spot => text("Recovers to where the model says"),
        RecoveryHabit::Between => {
            text("Recovers between the middle and where the model says, or now here and now there")
        }
    };
    tr!("{0}, shown by {n} shot that counts." | "{0}, shown by {n} shots that count." % player.recovery.telling, what)
}
