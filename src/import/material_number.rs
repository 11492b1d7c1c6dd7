//! A column headed `Material`: what a part is made of, or, as many stock systems say, its number. The values decide.

use crate::part::designation::elastomer;

use super::cell::Cell;
use super::field::Field;
use super::fold::fold;
use super::grid::Grid;
use super::header::How;
use super::header_rows::Headers;

/// The folded word.
const MATERIAL: &str = "material";
/// Cells looked at.
const CELLS_LOOKED_AT: usize = 200;
/// Least share of values that must look like numbers of parts (common practice, no source).
const LEAST_NUMBERS: f64 = 0.6;
/// Share of values from which on a column with materials holds materials (common practice, no source).
const LEAST_MATERIALS: f64 = 0.5;

/// Fields that name a part, so that a material is a material.
const NAMES: [Field; 3] = [Field::PartNumber, Field::OwnNumber, Field::SupplierNumber];

/// Takes such a column for the part number, where no other column is and the values below it are no materials.
pub fn take(headers: &mut Headers, grid: &Grid, first_row: u32) {
    let fields = headers.fields();
    if NAMES.iter().any(|field| fields.contains(field)) {
        return;
    }
    let is_open = |header: &super::header::Header| {
        header.field == Field::Material && header.how != How::Given
    };
    let Some(column) = (headers.columns.iter_mut())
        .find(|column| is_open(&column.header) && fold(&column.printed) == MATERIAL)
    else {
        return;
    };
    if !are_numbers(grid, column.index, first_row) {
        return;
    }
    column.header.field = Field::PartNumber;
    headers.why.push(format!(
        "column `{}` holds the part number, since no other does",
        column.printed
    ));
}

/// True where most values hold a figure and fewer than half are materials.
fn are_numbers(grid: &Grid, column: u32, first_row: u32) -> bool {
    let (mut filled, mut numbers, mut materials) = (0, 0, 0);
    for row in first_row..grid.row_count() {
        let cell = grid.cell(row, column);
        if cell == Cell::Empty {
            continue;
        }
        let text = cell.to_text();
        filled += 1;
        materials += usize::from(is_material(&text));
        numbers += usize::from(text.contains(|c: char| c.is_ascii_digit()));
        if filled == CELLS_LOOKED_AT {
            break;
        }
    }
    let share = |count: usize| count as f64 / f64::from(filled.max(1) as u32);
    filled > 0 && share(numbers) >= LEAST_NUMBERS && share(materials) < LEAST_MATERIALS
}

/// True for a text that is a material as a whole: an elastomer with or without its hardness (`NBR`, `NBR 70`, `FKM-75 Shore
/// A`), a steel by number (EN 10027-2: `1.4301`) or by its elements (EN 10027-1: `100Cr6`), or several of them. `CR-001` and
/// `NBR 20x2` are numbers and designations of parts.
fn is_material(text: &str) -> bool {
    let words = || {
        text.split(|c: char| c.is_whitespace() || matches!(c, '/' | ',' | ';' | '(' | ')'))
            .filter(|word| !word.is_empty())
    };
    let is_named = |word: &str| is_elastomer(word) || is_steel(word);
    words().any(is_named) && words().all(|word| is_named(word) || is_of_hardness(word))
}

/// True for `NBR`, `NBR70` and `NBR-70`.
fn is_elastomer(word: &str) -> bool {
    let name = word.trim_end_matches(|c: char| c.is_ascii_digit());
    let hardness = &word[name.len()..];
    let name = name
        .strip_suffix('-')
        .filter(|_| !hardness.is_empty())
        .unwrap_or(name);
    elastomer(name).is_some() && (hardness.is_empty() || is_of_hardness(hardness))
}

