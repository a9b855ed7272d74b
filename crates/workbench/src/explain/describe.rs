//! The text of each step.

use standpoint_geometry::{
    Answer, Delivery, Interception, Outcome, Play, Reply, Situation, skill_of, worth::Behaviour,
};
use standpoint_language::{decimal, text, tr};

use super::{ExplainStep, Paragraph};
use crate::{
    replying,
    session::Session,
    standing,
    words::{self, SHORT},
};

/// The chain of the shot on the board; without an answer only the descriptions of the steps.
#[must_use]
pub fn describe(session: &Session) -> Vec<Paragraph> {
    ExplainStep::ALL
        .into_iter()
        .map(|step| Paragraph {
            step,
            sentences: sentences(step, session)
                .unwrap_or_else(|| vec![text("There is nothing to say of it for this shot.").to_owned()]),
            formula: formula(step),
            source: source(step),
        })
        .collect()
}

fn sentences(step: ExplainStep, session: &Session) -> Option<Vec<String>> {
    let (answer, situation) = (session.answer()?, session.situation()?);
    Some(match step {
        ExplainStep::Flight => flight(answer, session),
        ExplainStep::GoesIn => goes_in(answer, situation),
        ExplainStep::Pace => pace(situation),
        ExplainStep::Meeting => meeting(answer, session)?,
        ExplainStep::Replies => replies(session.play()?, session),
        ExplainStep::TimeToSpare => time_to_spare(session.play()?, situation),
        ExplainStep::Exposure => exposure(session.play()?),
        ExplainStep::Spot => spot(session.play()?, session),
        ExplainStep::Rules => rules(session.play()?, session),
        ExplainStep::Recovery => recovery(session.play()?, situation, session),
    })
}

fn flight(answer: &Answer, session: &Session) -> Vec<String> {
    let (shot, units) = (&answer.shot, session.units());
    let spin = session.shot().map_or(0.0, |spec| spec.shot.topspin);
    vec![
        tr!(
            "The ball leaves the racket at {0} with {1}, {2}° above the horizontal: the one elevation that lands it on the target.",
            words::speed(shot.speed, units),
            words::spin(spin),
            decimal(shot.elevation.to_degrees(), 1)
        ),
        tr!(
            "It crosses the net {0} above the tape, which is {1} high there, rises to {2} and lands after {3}.",
            words::fine_length(shot.net.clearance, units),
            words::fine_length(shot.net.net_height, units),
            words::length(shot.apex, units),
            words::seconds(shot.landing.time)
        ),
    ]
}

fn goes_in(answer: &Answer, situation: &Situation) -> Vec<String> {
    vec![
        tr!("{} of such shots clear the net and land in.", words::percent(answer.shot.chance_in)),
        tr!(
            "{0}: this player misses the wanted elevation, direction and speed by a little each time; more so with more effort (here {1} of the usual), under pressure, when changing the ball’s direction, and from an awkward height.",
            words::stroke(situation.shot.stroke),
            words::percent(effort(situation))
        ),
    ]
}

/// The racket-head effort of the shot: 1 at the wing's usual rally speed and spin.
fn effort(situation: &Situation) -> f64 {
    let (player, shot) = (&situation.hitter, &situation.shot);
    let aside = (shot.contact.x - situation.hitter_place.x) * situation.hitter_end.sign();
    let wing = player.wing_for(aside);
    let delivery = Delivery {
        stroke: shot.stroke,
        wing,
        speed: shot.speed,
        topspin: shot.topspin,
        pressure: situation.hitter_pressure,
        turn: 0.0,
        height: shot.contact.z,
        depth: shot.contact.y.abs(),
        elevation: 0.0,
    };
    standpoint_geometry::effort(&Behaviour::default(), &skill_of(player, shot.stroke, wing), &delivery)
}

fn pace(situation: &Situation) -> Vec<String> {
    let surface = &situation.conditions.surface;
    vec![tr!(
        "Friction {0} and a rebound of {1} of the speed downwards give this court a pace of {2}.",
        decimal(surface.friction, 2),
        words::percent(surface.restitution.at(standpoint_geometry::PACE_TEST_ANGLE)),
        decimal(surface.pace_rating(), 0)
    )]
}

