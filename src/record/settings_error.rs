//! Why settings cannot be used.

/// Why the settings cannot be used.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum SettingsError {
    /// The text is no TOML of the expected form.
    #[error("settings cannot be read: {0}")]
    Toml(#[from] Box<toml::de::Error>),
    /// A single key whose value cannot be read.
    #[error("settings: `{key}` cannot be read: {why}")]
    Unread {
        /// The key, with the table it stands in.
        key: String,
        /// What is wrong, and what would be right.
        why: String,
    },
    /// A value outside its range.
    #[error("settings: `{key}` is {found}, but must be {expected}")]
    OutOfRange {
        /// The key.
        key: &'static str,
        /// What was found.
        found: String,
        /// What would be right.
        expected: &'static str,
    },
    /// Two keys that cannot both hold.
    #[error("settings: `{key}` contradicts `{other}`: {because}")]
    Contradiction {
        /// One key.
        key: &'static str,
        /// The other.
        other: &'static str,
        /// Why both cannot hold.
        because: &'static str,
    },
    /// Two codes of movements that differ by case or blanks alone, with a meaning each.
    #[error("settings: movement codes `{code}` and `{other}` are one code with two meanings")]
    OneCode {
        /// One code.
        code: String,
        /// The other.
        other: String,
    },
    /// A calendar that is named but not defined.
    #[error(
        "settings: calendar `{name}` is used for {used_for}, but there is no [calendars.{name}]"
    )]
    NoSuchCalendar {
        /// The calendar's name.
        name: String,
        /// What it is used for.
        used_for: &'static str,
    },
}
