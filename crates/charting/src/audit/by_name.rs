//! Serialises an enum by its name in summaries.

use serde::{Deserialize, Deserializer, Serialize, Serializer};

use standpoint_board::file::Named;

/// The choice with this name.
pub fn named<T: Named, E: serde::de::Error>(name: &str) -> Result<T, E> {
    let found = T::NAMES.iter().find(|(known, _)| *known == name).map(|(_, choice)| *choice);
    found.ok_or_else(|| E::custom(format_args!("`{name}` is not one of the names allowed here")))
}

pub fn serialize<K: Named, S: Serializer>(key: &K, serializer: S) -> Result<S::Ok, S::Error> {
    key.name().serialize(serializer)
}

pub fn deserialize<'de, K: Named, D: Deserializer<'de>>(deserializer: D) -> Result<K, D::Error> {
    named(&String::deserialize(deserializer)?)
}

/// An optional value.
pub mod optional {
    use super::*;

    pub fn serialize<K: Named, S: Serializer>(key: &Option<K>, serializer: S) -> Result<S::Ok, S::Error> {
        key.map(Named::name).serialize(serializer)
    }

    pub fn deserialize<'de, K: Named, D: Deserializer<'de>>(deserializer: D) -> Result<Option<K>, D::Error> {
        Option::<String>::deserialize(deserializer)?.as_deref().map(named).transpose()
    }
}
