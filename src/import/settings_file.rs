//! The shop's settings among the files of a folder: which one holds, and what is left out of it.

use std::fs;
use std::path::PathBuf;
use std::sync::Arc;

use super::file_problem::{FileError, FileProblem};
use super::imported::Imported;
use crate::digest::sha256;
use crate::record::{SettingsInPart, ShopSettings};

impl Imported {
    /// The first settings file by name holds; others are problems.
    pub(super) fn read_settings(&mut self, files: Vec<(Arc<str>, PathBuf)>) {
        let mut files = files.into_iter();
        let Some((file, path)) = files.next() else {
            return;
        };
        for (other, _) in files {
            let reason = FileError::SecondSettings {
                used: file.to_string(),
            };
            self.problems.push(FileProblem {
                file: other,
                reason,
            });
        }
        let mut read = || -> Result<(ShopSettings, String), FileError> {
            let bytes = fs::read(&path)?;
            self.note_file(&file, &path, bytes.len(), sha256(&bytes));
            let text = String::from_utf8(bytes).map_err(|_| FileError::SettingsNotText)?;
            let text = text.trim_start_matches('\u{feff}').to_owned();
            let why = match ShopSettings::from_toml(&text) {
                Ok(settings) => return Ok((settings, text)),
                Err(why) => why,
            };
            let part = SettingsInPart::of(&text).ok_or(why)?;
            for (key, why) in part.left_out {
                let reason = FileError::SettingLeftOut { why, key };
                let file = Arc::clone(&file);
                self.problems.push(FileProblem { file, reason });
            }
            Ok((part.settings, part.text))
        };
        match read() {
            Ok((settings, text)) => {
                self.settings = settings;
                self.settings_text = Some(text);
                self.settings_file = Some(file);
            }
            Err(reason) => self.problems.push(FileProblem { file, reason }),
        }
    }
}
