//! Where the receiver of a serve waits, between the server's widest ball and the one down the middle.

use egui::{Id, Rect, Ui, accesskit::Role, vec2};
use standpoint_geometry::{Answer, Play};
use standpoint_language::{text, tr};
use standpoint_ui::transform::Transform;
use standpoint_workbench::{session::Session, standing, words};

use super::{
    announce,
    brush::{Brush, Dash, Side},
    labels::{LabelId, Placer},
    marks, tags, touch_rect,
    wedge::{at_net, direction},
};

/// Paints the two edges of what the server can do, the receiver's zone and the receiver's spot.
pub fn paint(brush: &Brush<'_>, play: &Play) {
    let m = &brush.theme.m;
    let thin = Dash::Pattern(m.pattern.long);
    for (azimuth, landing) in [(play.wedge.left, play.wedge.left_landing), (play.wedge.right, play.wedge.right_landing)]
    {
        // From the net on: on the server's side the lines would lie over the server's own.
        if let Some(net) = at_net(play.wedge.apex, direction(azimuth)) {
            brush.line(&brush.points([net, landing]), m.stroke.thin, Side::Hitter, thin);
        }
    }
    let dots = Dash::Pattern(m.pattern.dotted);
    for ring in play.contours.first().into_iter().flat_map(|zone| &zone.rings) {
        brush.line(&brush.points(ring.iter().copied()), m.stroke.thin, Side::Opponent, dots);
    }
    marks::waiting(brush, play.spot.place);
}

/// Areas that labels must not cover.
pub fn obstacle(brush: &Brush<'_>, play: &Play) -> Rect {
    touch_rect(brush.point(play.spot.place), 34.0)
}

/// The words beside the spot.
pub fn tag(brush: &Brush<'_>, placer: &mut Placer, answer: &Answer) {
    if let Some(play) = &answer.returner {
        tags::plain(brush, placer, LabelId::Receiver, play.spot.place, 18.0, text("receive here"));
    }
}

/// Tells assistive technology where it is.
pub fn announce(ui: &Ui, at: &Transform, session: &Session) {
    let Some(play) = session.answer().and_then(|answer| answer.returner.as_deref()) else { return };
    let rect = Rect::from_center_size(at.screen_from_court(play.spot.place), vec2(28.0, 28.0));
    let end = session.hitter_end().other();
    let place = standing::place(play, end, &session.court(), session.units());
    let value = tr!("{}, the server wins {}", place, words::of_hundred(play.spot.exposure));
    announce::item(ui, Id::unique(("mark", "Receiver")), rect, Role::GraphicsSymbol, text("Receiver’s spot"), &value);
}
