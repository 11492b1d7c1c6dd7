//! Settings of which some keys are wrong: what holds of the rest, and why each of those is left out.

use toml::{Table, Value};

use super::settings::ShopSettings;
use super::settings_error::SettingsError;

/// Tables whose keys stand for themselves; one that is wrong takes no other with it.
const OF_SINGLE_KEYS: [&str; 5] = [
    "calendars",
    "exchange_rates",
    "movement_codes",
    "planning",
    "requests",
];

/// Settings without the keys that are wrong.
#[derive(Debug)]
pub struct SettingsInPart {
    /// What holds.
    pub settings: ShopSettings,
    /// Their text, which reads back as they are.
    pub text: String,
    /// Keys left out, such as `planning.order_cost`, and why.
    pub left_out: Vec<(String, SettingsError)>,
}

impl SettingsInPart {
    /// Leaves out every key that would be wrong if it stood alone, then those that the rest does not bear.
    ///
    /// `None` where the text is no TOML, where nothing would be left, or where no single key is to blame.
    pub fn of(text: &str) -> Option<Self> {
        let mut left_out = Vec::new();
        let mut kept = Table::new();
        for (key, value) in toml::from_str::<Table>(text).ok()? {
            match value {
                Value::Table(inner) if OF_SINGLE_KEYS.contains(&key.as_str()) => {
                    let inner = without_wrong(&key, inner, &mut left_out);
                    // Without any calendar the usual one holds.
                    if !inner.is_empty() {
                        kept.insert(key, Value::Table(inner));
                    }
                }
                value => {
                    let alone = Table::from_iter([(key.clone(), value.clone())]);
                    match why_wrong(&alone, &key) {
                        Some(why) => left_out.push((key, why)),
                        None => {
                            kept.insert(key, value);
                        }
                    }
                }
            }
        }
        loop {
            if kept.is_empty() {
                return None;
            }
            let text = toml::to_string(&kept).ok()?;
            match ShopSettings::from_toml(&text) {
                Ok(settings) => {
                    return (!left_out.is_empty()).then_some(Self {
                        settings,
                        text,
                        left_out,
                    });
                }
                Err(why) => {
                    let key = take_blamed(&mut kept, &why)?;
                    left_out.push((key, why));
                }
            }
        }
    }
}

/// The keys of a table that hold alone.
fn without_wrong(key: &str, inner: Table, left_out: &mut Vec<(String, SettingsError)>) -> Table {
    let mut kept = Table::new();
    for (name, value) in inner {
        let path = format!("{key}.{name}");
        let single = Table::from_iter([(name.clone(), value.clone())]);
        let alone = Table::from_iter([(key.to_owned(), Value::Table(single))]);
        match why_wrong(&alone, &path) {
            Some(why) => left_out.push((path, why)),
            None => {
                kept.insert(name, value);
            }
        }
    }
    kept
}

/// Why settings of a single key cannot hold; `None` where they can, or where only others of the file could tell.
fn why_wrong(alone: &Table, path: &str) -> Option<SettingsError> {
    let text = toml::to_string(alone).ok()?;
    match ShopSettings::from_toml(&text) {
        // The line of the single key says nothing of the file.
        Err(SettingsError::Toml(error)) => Some(SettingsError::Unread {
            key: path.to_owned(),
            why: error.message().to_owned(),
        }),
        Err(why @ SettingsError::OutOfRange { .. }) => Some(why),
        Err(_) | Ok(_) => None,
    }
}

/// Takes out the key that an error of the whole names; `None` where it names none that is there.
fn take_blamed(kept: &mut Table, why: &SettingsError) -> Option<String> {
    match why {
        SettingsError::Contradiction { key, .. } => {
            let Some(Value::Table(planning)) = kept.get_mut("planning") else {
                return None;
            };
            planning.remove(*key).map(|_| (*key).to_owned())
        }
        SettingsError::OneCode { code, .. } => {
            let Some(Value::Table(codes)) = kept.get_mut("movement_codes") else {
                return None;
            };
            let key = format!("movement_codes.{code}");
            codes.remove(code).map(|_| key)
        }
        SettingsError::NoSuchCalendar { used_for, .. } => {
            let key = format!("{}_calendar", used_for.trim_end_matches('s'));
            kept.remove(&key).map(|_| key)
        }
        _ => None,
    }
}
