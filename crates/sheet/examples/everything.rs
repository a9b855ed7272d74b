//! Writes a document with everything in it, for a person to look at: `cargo run -p standpoint-sheet --example everything`.

use standpoint_sheet::{Block, Column, Document, Drawing, Figure, KeyFigure, Paper, Table};

fn court() -> Drawing {
    Drawing::new(200.0, 400.0, "<rect x=\"1\" y=\"1\" width=\"198\" height=\"398\" fill=\"none\" stroke=\"#14181A\"/>")
}

fn long_text(words: usize) -> String {
    (0..words).map(|i| format!("word{i}")).collect::<Vec<_>>().join(" ")
}

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut document = Document::new(Paper::A4, "Everything a document can hold");
    document.contents(true);
    document.footer("Figures are estimates of a model");
    document.part("First part with a title so long that it has to be wrapped into a second line of large letters");
    document.key_figures([
        KeyFigure::new("23.4", "points lost in 100"),
        KeyFigure::new("0.42 s", "to spare"),
        KeyFigure::new("1.4 m", "short of the spot"),
    ]);
    document.add(Block::Beside(
        Figure::new(court()).width(190.0).caption("A court, one day"),
        vec![
            Block::Subheading("Feed".to_owned()),
            Block::Paragraph("From the basket, waist high, every four seconds.".to_owned()),
            Block::Subheading("Setting up".to_owned()),
            Block::Table({
                let mut table = Table::new([Column::left("What"), Column::left("Across"), Column::left("Along")]);
                table.row(["Cone A", "1.20 m inside the right singles sideline", "0.90 m behind the service line"]);
                table.row(["Basket", "0.50 m left of the centre mark", "on the baseline"]);
                table
            }),
            Block::Steps(vec!["Mara hits cross-court".to_owned(), "Ivo answers down the line".to_owned()]),
            Block::Bullets(vec!["Split as the other strikes".to_owned(), long_text(40)]),
        ],
    ));
    document.heading("More");
    document.paragraph(long_text(300));
    document.note("A note in small letters.");
    document.figure(Figure::new(court()).width(60.0).caption("Small"));
    document.part("Second part");
    let path = std::env::args_os().nth(1).unwrap_or_else(|| "everything.pdf".into());
    std::fs::write(path, document.to_pdf()?)?;
    Ok(())
}
