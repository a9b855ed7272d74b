//! Builder for teaching boards.

use std::sync::Arc;

use glam::{DVec2, DVec3};
use standpoint_board::{
    Board, CourtChoice, Drill, Page, PlayerCard, ShotSpec, SurfaceChoice,
    marks::{Form, Ink, Layer, Marks, Pattern},
    rally::{Rally, Resolved},
};
use standpoint_geometry::{
    BallType, End, Level, NetPosts, ReadyArea, ReceiptChoice, Shot, Solver, Stage, Stroke, SurfaceKind, Wing,
    usual_delivery,
};

/// Text at the end of every drill.
pub const CAUTIONS: &str = "Before you start: warm up, and clear loose balls from the court. Drink, rest in the shade, and \
    stop when somebody is tired, dizzy or in pain; few balls played well are worth more than many. The figures are model \
    estimates, made to teach with; a qualified coach decides what suits these players, and medical questions go to a \
    professional.";

pub fn at(x: f64, y: f64) -> DVec2 {
    DVec2::new(x, y)
}

/// A board of the club without pages.
pub fn board(title: &str, near: (&str, Level), far: (&str, Level)) -> Board {
    Board {
        title: title.to_owned(),
        near: PlayerCard::of_level(near.0, near.1),
        far: PlayerCard::of_level(far.0, far.1),
        pages: Vec::new(),
        ..Board::blank()
    }
}

/// The board on a smaller court with its ball.
pub fn on_stage(mut board: Board, stage: Stage, ball: BallType) -> Board {
    board.court = CourtChoice::of(stage, NetPosts::SinglesSticks);
    board.ball = ball;
    board
}

pub fn on(mut board: Board, kind: SurfaceKind, theme: &str) -> Board {
    board.surface = SurfaceChoice::usual(kind);
    board.theme = theme.to_owned();
    board
}

/// A page under construction.
pub struct Draft<'b> {
    board: &'b Board,
    page: Page,
}

/// Begins a page.
pub fn page<'b>(board: &'b Board, title: &str, notes: &str, cues: &[&str]) -> Draft<'b> {
    let cues = cues.iter().map(|cue| (*cue).to_owned()).collect();
    let page = Page {
        title: title.to_owned(),
        notes: notes.to_owned(),
        cues,
        drill: Drill::default(),
        shots: Vec::new(),
        marks: Marks::default(),
    };
    Draft { board, page }
}

impl Draft<'_> {
    /// The first shot: the hitter's end, stroke, contact and target, and the other player's place. The body stands
    /// `beside` the ball by that distance; speed and spin are the player's usual ones.
    pub fn shot(mut self, end: End, stroke: Stroke, contact: (f64, f64, f64), target: DVec2, other: DVec2) -> Self {
        let contact = DVec3::new(contact.0, contact.1, contact.2);
        let shot = self.delivered(end, stroke, contact, target);
        self.page.shots.push(ShotSpec {
            hitter_end: end,
            shot,
            receipt: ReceiptChoice::Best,
            hitter_place: None,
            opponent_place: other,
            follows: false,
            recover_to: None,
            recover_in: None,
        });
        self
    }

    /// Sets the hitter's place of the last shot.
    pub fn from(mut self, place: DVec2) -> Self {
        self.last().hitter_place = Some(place);
        self
    }

    /// Adds the next shot, by the other player, from the point where the ball is met.
    pub fn then(mut self, stroke: Stroke, target: DVec2) -> Self {
        let before = *self.last();
        let end = before.hitter_end.other();
        let contact = before.shot.target.extend(1.0);
        let shot = self.delivered(end, stroke, contact, target);
        let opponent_place = before.shot.contact.truncate();
        self.page.shots.push(ShotSpec {
            hitter_end: end,
            shot,
            receipt: ReceiptChoice::Best,
            hitter_place: None,
            opponent_place,
            follows: true,
            recover_to: None,
            recover_in: None,
        });
        self
    }

    /// Scales the speed of the last shot.
    pub fn at_speed(mut self, share: f64) -> Self {
        self.last().shot.speed *= share;
        self
    }

    /// Scales the spin of the last shot.
    pub fn with_spin(mut self, share: f64) -> Self {
        self.last().shot.topspin *= share;
        self
    }

    /// Sets where the last shot is met, instead of the receiver's best point.
    pub fn met_near(mut self, place: DVec2) -> Self {
        self.last().receipt = ReceiptChoice::Near(place);
        self
    }

    /// Sets where the hitter of the last shot goes afterwards.
    pub fn recover_to(mut self, place: DVec2) -> Self {
        self.last().recover_to = Some(place);
        self
    }

    /// Sends the hitter of the last shot to the net behind it.
    pub fn goes_to_the_net(mut self) -> Self {
        self.last().recover_in = Some(ReadyArea::Net);
        self
    }

    fn mark(mut self, layer: Layer, ink: Ink, form: Form) -> Self {
        self.page.marks.add(layer, ink, form);
        self
    }

    pub fn cone(self, at: DVec2) -> Self {
        self.mark(Layer::Drill, Ink::Plain, Form::Cone { at })
    }

    pub fn basket(self, at: DVec2) -> Self {
        self.mark(Layer::Drill, Ink::Plain, Form::Basket { at })
    }

    pub fn person(self, at: DVec2, letter: &str) -> Self {
        self.mark(Layer::Drill, Ink::Plain, Form::Person { at, letter: letter.to_owned() })
    }

    pub fn zone(self, ink: Ink, from: DVec2, to: DVec2, round: bool) -> Self {
        self.mark(Layer::Drill, ink, Form::Zone { from, to, round })
    }

    pub fn run(self, ink: Ink, from: DVec2, to: DVec2) -> Self {
        self.mark(Layer::Sketch, ink, Form::Arrow { from, to, bend: 0.0, pattern: Pattern::Dashed })
    }

    pub fn words(self, at: DVec2, text: &str) -> Self {
        self.mark(Layer::Notes, Ink::Plain, Form::Text { at, text: text.to_owned(), size: 0.45 })
    }

    /// Adds how the page is practised.
    pub fn drill(mut self, [feed, targets, progression, equipment]: [&str; 4]) -> Self {
        let [feed, targets, progression, equipment] = [feed, targets, progression, equipment].map(str::to_owned);
        self.page.drill = Drill { feed, targets, progression, equipment };
        self
    }

    fn last(&mut self) -> &mut ShotSpec {
        self.page.shots.last_mut().expect("a shot comes first")
    }

    fn delivered(&self, end: End, stroke: Stroke, contact: DVec3, target: DVec2) -> Shot {
        let player = self.board.card(end).player();
        let (contact_there, target_there) = (end.turn3(contact), end.turn2(target));
        let (speed, topspin) =
            usual_delivery(&self.board.conditions(), &player, Wing::Forehand, stroke, contact_there, target_there);
        Shot { contact, stroke, target, speed, topspin, sidespin: 0.0 }
    }

    /// The finished page, with the solved rally written into its shots.
    pub fn done(self) -> Arc<Page> {
        let mut page = self.page;
        for (i, known) in resolved(self.board, &page).into_iter().enumerate() {
            page.shots[i] = known.spec;
        }
        Arc::new(page)
    }
}

/// The shots of a page with their answers, up to where the rally ends.
pub fn resolved(board: &Board, page: &Page) -> Vec<Resolved> {
    let (mut rally, mut solver) = (Rally::new(), Solver::new());
    (0..page.shots.len()).map_while(|i| rally.resolve(board, page, i, &mut solver).ok().cloned()).collect()
}
