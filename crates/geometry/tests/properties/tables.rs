//! Solved tables from any bytes.

use proptest::{collection::vec, prelude::*};
use standpoint_geometry::{
    Level,
    worth::{load, matchup, pack, stand_in},
};

proptest! {
    #[test]
    fn any_bytes_are_refused_as_a_table(bytes in vec(any::<u8>(), 0..600), head in 0_usize..=12) {
        // Also behind a right mark and the right key.
        let club = matchup(Level::Club);
        let mut file = b"SPWT".to_vec();
        file.extend_from_slice(&club.key().to_le_bytes());
        file.truncate(head);
        file.extend_from_slice(&bytes);
        prop_assert!(load(&club, &file).is_none());
    }
}

#[test]
fn a_table_cut_or_changed_anywhere_is_refused() {
    let club = matchup(Level::Club);
    let whole = pack(&club, &stand_in(&club).0);
    assert!(load(&club, &whole).is_some());
    for k in 1..24 {
        assert!(load(&club, &whole[..whole.len() * k / 24]).is_none(), "cut at {k} of 24");
        let mut changed = whole.clone();
        changed[(whole.len() - 1) * k / 24] ^= 0x20;
        assert!(load(&club, &changed).is_none(), "changed at {k} of 24");
    }
}
