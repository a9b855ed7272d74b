//! The painting code of the window, run without one.

use egui::{Context, Pos2, RawInput, Rect, Vec2, vec2};
use standpoint_board::playback::Control;
use standpoint_canvas::{
    brush::Brush,
    eye,
    key::{self, Key},
    overview,
    scene::{self, Scene},
};
use standpoint_sheet::{Drawing, shapes};
use standpoint_ui::theme::{self, LookError, Theme};
use standpoint_workbench::{
    compare::Comparison,
    edit::Colours,
    session::Session,
    settings::{Layers, Settings, Sight},
    wanted::Look,
};

use super::extent::Extent;

/// Points a metre at which everything is painted: marks and words then have about their natural size.
const SCALE: f64 = 25.0;
/// The same for a small court.
const SMALL_SCALE: f64 = 15.0;
/// Room for the key below the court, points.
const KEY: f32 = 206.0;
/// Width of the keys below the court, points.
const KEYS: f32 = 372.0;

/// Width of the keys beside a small court, the height that both take, and that of the legend with what parts them.
const BESIDE: f32 = 206.0;
/// Room for callouts at the sides of a small court, points.
const CALLOUTS: f32 = 40.0;
const BESIDE_HEIGHT: f32 = 350.0;
const LEGEND: f32 = 190.0;

/// Size of a picture in perspective, points, unless another shape is wanted.
const PERSPECTIVE: Vec2 = Vec2::new(960.0, 600.0);

/// Part of a rally after which its moment is taken.
const MIDST: f64 = 0.4;

/// Paints boards without a window.
pub struct OffscreenCanvas {
    ctx: Context,
    look: theme::Look,
    comparison: Comparison,
    scene: Scene,
}

impl OffscreenCanvas {
    /// A canvas with the typefaces and tokens of the window.
    ///
    /// # Errors
    /// When a built-in file is not valid; tests prevent that.
    pub fn new() -> Result<Self, LookError> {
        let look = theme::Look::load()?;
        let ctx = Context::default();
        look.install(&ctx);
        let comparison = Comparison::new(|| {});
        Ok(Self { ctx, look, comparison, scene: Scene::default() })
    }

    /// The theme of a session's court as it is to look.
    fn theme(&self, session: &Session, wanted: &Look) -> Theme {
        self.look.theme(false, wanted.colours, session.ground())
    }

    /// The colour behind everything.
    #[must_use]
    pub fn ground(&self, session: &Session, wanted: &Look) -> [u8; 3] {
        let theme = self.theme(session, wanted);
        let color = if wanted.colours == Colours::Paper { *theme.court.court } else { *theme.ui.canvas };
        [color.r(), color.g(), color.b()]
    }

    /// The size of a drawing, points: that of the court, extended to the aspect ratio of a picture.
    fn size(session: &Session, wanted: &Look, key: bool) -> Vec2 {
        let shown = Extent::of(session, wanted.turn).size() * SCALE;
        let shown = vec2(shown.x as f32, shown.y as f32);
        let least = if key { vec2(shown.x.max(KEYS), shown.y + KEY) } else { shown };
        let Some((width, height)) = wanted.size else { return least };
        let ratio = width as f32 / height as f32;
        if ratio > least.x / least.y { vec2(least.y * ratio, least.y) } else { vec2(least.x, least.x / ratio) }
    }

    /// The shot being looked at with its answer; `size` is that of the picture it is for.
    pub fn picture(&mut self, session: &Session, wanted: &Look) -> Drawing {
        if let Some(sight) = wanted.sight {
            return self.perspective(session, wanted, sight);
        }
        let key = wanted.layers.field && session.play().is_some() && session.moment().is_none();
        let size = Self::size(session, wanted, key);
        self.paint(session, wanted, size, if key { KEY } else { 0.0 })
    }

    /// The shot being looked at on a smaller court; words and signs are as large as on the usual one.
    pub fn small_picture(&mut self, session: &Session, wanted: &Look) -> Drawing {
        let key = wanted.layers.field && session.play().is_some() && session.moment().is_none();
        if wanted.sight.is_some() || !key {
            return self.picture(session, wanted);
        }
        let shown = Extent::of(session, wanted.turn).size() * SMALL_SCALE;
        let (width, height) = (shown.x as f32, shown.y as f32);
        if wanted.turn.is_multiple_of(2) {
            let width = width + CALLOUTS;
            let size = vec2(width + BESIDE, height.max(BESIDE_HEIGHT));
            self.paint_with(session, wanted, size, vec2(width, size.y))
        } else {
            let size = vec2(width.max(KEYS), height + KEY);
            self.paint(session, wanted, size, KEY)
        }
    }

