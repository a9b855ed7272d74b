//! Serialises groups keyed by an enum, with its name in summaries.

use serde::{Deserialize, Deserializer, Serializer};

use super::by_name::named;
use super::group::Group;
use standpoint_board::file::Named;

pub fn serialize<K: Named, S: Serializer>(groups: &[(K, Group)], serializer: S) -> Result<S::Ok, S::Error> {
    serializer.collect_seq(groups.iter().map(|(key, group)| (key.name(), group)))
}

pub fn deserialize<'de, K: Named, D: Deserializer<'de>>(deserializer: D) -> Result<Vec<(K, Group)>, D::Error> {
    let groups = Vec::<(String, Group)>::deserialize(deserializer)?;
    groups.into_iter().map(|(name, group)| Ok((named(&name)?, group))).collect()
}

/// Groups keyed by an optional value.
pub mod optional {
    use super::*;

    pub fn serialize<K: Named, S: Serializer>(groups: &[(Option<K>, Group)], serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_seq(groups.iter().map(|(key, group)| (key.map(Named::name), group)))
    }

    pub fn deserialize<'de, K: Named, D: Deserializer<'de>>(d: D) -> Result<Vec<(Option<K>, Group)>, D::Error> {
        let groups = Vec::<(Option<String>, Group)>::deserialize(d)?;
        let read = |(name, group): (Option<String>, Group)| {
            Ok((name.as_deref().map(named::<K, D::Error>).transpose()?, group))
        };
        groups.into_iter().map(read).collect()
    }
}