fn receipt(answer: &Answer) -> Option<&Interception> {
    match &answer.outcome {
        Outcome::Play(play) => Some(&play.receipt),
        Outcome::NoReply(receipt) => Some(receipt),
        Outcome::Winner { .. } => None,
    }
}

fn meeting(answer: &Answer, session: &Session) -> Option<Vec<String>> {
    let units = session.units();
    if let Outcome::Winner { late_by, .. } = &answer.outcome {
        return Some(vec![tr!(
            "Wherever they try, the ball is past {} before they get there.",
            words::seconds(*late_by)
        )]);
    }
    let met = receipt(answer)?;
    let place = words::place(met.contact.truncate(), session.hitter_end().other(), &session.court(), units);
    Some(vec![
        tr!(
            "They meet it {0} after your contact, {1}, {2} above the ground, on the {3}.",
            words::seconds(met.time),
            place,
            words::length(met.contact.z, units),
            words::wing(met.wing)
        ),
        tr!(
            "Of all points of the ball’s path they win most from this one. They get there with {0} to spare and reach it {1} of the time; their stroke is under {2} of full pressure, counted from a proper stance.",
            words::seconds(met.time_to_spare),
            words::percent(met.reach),
            words::percent(met.pressure)
        ),
    ])
}

fn replies(play: &Play, session: &Session) -> Vec<String> {
    let mut said = vec![tr!(
        "{} replies were considered: every stroke, speed and spin they have from there, to places all over your side. The more points a reply wins them, the more often they choose it; but they do not always choose the best.",
        standpoint_language::whole(play.replies_weighed)
    )];
    for (number, reply) in session.best().into_iter().enumerate() {
        said.push(tr!(
            "{0}: {1}, {2} at {3}, goes in {4}, {5}.",
            number + 1,
            words::reply(reply.name),
            words::stroke(reply.stroke),
            words::speed(reply.speed, session.units()),
            words::percent(reply.chance_in),
            replying::describe(reply)
        ));
    }
    said
}

fn time_to_spare(play: &Play, situation: &Situation) -> Vec<String> {
    let movement = &situation.hitter.movement;
    let mut said = vec![tr!(
        "{0} pass before the first step; then you run up to {1} m/s and have seven tenths of that after about {2}.",
        words::seconds(movement.reaction_s),
        decimal(movement.v_max, 1),
        words::seconds(movement.tau_s * -(0.3f64).ln())
    )];
    said.extend(play.best.iter().map(|reply| {
        tr!(
            "{0}: from the spot you are at the ball with {1} to spare.",
            words::reply(reply.name),
            words::seconds(reply.time_to_spare)
        )
    }));
    said
}

fn exposure(play: &Play) -> Vec<String> {
    let one = |reply: &Reply| {
        tr!(
            "{0}: it goes in {1} and is out of your reach {2}. With all that may follow when you reach it, it wins them {3} points in 100.",
            words::reply(reply.name),
            words::percent(reply.chance_in),
            words::percent(reply.wins_outright),
            words::points(reply.exposure)
        )
    };
    let mut said: Vec<String> = play.best.iter().map(one).collect();
    said.push(
        text("A place costs what they win against it over all their replies, each counted as often as they choose it. What a ball is worth comes from the rally played out to its end, stroke by stroke.")
            .to_owned(),
    );
    said
}

fn spot(play: &Play, session: &Session) -> Vec<String> {
    let place = standing::place(play, session.hitter_end(), &session.court(), session.units());
    vec![
        tr!("They win least with you here: {0}. That is {1} points in 100.", place, words::points(play.spot.exposure)),
        tr!(
            "It is the middle of all places that are as good as the best, weighted by how little more they win there: {} points more weigh e times less.",
            decimal(100.0 * f64::from(Behaviour::default().zone_width), 1)
        ),
        text("To the side a step matters; in depth, behind the baseline, one or two metres often change nothing that could be told. In the shaded zone they win at most two points more.")
            .to_owned(),
    ]
}

