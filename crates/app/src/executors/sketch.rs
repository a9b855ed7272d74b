//! Commands about drawing on a page.

use egui::{Context, Event, ViewportCommand};
use standpoint_board::{
    file,
    marks::{Appears, Ink, Layer, Mark, Step},
};
use standpoint_language::{text, tr};
use standpoint_ui::commands::{DrawCommand, SketchFacts};
use standpoint_workbench::sketch::{
    draw::{COPY_OFFSET, Draw},
    tool::Tool,
};

use crate::app::App;

impl App {
    pub(crate) fn sketch_facts(&self) -> SketchFacts {
        let marks = self.session.marks();
        SketchFacts {
            tool: self.canvas.drawing_tools().tool(),
            ink: self.canvas.drawing_tools().ink(),
            marks: marks.map_or(0, |marks| marks.list.len()),
            chosen: self.session.chosen().len(),
            appear: self.chosen_appear(),
            hidden: marks.map(|marks| marks.hidden.clone()).unwrap_or_default(),
        }
    }

    /// From when on the chosen marks are there in a presentation, where it is the same for all.
    fn chosen_appear(&self) -> Option<Appears> {
        let page = self.session.page()?;
        let marks = self.session.chosen().iter().filter_map(|id| page.marks.get(*id));
        let mut times = marks.map(|mark| mark.appears.within(page.shots.len()));
        let first = times.next()?;
        times.all(|time| time == first).then_some(first)
    }

    /// Lets the chosen marks appear with a step of the shot that is looked at.
    fn appear_with(&mut self, step: Step) {
        let appears = Appears { shot: self.session.selection().shot, step };
        let chosen = self.session.chosen().to_vec();
        self.draw(&Draw::Appear(chosen, appears));
    }

    /// Changes marks, on its own or within a gesture.
    pub(super) fn draw(&mut self, draw: &Draw) {
        self.message = None;
        self.session.draw(draw);
    }

    pub(super) fn run_on_sketch(&mut self, ctx: &Context, command: DrawCommand) {
        let chosen = self.session.chosen().to_vec();
        match command {
            DrawCommand::ToolHand => self.canvas.drawing_tools_mut().take(None),
            DrawCommand::ToolSelect => self.take(Tool::Select),
            DrawCommand::ToolBallWay => self.take(Tool::BallWay),
            DrawCommand::ToolPlayerWay => self.take(Tool::PlayerWay),
            DrawCommand::ToolPen => self.take(Tool::Pen),
            DrawCommand::ToolWords => self.take(Tool::Words),
            DrawCommand::ToolCone => self.take(Tool::Cone),
            DrawCommand::ToolBasket => self.take(Tool::Basket),
            DrawCommand::ToolPerson => self.take(Tool::Person),
            DrawCommand::ToolZone => self.take(Tool::Zone),
            DrawCommand::ToolOval => self.take(Tool::Oval),
            DrawCommand::ToolEraser => self.take(Tool::Eraser),
            DrawCommand::NextInk => self.next_ink(),
            DrawCommand::InkPlain => self.take_ink(Ink::Plain),
            DrawCommand::InkCoached => self.take_ink(Ink::Coached),
            DrawCommand::InkOther => self.take_ink(Ink::Other),
            DrawCommand::InkBall => self.take_ink(Ink::Ball),
            DrawCommand::InkWarning => self.take_ink(Ink::Warning),
            DrawCommand::CutMarks => {
                self.copy_marks(ctx);
                let said = self.message.take();
                self.draw(&Draw::Remove(chosen));
                self.message = said;
            }
            DrawCommand::CopyMarks => self.copy_marks(ctx),
            // What is there comes back as an event.
            DrawCommand::PasteMarks => ctx.send_viewport_cmd(ViewportCommand::RequestPaste),
            DrawCommand::DuplicateMarks => self.draw(&Draw::Copy(chosen, COPY_OFFSET)),
            DrawCommand::DeleteMarks => self.draw(&Draw::Remove(chosen)),
            DrawCommand::ChooseAllMarks => {
                let all = self.session.marks().map(|marks| marks.shown().map(|m| m.id).collect());
                self.session.choose(all.unwrap_or_default());
            }
            DrawCommand::SwapPattern => self.draw(&Draw::SwapPattern(chosen)),
            DrawCommand::AppearWithShot => self.appear_with(Step::Shot),
            DrawCommand::AppearWithAngle => self.appear_with(Step::Angle),
            DrawCommand::AppearWithReplies => self.appear_with(Step::Replies),
            DrawCommand::AppearWithAnswer => self.appear_with(Step::Answer),
            DrawCommand::ShowDrill => self.flip_layer(Layer::Drill),
            DrawCommand::ShowSketch => self.flip_layer(Layer::Sketch),
            DrawCommand::ShowWords => self.flip_layer(Layer::Notes),
            DrawCommand::ShowAllMarks => self.show_all(),
            DrawCommand::ShowTools => self.settings.tools = !self.settings.tools,
        }
    }

    /// What the desktop's keys for the clipboard ask for, unless a text has them.
    pub(crate) fn clipboard_keys(&mut self, ctx: &Context) {
        if ctx.text_edit_focused() {
            return;
        }
        let events = ctx.input(|input| input.events.clone());
        for event in events {
            let any = !self.session.chosen().is_empty();
            match event {
                Event::Copy if any => self.run_on_sketch(ctx, DrawCommand::CopyMarks),
                Event::Cut if any => self.run_on_sketch(ctx, DrawCommand::CutMarks),
                Event::Paste(pasted) => self.paste(&pasted),
                _ => {}
            }
        }
    }

    /// Puts the chosen marks on the clipboard.
    fn copy_marks(&mut self, ctx: &Context) {
        let Some(marks) = self.session.marks() else { return };
        let chosen = self.session.chosen();
        let copied: Vec<Mark> = marks.list.iter().filter(|mark| chosen.contains(&mark.id)).cloned().collect();
        if let Some(written) = file::marks_to_text(&copied) {
            ctx.copy_text(written);
            self.message = Some(tr!("{n} mark is on the clipboard" | "{n} marks are on the clipboard" % copied.len()));
        }
    }

    fn paste(&mut self, pasted: &str) {
        match file::marks_from_text(pasted) {
            Some(Ok(marks)) => self.draw(&Draw::Paste(marks)),
            Some(Err(report)) => self.message = report.problems.first().map(|problem| problem.to_string()),
            None => self.message = Some(text("There are no marks on the clipboard").to_owned()),
        }
    }

    fn take(&mut self, tool: Tool) {
        self.message = None;
        // Shows the layer of a tool: a new mark on a hidden layer would not be seen.
        self.canvas.drawing_tools_mut().take(Some(tool));
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
        let at = Ink::ALL.iter().position(|ink| *ink == self.canvas.drawing_tools().ink()).unwrap_or(0);
        self.take_ink(Ink::ALL[(at + 1) % Ink::ALL.len()]);
    }

    /// Selects an ink, and applies it to the chosen marks.
    fn take_ink(&mut self, ink: Ink) {
        self.canvas.drawing_tools_mut().take_ink(ink);
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
