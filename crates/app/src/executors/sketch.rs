//! Commands about drawing on a page.

use standpoint_board::marks::{Ink, Layer};
use standpoint_ui::commands::{Command, SketchFacts};
use standpoint_workbench::sketch::{
    draw::{COPY_OFFSET, Draw},
    tool::Tool,
};

use crate::app::App;

impl App {
    pub(crate) fn sketch_facts(&self) -> SketchFacts {
        let marks = self.session.marks();
        SketchFacts {
            tool: self.canvas.easel().tool(),
            ink: self.canvas.easel().ink(),
            marks: marks.map_or(0, |marks| marks.list.len()),
            chosen: self.session.chosen().len(),
            hidden: marks.map(|marks| marks.hidden.clone()).unwrap_or_default(),
        }
    }

    /// A change of what is drawn, on its own or within a gesture.
    pub(super) fn draw(&mut self, draw: &Draw) {
        self.message = None;
        self.session.draw(draw);
    }

    pub(super) fn run_on_sketch(&mut self, command: Command) {
        let chosen = self.session.chosen().to_vec();
        match command {
            Command::ToolHand => self.canvas.easel_mut().take(None),
            Command::ToolSelect => self.take(Tool::Select),
            Command::ToolBallWay => self.take(Tool::BallWay),
            Command::ToolPlayerWay => self.take(Tool::PlayerWay),
            Command::ToolPen => self.take(Tool::Pen),
            Command::ToolWords => self.take(Tool::Words),
            Command::ToolCone => self.take(Tool::Cone),
            Command::ToolBasket => self.take(Tool::Basket),
            Command::ToolPerson => self.take(Tool::Person),
            Command::ToolZone => self.take(Tool::Zone),
            Command::ToolOval => self.take(Tool::Oval),
            Command::ToolEraser => self.take(Tool::Eraser),
            Command::NextInk => self.next_ink(),
            Command::InkPlain => self.take_ink(Ink::Plain),
            Command::InkCoached => self.take_ink(Ink::Coached),
            Command::InkOther => self.take_ink(Ink::Other),
            Command::InkBall => self.take_ink(Ink::Ball),
            Command::InkWarning => self.take_ink(Ink::Warning),
            Command::DuplicateMarks => self.draw(&Draw::Copy(chosen, COPY_OFFSET)),
            Command::DeleteMarks => self.draw(&Draw::Remove(chosen)),
            Command::ChooseAllMarks => {
                let all = self.session.marks().map(|marks| marks.shown().map(|m| m.id).collect());
                self.session.choose(all.unwrap_or_default());
            }
            Command::SwapPattern => self.draw(&Draw::SwapPattern(chosen)),
            Command::ShowDrill => self.flip_layer(Layer::Drill),
            Command::ShowSketch => self.flip_layer(Layer::Sketch),
            Command::ShowWords => self.flip_layer(Layer::Notes),
            Command::ShowAllMarks => self.show_all(),
            Command::ShowTools => self.settings.tools = !self.settings.tools,
            _ => {}
        }
    }

    fn take(&mut self, tool: Tool) {
        self.message = None;
        // Whoever draws looks at what is drawn: a layer that is hidden would swallow the next mark.
        self.canvas.easel_mut().take(Some(tool));
        let layer = match tool {
            Tool::Select | Tool::Eraser => return,
            Tool::Pen | Tool::BallWay | Tool::PlayerWay => Layer::Sketch,
            Tool::Words => Layer::Notes,
            Tool::Cone | Tool::Basket | Tool::Person | Tool::Zone | Tool::Oval => Layer::Drill,
        };
        if self.session.marks().is_some_and(|marks| !marks.shows(layer)) {
            self.draw(&Draw::Show(layer, true));
        }
    }

    fn next_ink(&mut self) {
        let at = Ink::ALL.iter().position(|ink| *ink == self.canvas.easel().ink()).unwrap_or(0);
        self.take_ink(Ink::ALL[(at + 1) % Ink::ALL.len()]);
    }

    /// Takes an ink, and gives it to what is chosen.
    fn take_ink(&mut self, ink: Ink) {
        self.canvas.easel_mut().take_ink(ink);
        let chosen = self.session.chosen().to_vec();
        if !chosen.is_empty() {
            self.draw(&Draw::Ink(chosen, ink));
        }
    }

    fn flip_layer(&mut self, layer: Layer) {
        let shown = self.session.marks().is_some_and(|marks| marks.shows(layer));
        self.draw(&Draw::Show(layer, !shown));
    }

    fn show_all(&mut self) {
        self.draw(&Draw::ShowAll);
    }
}