fn rules(play: &Play, session: &Session) -> Vec<String> {
    let units = session.units();
    vec![
        tr!(
            "With you in the middle of the court, at the same depth, they win {0} points in 100: {1} against the spot.",
            words::points(play.middle.exposure),
            words::more_points(play.middle.exposure - play.spot.exposure)
        ),
        tr!(
            "The bisector halves the {0}° between their widest replies to either side; it passes {1} beside the spot and gives them {2}.",
            decimal(play.wedge.width().to_degrees(), 0),
            words::length(play.bisector.offset.abs(), units),
            words::more_points(play.bisector.exposure - play.spot.exposure)
        ),
    ]
}

fn recovery(play: &Play, situation: &Situation, session: &Session) -> Vec<String> {
    let (run, units) = (&play.recovery, session.units());
    let mut said = vec![tr!(
        "The follow-through takes {0}; then {1} to the spot: {2} in all. The opponent strikes after {3}.",
        words::seconds(situation.hitter.movement.follow_through_s),
        words::length(run.distance, units),
        words::seconds(run.needed),
        words::seconds(run.available)
    )];
    said.push(if run.short_by > SHORT {
        tr!(
            "{0} are missing then. Of all places that can be reached in time the best is this: {1}. There they win {2} points in 100 more than at the spot.",
            words::length(run.short_by, units),
            words::place(run.reached.place, session.hitter_end(), &session.court(), units),
            decimal(100.0 * run.extra_exposure, 1)
        )
    } else {
        text("So you stand there in time, and can split as they strike.").to_owned()
    });
    said
}

fn formula(step: ExplainStep) -> Option<&'static str> {
    Some(match step {
        ExplainStep::Flight => "a = −k·cD·|v|·v + k·cL·|v|²·n − g",
        ExplainStep::Pace => text("100·(1 − μ) + 150·(0.81 − e)"),
        ExplainStep::TimeToSpare => "v = vmax·(1 − e^(−t/τ))",
        ExplainStep::Exposure => text("they win = goes in × (1 − reached × your chance with the ball that you get)"),
        ExplainStep::Spot => text("weight of a place = e^(−points more / width of the zone)"),
        ExplainStep::GoesIn
        | ExplainStep::Meeting
        | ExplainStep::Replies
        | ExplainStep::Rules
        | ExplainStep::Recovery => return None,
    })
}

fn source(step: ExplainStep) -> &'static str {
    match step {
        ExplainStep::Flight => text(
            "Drag and lift of spinning tennis balls as measured (Štěpánek 1988); air by temperature and height above the sea.",
        ),
        ExplainStep::GoesIn => text(
            "The spread is our choice by level, set so that error rates cross-court and down the line come out as published.",
        ),
        ExplainStep::Pace => {
            text("Formula of the International Tennis Federation; the ball slides or grips (Cross 2020).")
        }
        ExplainStep::Meeting => text(
            "Follows from the rally played out. How much harder a ball is right after the bounce was set by published tables of professional play.",
        ),
        ExplainStep::Replies => text(
            "Speeds and spins by level; flights by the same laws as your own shot. Choices by quantal response (McKelvey and Palfrey 1995).",
        ),
        ExplainStep::TimeToSpare => text(
            "Sprint model fitted to split times; reach comes off the distance, metres backwards count more. Before a stroke one brakes, and the last step is a lunge.",
        ),
        ExplainStep::Exposure => text(
            "The rally is a game in which stroke follows stroke until the point is won (Shapley 1953), solved for these two players, this court and this ball, or for the nearest level until that is done. Its few constants were set by published tables of professional play.",
        ),
        ExplainStep::Spot => text("Shift to the side and depth are held against published positions of professionals."),
        ExplainStep::Rules => text("The bisector is the rule that is taught; it knows neither depth nor wings."),
        ExplainStep::Recovery => text("The same sprint model, from your own contact to theirs."),
    }
}
