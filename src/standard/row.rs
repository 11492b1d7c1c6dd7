//! Reads one row of a standard's table by the names of its columns.

use csv::StringRecord;

use super::part::{Confidence, StandardPart};
use crate::part::{
    Closure, ContactAngle, Dimension, Family, FitClass, LoadRatings, RibForm, SizeError, SizeKey,
    Traits,
};
use crate::units::{Length, LengthError, LengthUnit, read_length};

/// Why a row of a shipped table cannot be used.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum RowError {
    /// The row is not readable as CSV.
    #[error("not readable as CSV: {reason}")]
    NotCsv {
        /// What the reader said.
        reason: String,
    },
    /// A cell that every row must have is empty or absent.
    #[error("column `{column}` is empty; every row needs it")]
    Missing {
        /// The column.
        column: &'static str,
    },
    /// A cell holds something its column does not know.
    #[error("column `{column}` holds `{found}`, which it does not know")]
    UnknownValue {
        /// The column.
        column: &'static str,
        /// The cell.
        found: String,
    },
    /// A dimension is no length.
    #[error("column `{column}`: {source}")]
    Length {
        /// The column.
        column: &'static str,
        /// Why.
        source: LengthError,
    },
    /// The dimensions do not make a size.
    #[error(transparent)]
    Size(#[from] SizeError),
    /// A row from memory that does not say so.
    #[error("confidence D, but neither source nor note says `from memory`")]
    MemoryNotSaid,
}

/// A row with its header.
pub(super) struct Row<'a> {
    pub(super) header: &'a StringRecord,
    pub(super) cells: &'a StringRecord,
}