    /// The shot being looked at as it is seen from the court.
    fn perspective(&mut self, session: &Session, wanted: &Look, sight: Sight) -> Drawing {
        let size = wanted
            .size
            .map_or(PERSPECTIVE, |(width, height)| vec2(PERSPECTIVE.x, PERSPECTIVE.x * height as f32 / width as f32));
        let Layers { wedge, replies, field: answer, .. } = wanted.layers;
        self.painted(session, wanted, size, size, |_, brush, rect| {
            eye::paint(&brush.of(session), rect, session, sight, eye::Shown { wedge, replies, answer });
        })
    }

    /// The moments of the rally being looked at, so many a second, and how long they take together, s.
    pub fn rally(&mut self, session: &mut Session, wanted: &Look) -> (Vec<Drawing>, f64) {
        while session.fill() {}
        let pace = wanted.pace.factor();
        let duration = session.timeline().duration() / pace;
        let size = Self::size(session, wanted, false);
        let mut drawings = Vec::new();
        if duration > 0.0 {
            for frame in 0..standpoint_sheet::motion::count(duration, wanted.rate) {
                session.control(Control::Seek(frame as f64 / wanted.rate * pace));
                drawings.push(self.paint(session, wanted, size, 0.0));
            }
            session.control(Control::Stop);
        }
        (drawings, duration)
    }

    /// A moment in the midst of the rally being looked at, if there is one.
    pub fn moment(&mut self, session: &mut Session, wanted: &Look) -> Option<Drawing> {
        while session.fill() {}
        let duration = session.timeline().duration();
        if duration <= 0.0 {
            return None;
        }
        session.control(Control::Seek(duration * MIDST));
        let drawing = self.paint(session, wanted, Self::size(session, wanted, false), 0.0);
        session.control(Control::Stop);
        Some(drawing)
    }

    /// All shots of the page being looked at, by their numbers.
    pub fn overview(&mut self, session: &mut Session, wanted: &Look) -> Drawing {
        while session.fill() {}
        let size = Self::size(session, wanted, false);
        let session: &Session = session;
        self.painted(session, wanted, size, size, |_, brush, _| overview::paint(brush, session))
    }

    fn paint(&mut self, session: &Session, wanted: &Look, size: Vec2, key: f32) -> Drawing {
        self.paint_with(session, wanted, size, size - vec2(0.0, key))
    }

    /// Paints the court into the upper left part of a drawing, and the keys into what is left below or beside it.
    fn paint_with(&mut self, session: &Session, wanted: &Look, size: Vec2, court: Vec2) -> Drawing {
        let settings = Settings {
            comparing: false,
            layers: Layers { ghosts: false, aim: false, net: false, ..wanted.layers },
            ..Settings::default()
        };
        self.painted(session, wanted, size, court, |canvas, brush, rect| {
            let (scene, comparison) = canvas;
            // Callouts keep off the keys that stand beside the court.
            let free = if size.x - court.x < key::WIDTH { rect } else { Rect::from_min_size(rect.min, court) };
            scene.paint(brush, free, (session, comparison), &settings, scene::State::default());
            if let Some(play) = session.play().filter(|_| court != size) {
                let brush = &brush.of(session);
                let gap = brush.theme.m.space.edge;
                let below = size.x - court.x < key::WIDTH;
                let corner = if below { rect.left_bottom() } else { rect.right_bottom() - vec2(BESIDE, LEGEND) };
                key::card(brush, corner + vec2(gap, -gap), &Key::exposure(play));
                // The legend leaves room for the key at its left, which stands above it where both are beside the court.
                let left = if below { rect.left() } else { rect.right() - BESIDE - key::WIDTH };
                key::legend(brush, rect.with_min_x(left), session);
            }
        })
    }

    /// Paints onto a canvas of a size whose upper left part shows the court.
    fn painted(
        &mut self,
        session: &Session,
        wanted: &Look,
        size: Vec2,
        court: Vec2,
        mut paint: impl FnMut((&mut Scene, &Comparison), &Brush<'_>, Rect),
    ) -> Drawing {
        let theme = self.theme(session, wanted);
        let rect = Rect::from_min_size(Pos2::ZERO, size);
        let court = Rect::from_min_size(rect.min, court);
        let at = Extent::of(session, wanted.turn).transform(court, session);
        let input = RawInput { screen_rect: Some(rect), ..RawInput::default() };
        let (scene, comparison) = (&mut self.scene, &self.comparison);
        let mut output = self.ctx.run_ui(input, |ui| {
            let painter = ui.painter_at(rect);
            if wanted.colours != Colours::Paper {
                painter.rect_filled(rect, 0.0, *theme.ui.canvas);
            }
            let brush = Brush::new(&painter, at, &theme);
            paint((&mut *scene, comparison), &brush, rect);
        });
        // Glyphs are not rasterised: text stays text.
        output.textures_delta.clear();
        shapes::drawing(&output.shapes, rect)
    }
}
