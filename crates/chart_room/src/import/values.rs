//! What the words of a file mean: strokes, wings, players and all else that is told by a word.

use egui::{ComboBox, RichText, ScrollArea, Ui};
use standpoint_board::chart::Setup;
use standpoint_charting::import::{Column, Mapping, meanings};
use standpoint_language::{text, tr};
use standpoint_ui::theme::{Theme, focus::Following as _, style};
use standpoint_workbench::chart::{names, sample::Sample};

/// Height of the list, points.
const HEIGHT: f32 = 132.0;
/// Width of a word with its column, points.
const WORD: f32 = 190.0;

/// The words of the file that are not the program's own, each with its meaning; whether a meaning was changed.
pub fn ui(ui: &mut Ui, sample: &Sample, mapping: &mut Mapping, setup: &Setup, theme: &Theme) {
    if sample.words.is_empty() {
        return;
    }
    let open = sample.words.iter().flat_map(|(column, words)| words.keys().map(move |word| (*column, word)));
    let open = open.filter(|(column, word)| meaning(mapping, *column, word).is_none()).count();
    let title = if open == 0 {
        text("Words of the file").to_owned()
    } else {
        tr!("Words of the file: one has no meaning yet" | "Words of the file: {n} have no meaning yet" % open)
    };
    let color = if open == 0 { *theme.ui.ink } else { *theme.ui.warn };
    ui.label(RichText::new(title).text_style(style::emphasis()).color(color));
    ScrollArea::vertical().id_salt("words").max_height(HEIGHT).auto_shrink([false, true]).show_following(ui, |ui| {
        ui.horizontal_wrapped(|ui| {
            for (column, words) in &sample.words {
                for (word, count) in words {
                    one(ui, (*column, word, *count), mapping, setup, theme);
                }
            }
        });
    });
}

fn meaning(mapping: &Mapping, column: Column, word: &str) -> Option<String> {
    mapping.values.get(&column)?.get(word).cloned()
}

fn one(ui: &mut Ui, (column, word, count): (Column, &str, u64), mapping: &mut Mapping, setup: &Setup, theme: &Theme) {
    ui.horizontal(|ui| {
        let said = tr!("{0}: “{1}”", names::column(column), word);
        let times = tr!("once among the first rows" | "{n} times among the first rows" % count as usize);
        let label = super::label(ui, said.as_str(), WORD, theme).on_hover_text(times);
        let now = meaning(mapping, column, word);
        let shown =
            now.as_deref().map_or_else(|| text("not read").to_owned(), |name| names::value(column, name, setup));
        let combo = ComboBox::from_id_salt(("word", column.name(), word)).width(112.0).truncate().selected_text(shown);
        let combo = combo.show_ui(ui, |ui| {
            if ui.selectable_label(now.is_none(), text("not read")).clicked()
                && let Some(words) = mapping.values.get_mut(&column)
            {
                words.remove(word);
            }
            for name in meanings(column) {
                let chosen = now.as_deref() == Some(name);
                if ui.selectable_label(chosen, names::value(column, name, setup)).clicked() {
                    mapping.values.entry(column).or_default().insert(word.to_owned(), name.to_owned());
                }
            }
        });
        combo.response.labelled_by(label.id);
    });
}
