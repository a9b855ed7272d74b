//! Groups by a choice, as a summary has them: each with the name of its choice.

use serde::{Deserialize, Deserializer, Serialize, Serializer};

use super::findings::Group;
use crate::file::fields::Named;

fn named<T: Named, E: serde::de::Error>(name: &str) -> Result<T, E> {
    let found = T::NAMES.iter().find(|(known, _)| *known == name).map(|(_, choice)| *choice);
    found.ok_or_else(|| E::custom(format_args!("`{name}` is not one of the names allowed here")))
}

pub fn serialize<K: Named, S: Serializer>(groups: &[(K, Group)], serializer: S) -> Result<S::Ok, S::Error> {
    serializer.collect_seq(groups.iter().map(|(key, group)| (key.name(), group)))
}

pub fn deserialize<'de, K: Named, D: Deserializer<'de>>(deserializer: D) -> Result<Vec<(K, Group)>, D::Error> {
    let groups = Vec::<(String, Group)>::deserialize(deserializer)?;
    groups.into_iter().map(|(name, group)| Ok((named(&name)?, group))).collect()
}

/// A choice by its name.
pub mod name {
    use super::*;

    pub fn serialize<K: Named, S: Serializer>(key: &K, serializer: S) -> Result<S::Ok, S::Error> {
        key.name().serialize(serializer)
    }

    pub fn deserialize<'de, K: Named, D: Deserializer<'de>>(deserializer: D) -> Result<K, D::Error> {
        named(&String::deserialize(deserializer)?)
    }
}

/// Groups by a choice that may be none.
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
