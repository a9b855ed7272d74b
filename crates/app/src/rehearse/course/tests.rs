use super::*;

fn course(source: Source) -> Course {
    Course::new(&Board::demo(), source, 5, Log::nowhere(), 0.0)
}

#[test]
fn the_spot_is_worth_more_than_where_the_ball_was_struck() {
    let mut one = course(Source::Theme(Theme::CrossCourt));
    one.kinds = Kinds::Place;
    one.ask(0.0);
    let spot = one.session().play().unwrap().spot.place;
    one.put(spot);
    one.answer(1.0, false);
    let Stand::Answered(best) = *one.stand() else { panic!("it is answered") };
    assert!(best.score >= 98 && best.distance < 0.05, "{best:?}");
    let mut two = course(Source::Theme(Theme::CrossCourt));
    two.kinds = Kinds::Place;
    two.ask(0.0);
    two.put(-spot);
    assert!(two.place().y <= 0.0, "nobody stands on the other side");
    two.answer(1.0, true);
    let Stand::Answered(worse) = *two.stand() else { panic!("it is answered") };
    assert!(worse.score < best.score && worse.late, "{worse:?}");
    assert_eq!(two.log().history().attempts.len(), 1);
}

#[test]
fn who_does_nothing_gets_nothing() {
    for theme in Theme::ALL {
        let mut course = course(Source::Theme(theme));
        course.kinds = Kinds::Place;
        course.ask(0.0);
        course.answer(1.0, true);
        assert!(matches!(course.stand(), Stand::Answered(Outcome { score: 0, .. })), "{theme:?}: {:?}", course.stand());
    }
}

#[test]
fn what_went_wrong_is_asked_again_in_the_same_sitting() {
    let mut course = course(Source::Theme(Theme::Line));
    course.kinds = Kinds::Place;
    course.ask(0.0);
    let wrong = course.item().clone();
    course.put(DVec2::new(-9.0, -17.0));
    course.answer(0.0, false);
    let mut again = false;
    for i in 1..8 {
        course.ask(f64::from(i));
        if *course.item() == wrong {
            again = true;
            break;
        }
        let spot = course.session().play().unwrap().spot.place;
        course.put(spot);
        course.answer(f64::from(i), false);
    }
    assert!(again);
}

#[test]
fn the_best_shot_has_all_points() {
    let mut course = course(Source::Theme(Theme::CrossCourt));
    course.kinds = Kinds::Shot;
    course.ask(0.0);
    assert_eq!(course.question(), Question::Shot);
    course.choose(choose::best(course.offers()));
    course.answer(0.0, false);
    assert!(matches!(course.stand(), Stand::Answered(Outcome { score: 100, .. })));
}

#[test]
fn the_board_gives_its_own_shots() {
    let mut course = course(Source::Board);
    course.kinds = Kinds::Place;
    course.ask(0.0);
    assert!(matches!(course.item(), Item::Board { title, .. } if title == "From the deuce corner"));
    assert_eq!(course.session().shot().unwrap().shot, Board::demo().pages[0].shots[0].shot);
}