impl<'a> Row<'a> {
    /// The cell of a column; `None` where the column is absent or the cell is blank.
    fn cell(&self, column: &str) -> Option<&'a str> {
        let at = self.header.iter().position(|name| name == column)?;
        self.cells
            .get(at)
            .map(str::trim)
            .filter(|cell| !cell.is_empty())
    }

    fn needed(&self, column: &'static str) -> Result<&'a str, RowError> {
        self.cell(column).ok_or(RowError::Missing { column })
    }

    /// A cell read by `read`, which is an error where `read` does not know it.
    fn coded<T>(
        &self,
        column: &'static str,
        read: impl Fn(&str) -> Option<T>,
    ) -> Result<Option<T>, RowError> {
        let Some(cell) = self.cell(column) else {
            return Ok(None);
        };
        read(cell).map(Some).ok_or_else(|| RowError::UnknownValue {
            column,
            found: cell.to_owned(),
        })
    }

    /// A key dimension: from its `_mm` column, or from the `_in` column of the same name.
    fn dimension(&self, dimension: Dimension) -> Result<Length, RowError> {
        let column = dimension.field();
        let in_inch = format!("{}_in", column.trim_end_matches("_mm"));
        let (cell, unit) = match (self.cell(column), self.cell(&in_inch)) {
            (Some(cell), _) => (cell, LengthUnit::Mm),
            (None, Some(cell)) => (cell, LengthUnit::Inch),
            (None, None) => return Err(RowError::Missing { column }),
        };
        read_length(cell, unit)
            .map(|read| read.length)
            .map_err(|source| RowError::Length { column, source })
    }

    fn size(&self, family: Family) -> Result<SizeKey, RowError> {
        let mut lengths = Vec::with_capacity(4);
        for dimension in family.key_dimensions() {
            lengths.push(self.dimension(*dimension)?);
        }
        let size = SizeKey::new(family, &lengths)?;
        Ok(match self.coded("fit", FitClass::read)? {
            Some(fit) => size.with_fit(fit),
            None => size,
        })
    }

    fn traits(&self) -> Result<Traits, RowError> {
        Ok(Traits {
            closure: self.coded("closure", Closure::from_code)?,
            rib_form: self.coded("rib_form", RibForm::from_code)?,
            contact_angle: self.coded("contact_angle_deg", |cell| {
                cell.parse().ok().map(ContactAngle)
            })?,
            rows: self.coded("rows", |cell| cell.parse().ok())?,
            variant: self.cell("variant").map(str::to_owned),
            ..Traits::default()
        })
    }

    fn ratings(&self) -> Result<Option<LoadRatings>, RowError> {
        let number = |column| self.coded(column, |cell| cell.parse::<f64>().ok());
        let (dynamic_kn, static_kn) = (number("dynamic_kn")?, number("static_kn")?);
        if dynamic_kn.is_none() && static_kn.is_none() {
            return Ok(None);
        }
        Ok(Some(LoadRatings {
            dynamic_kn,
            static_kn,
            source: Some(self.needed("ratings_source")?.to_owned()),
        }))
    }

    /// Reads the whole row.
    pub(super) fn read(&self) -> Result<StandardPart, RowError> {
        let code = self.needed("family")?;
        let family = Family::from_code(code).ok_or_else(|| RowError::UnknownValue {
            column: "family",
            found: code.to_owned(),
        })?;
        let letter = self.needed("confidence")?;
        let confidence = Confidence::from_letter(letter).ok_or_else(|| RowError::UnknownValue {
            column: "confidence",
            found: letter.to_owned(),
        })?;
        let source = self.needed("source")?.to_owned();
        let note = self.cell("note").unwrap_or_default().to_owned();
        let says_memory = source.contains("memory") || note.contains("memory");
        if !confidence.is_cross_checked() && !says_memory {
            return Err(RowError::MemoryNotSaid);
        }
        let synonyms = self.cell("synonyms").unwrap_or_default();
        Ok(StandardPart {
            designation: self.needed("designation")?.to_owned(),
            synonyms: synonyms
                .split(';')
                .map(|name| name.trim().to_owned())
                .filter(|name| !name.is_empty())
                .collect(),
            size: self.size(family)?,
            traits: self.traits()?,
            chamfer_mm: self.coded("chamfer_mm", |cell| cell.parse().ok())?,
            ratings: self.ratings()?,
            standard: self.needed("standard")?.to_owned(),
            source,
            confidence,
            note,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(header: &[&str], cells: &[&str]) -> Result<StandardPart, RowError> {
        let (header, cells) = (StringRecord::from(header), StringRecord::from(cells));
        Row {
            header: &header,
            cells: &cells,
        }
        .read()
    }

    const HEADER: [&str; 9] = [
        "family",
        "designation",
        "inside_diameter_in",
        "section_in",
        "synonyms",
        "standard",
        "source",
        "confidence",
        "note",
    ];

    fn ring(source: &str, confidence: &str, section: &str) -> Result<StandardPart, RowError> {
        let cells = [
            "o_ring",
            "AS568-222",
            "1.484",
            section,
            "AS568A-222; ",
            "SAE AS568",
            source,
            confidence,
            "",
        ];
        read(&HEADER, &cells)
    }

    #[test]
    fn inch_columns_are_read_exactly() {
        // SAE AS568: dash 222 is 1.484 x .139 in; 25.4 mm to the inch gives 37.6936 x 3.5306 mm.
        let part = ring("BDW", "B", "0.139").unwrap();
        assert_eq!(part.size.to_string(), "37.6936 x 3.5306 mm");
        assert_eq!(part.synonyms, ["AS568A-222"]);
    }

    #[test]
    fn a_bad_row_is_named_not_skipped() {
        assert_eq!(
            ring("BDW", "D", "0.139").unwrap_err(),
            RowError::MemoryNotSaid
        );
        let error = ring("BDW", "E", "0.139").unwrap_err().to_string();
        assert_eq!(
            error,
            "column `confidence` holds `E`, which it does not know"
        );
        assert!(matches!(
            ring("BDW", "B", "thin").unwrap_err(),
            RowError::Length { .. }
        ));
        assert_eq!(
            ring("", "B", "0.139").unwrap_err(),
            RowError::Missing { column: "source" }
        );
    }
}
