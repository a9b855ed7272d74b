//! Commands about weighing shots.

use standpoint_geometry::situation::ReadyArea;
use standpoint_ui::commands::WeighCommand;
use standpoint_workbench::{
    edit::Edit,
    settings::Layers,
    weigh::{
        self,
        state::{Change, Page},
    },
};

use crate::app::App;

impl App {
    pub(super) fn run_on_weigh(&mut self, command: WeighCommand) {
        match command {
            WeighCommand::Weigh => self.set_weighing(!self.settings.weighing),
            WeighCommand::WeighShots => self.weigh_page(Page::Shots),
            WeighCommand::WeighAim => self.weigh_page(Page::Aim),
            WeighCommand::WeighTurn => self.weigh_page(Page::Turn),
            WeighCommand::WeighNet => self.weigh_page(Page::Net),
            WeighCommand::ShowGhosts => self.show_layer(Page::Shots, |layers| &mut layers.ghosts),
            WeighCommand::ShowAim => self.show_layer(Page::Aim, |layers| &mut layers.aim),
            WeighCommand::ShowNet => self.show_layer(Page::Net, |layers| &mut layers.net),
            WeighCommand::AimToMiddle => {
                let on = self.weigh.weighing().to_middle;
                self.change_weighing(Change::ToMiddle(!on));
            }
            WeighCommand::AddTarget => {
                self.settings.layers.ghosts = true;
                if self.settings.weighing {
                    self.change_weighing(Change::Page(Page::Shots));
                }
                self.change_weighing(Change::AddTarget(None));
            }
            WeighCommand::Approach => {
                let on = weigh::is_approach(&self.session);
                self.step(Edit::Ready(if on { ReadyArea::Anywhere } else { ReadyArea::Net }));
            }
        }
    }

    /// Makes a change of what is weighed.
    pub(super) fn change_weighing(&mut self, change: Change) {
        self.weigh.change(change, &self.session);
    }

    fn weigh_page(&mut self, page: Page) {
        self.show_panel();
        self.set_weighing(true);
        self.change_weighing(Change::Page(page));
    }

    /// Switches what is shown on the court. While shots are weighed it goes with a part of the panel, which is opened.
    fn show_layer(&mut self, page: Page, layer: fn(&mut Layers) -> &mut bool) {
        let elsewhere = self.settings.weighing && !*layer(&mut self.weigh.weighing().on_court(&self.settings));
        let on = layer(&mut self.settings.layers);
        if elsewhere {
            *on = true;
            self.change_weighing(Change::Page(page));
        } else {
            *on = !*on;
        }
    }

    /// Weighing and answering each have their own choice of what is shown on the court.
    fn set_weighing(&mut self, on: bool) {
        let settings = &mut self.settings;
        if settings.weighing != on {
            settings.weighing = on;
            std::mem::swap(&mut settings.layers, &mut settings.other_layers);
        }
    }
}
