//! Questions beyond the place to stand: the worth of other shots, places and plans.

pub(crate) mod aim_map;
pub(crate) mod best_aim;
pub(crate) mod compare;
pub(crate) mod judge_place;
pub(crate) mod net_play;
pub(crate) mod plan;
pub(crate) mod play_on;
pub(crate) mod sweep;
pub(crate) mod what_if;