/// True for a steel or a bronze by its number or by its elements.
fn is_steel(word: &str) -> bool {
    let is_number = word.strip_prefix("1.").is_some_and(|digits| {
        digits.len() >= 4 && digits.bytes().take(4).all(|byte| byte.is_ascii_digit())
    });
    let has_elements = ["Cr", "Ni", "Mn", "Mo", "CuSn", "CuZn"]
        .iter()
        .any(|element| word.contains(element));
    // Carbon, or a letter for high alloy or a casting, stands before the elements: `Motor-12` is no steel.
    let begins = word.starts_with(|c: char| c.is_ascii_digit())
        || ["X", "G", "Cu", "Ni"]
            .iter()
            .any(|begin| word.starts_with(begin));
    is_number || has_elements && begins && word.contains(|c: char| c.is_ascii_digit())
}

/// True for a hardness, of two figures as ISO 48-4 measures it, and for the words beside it.
fn is_of_hardness(word: &str) -> bool {
    let is_figure = word.len() == 2 && word.bytes().all(|byte| byte.is_ascii_digit());
    is_figure
        || matches!(
            word.to_lowercase().as_str(),
            "shore" | "sh" | "sha" | "a" | "irhd" | "°" | "±5"
        )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::import::find_table::only_table;
    use crate::record::TableKind;

    /// Kind of the table and field of its column `Material`.
    fn field(text: &str) -> (TableKind, Field) {
        let table = only_table(text);
        let column = table
            .columns
            .iter()
            .find(|column| column.printed == "Material")
            .unwrap();
        (table.kind, column.header.field)
    }

    #[test]
    fn a_number_under_material_is_that_of_the_part() {
        for text in [
            "Material;Kurztext;Lagerort;Bestand;Reserviert\nT-001;6204 2RS;A1;0;0\nT-101;6204 2RS;A2;60;0\n",
            "Material;Materialkurztext;Lagerort;Bestand\nT-001;Rillenkugellager abgedichtet;A1;40\n",
            // A material within a number or a designation makes no column of materials.
            "Material;Werk;Lagerort;Bestand\nT-001;1000;L1;30\nT-002;1000;L1;40\nNBR-Platte;1000;L1;4\n",
            "Material;Lagerort;Bestand\n6204 2RS;A1;3\n6206;A2;4\nNBR 20x2;A3;3\n",
            "Material;Materialkurztext;Bestand\nCR-001;6204 2RS;30\nCR-002;6206;30\n",
            "Material;Werk;Lagerort;Bestand\n104711;1000;A1;40\n104712;1000;A2;40\n",
        ] {
            assert_eq!(field(text), (TableKind::Stock, Field::PartNumber), "{text}");
        }
        let used = "Material;Buch.dat.;Menge\n104711;04.03.2025;2\n104711;12.06.2025;4\n";
        assert_eq!(field(used), (TableKind::Usages, Field::PartNumber));
    }

    #[test]
    fn a_material_stays_one() {
        for text in [
            "Artikel;Material;Lagerort;Bestand\nT-001;X-12;A1;4\nT-002;X-13;A2;6\n",
            "Bezeichnung;Material;Lagerort;Bestand\nO-Ring 20x3;NBR 70;A1;4\nO-Ring 30x3;FKM 75;A2;6\n",
            "Bezeichnung;Material;Lagerort;Bestand\nZylinderstift 6x20;1.4301;A1;4\nZylinderstift 8x20;100Cr6;A2;6\n",
            "Bezeichnung;Material;Lagerort;Bestand\nDeckel;Bronze;A1;4\nDeckel;Stahl;A2;6\n",
        ] {
            assert_eq!(field(text).1, Field::Material, "{text}");
        }
    }

    #[test]
    fn a_material_is_one_as_a_whole() {
        // ISO 1629 names the rubbers; steels are named by EN 10027. Wordings are common practice, no source.
        for (text, is_one) in [
            ("NBR", true),
            ("NBR 70", true),
            ("NBR70", true),
            ("FKM-75", true),
            ("FKM 75 Shore A", true),
            ("1.4301", true),
            ("1.4301 / NBR", true),
            ("100Cr6", true),
            ("X5CrNi18-10", true),
            ("CuSn8", true),
            ("Motor-12", false),
            ("CR-001", false),
            ("NBR 20x2", false),
            ("NBR-Platte", false),
            ("6204 2RS", false),
            ("T-70", false),
            ("70", false),
        ] {
            assert_eq!(is_material(text), is_one, "{text}");
        }
    }
}
