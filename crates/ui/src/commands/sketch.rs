//! The catalogue's entries about drawing on a page.

use egui::Key;
use standpoint_board::marks::{Ink, Layer, Step};
use standpoint_language::mark;
use standpoint_workbench::sketch::tool::Tool;

use super::{
    command::{Command, DrawCommand},
    spec::{CTRL, Menu, NO_CHOICE, PLAIN, SHIFT, Spec, entry},
};
use crate::theme::icons::Icon;

/// In the order of [`DrawCommand`].
pub static ENTRIES: [Spec; 34] = [
    entry(
        Command::Draw(DrawCommand::ToolHand),
        Menu::Draw,
        "Hand",
        "Move players, balls and the court; Escape returns to it",
    )
    .icon(Icon::Hand)
    .on(|f| f.sketch.tool.is_none()),
    entry(Command::Draw(DrawCommand::ToolSelect), Menu::Draw, "Select", "Select, move and copy what is drawn")
        .keys(PLAIN, Key::Q)
        .icon(Icon::Select)
        .on(|f| f.sketch.tool == Some(Tool::Select)),
    entry(
        Command::Draw(DrawCommand::ToolBallWay),
        Menu::Draw,
        "Ball path",
        "A solid arrow; pull its middle to bend it",
    )
    .keys(PLAIN, Key::Z)
    .icon(Icon::BallWay)
    .on(|f| f.sketch.tool == Some(Tool::BallWay)),
    entry(
        Command::Draw(DrawCommand::ToolPlayerWay),
        Menu::Draw,
        "Player path",
        "A dashed arrow; pull its middle to bend it",
    )
    .keys(PLAIN, Key::Y)
    .icon(Icon::PlayerWay)
    .on(|f| f.sketch.tool == Some(Tool::PlayerWay)),
    entry(Command::Draw(DrawCommand::ToolPen), Menu::Draw, "Pen", "Draw by hand")
        .keys(PLAIN, Key::S)
        .icon(Icon::Pen)
        .on(|f| f.sketch.tool == Some(Tool::Pen)),
    entry(Command::Draw(DrawCommand::ToolWords), Menu::Draw, "Text", "Write on the court")
        .keys(SHIFT, Key::W)
        .icon(Icon::Words)
        .on(|f| f.sketch.tool == Some(Tool::Words)),
    entry(Command::Draw(DrawCommand::ToolCone), Menu::Draw, "Cone", "Place cones")
        .keys(SHIFT, Key::C)
        .icon(Icon::Cone)
        .on(|f| f.sketch.tool == Some(Tool::Cone)),
    entry(Command::Draw(DrawCommand::ToolBasket), Menu::Draw, "Ball basket", "Place ball baskets")
        .keys(SHIFT, Key::B)
        .icon(Icon::Basket)
        .on(|f| f.sketch.tool == Some(Tool::Basket)),
    entry(
        Command::Draw(DrawCommand::ToolPerson),
        Menu::Draw,
        "Player",
        "Place players and helpers, each with a letter",
    )
    .keys(SHIFT, Key::F)
    .icon(Icon::Person)
    .on(|f| f.sketch.tool == Some(Tool::Person)),
    entry(Command::Draw(DrawCommand::ToolZone), Menu::Draw, "Zone", "Draw a rectangle to aim at or to stand in")
        .keys(SHIFT, Key::Z)
        .icon(Icon::Zone)
        .on(|f| f.sketch.tool == Some(Tool::Zone)),
    entry(Command::Draw(DrawCommand::ToolOval), Menu::Draw, "Oval zone", "Draw an ellipse to aim at or to stand in")
        .keys(SHIFT, Key::O)
        .icon(Icon::Oval)
        .on(|f| f.sketch.tool == Some(Tool::Oval)),
    entry(Command::Draw(DrawCommand::ToolEraser), Menu::Draw, "Eraser", "Wipe marks away")
        .keys(SHIFT, Key::E)
        .icon(Icon::Eraser)
        .on(|f| f.sketch.tool == Some(Tool::Eraser)),
    entry(
        Command::Draw(DrawCommand::NextInk),
        Menu::Draw,
        "Next colour",
        "Draw with the next colour, or give it to what is selected",
    )
    .keys(SHIFT, Key::I)
    .group(),
    entry(Command::Draw(DrawCommand::InkPlain), Menu::Draw, "Plain colour", "Without a meaning of its own")
        .on(|f| f.sketch.ink == Ink::Plain),
    entry(Command::Draw(DrawCommand::InkCoached), Menu::Draw, "Colour of the coached player", "Light, with a disc")
        .on(|f| f.sketch.ink == Ink::Coached),
    entry(
        Command::Draw(DrawCommand::InkOther),
        Menu::Draw,
        "Colour of the other player",
        "Dark, with a square on its corner",
    )
    .on(|f| f.sketch.ink == Ink::Other),
    entry(
        Command::Draw(DrawCommand::InkBall),
        Menu::Draw,
        "Colour of the ball",
        "In the colour of the ball, with a ring",
    )
    .on(|f| f.sketch.ink == Ink::Ball),
    entry(
        Command::Draw(DrawCommand::InkWarning),
        Menu::Draw,
        "Warning colour",
        "In the colour of a warning, with a triangle",
    )
    .on(|f| f.sketch.ink == Ink::Warning),
    entry(
        Command::Draw(DrawCommand::CutMarks),
        Menu::Draw,
        "Cut marks",
        "Put the selected marks on the clipboard only",
    )
    .keys(CTRL, Key::X)
    .group()
    .when(|f| f.sketch.chosen > 0, NO_CHOICE),
    entry(
        Command::Draw(DrawCommand::CopyMarks),
        Menu::Draw,
        "Copy marks",
        "Put the selected marks on the clipboard, for another page or window too",
    )
    .keys(CTRL, Key::C)
    .when(|f| f.sketch.chosen > 0, NO_CHOICE),
    entry(
        Command::Draw(DrawCommand::PasteMarks),
        Menu::Draw,
        "Paste marks",
        "Put the marks of the clipboard on this page",
    )
    .keys(CTRL, Key::V),
    entry(
        Command::Draw(DrawCommand::DuplicateMarks),
        Menu::Draw,
        "Duplicate the selected marks",
        "Put a copy beside them; Ctrl+D does it too",
    )
    .keys(SHIFT, Key::D)
    .icon(Icon::Duplicate)
    .when(|f| f.sketch.chosen > 0, NO_CHOICE),
    entry(
        Command::Draw(DrawCommand::DeleteMarks),
        Menu::Draw,
        "Delete the selected marks",
        "The Delete key does it too",
    )
    .icon(Icon::Bin)
    .when(|f| f.sketch.chosen > 0, NO_CHOICE),
    entry(
        Command::Draw(DrawCommand::ChooseAllMarks),
        Menu::Draw,
        "Select all marks",
        "Select everything drawn on this page",
    )
    .keys(SHIFT, Key::Q)
    .when(|f| f.sketch.marks > 0, mark("Nothing is drawn on this page")),
    entry(
        Command::Draw(DrawCommand::SwapPattern),
        Menu::Draw,
        "Solid or dashed",
        "Make the selected paths those of a player or of a ball",
    )
    .keys(SHIFT, Key::S)
    .when(|f| f.sketch.chosen > 0, NO_CHOICE),
    entry(
        Command::Draw(DrawCommand::AppearWithShot),
        Menu::Draw,
        "Appear with the shot",
        "In a presentation the selected marks are there from the first step of this shot on",
    )
    .group()
    .when(|f| f.sketch.chosen > 0, NO_CHOICE)
    .on(|f| f.appear_with(Step::Shot)),
    entry(
        Command::Draw(DrawCommand::AppearWithAngle),
        Menu::Draw,
        "Appear with the opponent’s angle",
        "In a presentation the selected marks come with the angle of replies to this shot",
    )
    .when(|f| f.sketch.chosen > 0, NO_CHOICE)
    .on(|f| f.appear_with(Step::Angle)),
    entry(
        Command::Draw(DrawCommand::AppearWithReplies),
        Menu::Draw,
        "Appear with the replies",
        "In a presentation the selected marks come with the best replies to this shot",
    )
    .when(|f| f.sketch.chosen > 0, NO_CHOICE)
    .on(|f| f.appear_with(Step::Replies)),
    entry(
        Command::Draw(DrawCommand::AppearWithAnswer),
        Menu::Draw,
        "Appear with the answer",
        "In a presentation the selected marks come with the zone and the spot, not before",
    )
    .when(|f| f.sketch.chosen > 0, NO_CHOICE)
    .on(|f| f.appear_with(Step::Answer)),
    entry(Command::Draw(DrawCommand::ShowDrill), Menu::View, "Equipment", "Show or hide what a drill is set up with")
        .group()
        .on(|f| f.sketch.shows(Layer::Drill)),
    entry(Command::Draw(DrawCommand::ShowSketch), Menu::View, "Lines and arrows", "Show or hide what is drawn by hand")
        .on(|f| f.sketch.shows(Layer::Sketch)),
    entry(
        Command::Draw(DrawCommand::ShowWords),
        Menu::View,
        "Text on the court",
        "Show or hide what is written on the court",
    )
    .on(|f| f.sketch.shows(Layer::Notes)),
    entry(Command::Draw(DrawCommand::ShowAllMarks), Menu::View, "All marks", "Show every layer of this page")
        .keys(SHIFT, Key::V)
        .when(|f| !f.sketch.hidden.is_empty(), mark("No layer of this page is hidden")),
    entry(
        Command::Draw(DrawCommand::ShowTools),
        Menu::View,
        "Drawing tools",
        "Show or hide the bar with the drawing tools",
    )
    .keys(SHIFT, Key::Y)
    .on(|f| f.settings.tools),
];
