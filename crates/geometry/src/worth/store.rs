//! Solved tables as bytes: one byte a value between the least and greatest of its row, packed, with a checksum.

use super::{
    lattice::{LANES, Lattice, Table},
    matchup::Matchup,
    solve::Game,
    targets::best_places,
};

const MAGIC: &[u8; 4] = b"SPWT";

/// The solved tables of a game.
#[must_use]
pub fn pack(matchup: &Matchup, game: &Game) -> Vec<u8> {
    let mut raw = Vec::new();
    for side in &game.sides {
        for row in 0..side.table.rows() {
            let values = side.table.row(row);
            let all = || values.iter().flatten().copied();
            let (low, high) = all().fold((1.0_f32, 0.0_f32), |(l, h), v| (l.min(v), h.max(v)));
            raw.extend_from_slice(&low.to_le_bytes());
            raw.extend_from_slice(&high.to_le_bytes());
            let step = ((high - low) / 255.0).max(1e-9);
            // Values are stored lane by lane as differences from the one before, which packs well.
            for lane in 0..LANES {
                let mut last = 0_u8;
                for v in values {
                    let byte = ((v[lane] - low) / step).round().clamp(0.0, 255.0) as u8;
                    raw.push(byte.wrapping_sub(last));
                    last = byte;
                }
            }
        }
    }
    let mut bytes = MAGIC.to_vec();
    bytes.extend_from_slice(&matchup.key().to_le_bytes());
    bytes.extend_from_slice(&checksum(&raw).to_le_bytes());
    bytes.extend_from_slice(&miniz_oxide::deflate::compress_to_vec(&raw, 9));
    bytes
}

/// The key of the matchup whose tables these are.
#[must_use]
pub fn key_of(bytes: &[u8]) -> Option<u64> {
    if bytes.get(..4)? != MAGIC {
        return None;
    }
    Some(u64::from_le_bytes(bytes.get(4..12)?.try_into().ok()?))
}

/// The tables, one for each different player; `None` when they are damaged or of another shape.
pub(crate) fn unpack(matchup: &Matchup, bytes: &[u8]) -> Option<Vec<Table>> {
    key_of(bytes)?;
    let sum = u64::from_le_bytes(bytes.get(12..20)?.try_into().ok()?);
    let lattices: Vec<_> = if matchup.players[0] == matchup.players[1] {
        vec![Lattice::of(&matchup.conditions, &matchup.players[0])]
    } else {
        matchup.players.iter().map(|p| Lattice::of(&matchup.conditions, p)).collect()
    };
    let size: usize = lattices.iter().map(|l| Table::new(l, 0.0).rows() * (8 + LANES * l.places())).sum();
    let raw = miniz_oxide::inflate::decompress_to_vec_with_limit(&bytes[20..], size).ok()?;
    if raw.len() != size || checksum(&raw) != sum {
        return None;
    }
    let mut at = 0;
    let mut tables = Vec::new();
    for lattice in &lattices {
        let mut table = Table::new(lattice, 0.0);
        for row in 0..table.rows() {
            let float = |at: usize| raw[at..at + 4].try_into().map(f32::from_le_bytes).unwrap_or(0.0);
            let (low, high) = (float(at), float(at + 4));
            at += 8;
            let step = (high - low) / 255.0;
            let values = table.row_mut(row);
            for lane in 0..LANES {
                let mut byte = 0_u8;
                for v in values.iter_mut() {
                    byte = byte.wrapping_add(raw[at]);
                    at += 1;
                    v[lane] = low + step * f32::from(byte);
                }
            }
            let target = best_places(lattice, table.row(row), super::Behaviour::default().zone_width);
            table.targets[row] = target;
        }
        tables.push(table);
    }
    Some(tables)
}

/// A solved game from its bytes; `None` when they are damaged or belong to other players, another court or ball.
#[must_use]
pub fn load(matchup: &Matchup, bytes: &[u8]) -> Option<Game> {
    if key_of(bytes)? != matchup.key() {
        return None;
    }
    let tables = unpack(matchup, bytes)?;
    let mut game =
        Game::new(&matchup.conditions, [&matchup.players[0], &matchup.players[1]], &super::Behaviour::default(), 0.48);
    for (side, table) in tables.into_iter().enumerate() {
        game.set_table(side, table);
    }
    Some(game)
}

fn checksum(bytes: &[u8]) -> u64 {
    bytes.iter().fold(0xcbf2_9ce4_8422_2325, |h, b| (h ^ u64::from(*b)).wrapping_mul(0x0100_0000_01b3))
}
