//! Commands of the comparison of shots.

use standpoint_language::tr;
use standpoint_ui::commands::CompareCommand;
use standpoint_workbench::{
    compare::{
        self,
        state::{Change, Page},
    },
    edit::Edit,
    settings::Layers,
};

use crate::app::App;

impl App {
    pub(super) fn run_on_compare(&mut self, command: CompareCommand) {
        match command {
            CompareCommand::Compare => self.set_comparing(!self.settings.comparing),
            CompareCommand::CompareShots => self.compare_page(Page::Shots),
            CompareCommand::CompareAim => self.compare_page(Page::Aim),
            CompareCommand::CompareTurn => self.compare_page(Page::Turn),
            CompareCommand::CompareNet => self.compare_page(Page::Net),
            CompareCommand::ShowGhosts => self.show_layer(Page::Shots, |layers| &mut layers.ghosts),
            CompareCommand::ShowAim => self.show_layer(Page::Aim, |layers| &mut layers.aim),
            CompareCommand::ShowNet => self.show_layer(Page::Net, |layers| &mut layers.net),
            CompareCommand::AimToMiddle => {
                let on = self.comparison.state().to_middle;
                self.change_comparison(Change::ToMiddle(!on));
            }
            CompareCommand::AddTarget => {
                self.settings.layers.ghosts = true;
                if self.settings.comparing {
                    self.change_comparison(Change::Page(Page::Shots));
                }
                self.change_comparison(Change::AddTarget(None));
            }
            CompareCommand::Approach => {
                self.step(Edit::RecoverIn(compare::approach_or_not(&self.session)));
                self.message = Some(self.told_approach());
            }
        }
    }

    /// Whether the shot is an approach now.
    fn told_approach(&self) -> String {
        let shot = self.session.selection().shot + 1;
        if compare::is_approach(&self.session) {
            tr!("Shot {} is an approach now; V makes it none", shot)
        } else {
            tr!("Shot {} is no approach now", shot)
        }
    }

    /// Changes what is compared.
    pub(super) fn change_comparison(&mut self, change: Change) {
        self.comparison.change(change, &self.session);
    }

    fn compare_page(&mut self, page: Page) {
        self.show_panel();
        self.set_comparing(true);
        self.change_comparison(Change::Page(page));
    }

    /// Switches a layer on the court. While comparing, the layer belongs to a part of the panel, which is opened.
    fn show_layer(&mut self, page: Page, layer: fn(&mut Layers) -> &mut bool) {
        let elsewhere = self.settings.comparing && !*layer(&mut self.comparison.state().on_court(&self.settings));
        let on = layer(&mut self.settings.layers);
        if elsewhere {
            *on = true;
            self.change_comparison(Change::Page(page));
        } else {
            *on = !*on;
        }
    }

    /// Comparing and answering each have their own layers.
    fn set_comparing(&mut self, on: bool) {
        let settings = &mut self.settings;
        if settings.comparing != on {
            settings.comparing = on;
            std::mem::swap(&mut settings.layers, &mut settings.other_layers);
        }
    }
}
