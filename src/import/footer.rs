//! Reads the lines below the rows of a table: whether its prices hold value added tax, what they are in, and until when.

use super::fold::fold;
use super::grid::Grid;
use super::stated::Stated;
use super::table::Table;
use super::terms::BesideLine;
use super::title::{LONGEST_LINE, Title};
use crate::record::DateOrder;

/// Rows at the end of a table that are looked through. Common practice, no source.
const FOOTER_ROWS: u32 = 20;

/// Fewest columns of a table in which a lone text is none of its rows.
const LEAST_COLUMNS: usize = 3;

/// Takes what the last lines of a table that are one text each say of its prices; what stands above it holds before that.
pub(super) fn read_footer(grid: &Grid, table: &mut Table, order: DateOrder) {
    let first = table.end_row.saturating_sub(FOOTER_ROWS);
    for row in first.max(table.first_row)..table.end_row {
        let only = grid.only_text(row);
        let Some((_, text)) = only.filter(|(_, text)| text.len() <= LONGEST_LINE) else {
            continue;
        };
        table.title.take_tax(text);
        table.title.take_validity(text, order);
        take_basis(&mut table.title, text);
    }
    for line in lines_below(grid, table, first.max(table.first_row)) {
        let mut alone = Title::default();
        alone.take_tax(&line.text);
        alone.take_validity(&line.text, order);
        take_basis(&mut alone, &line.text);
        let is_used = alone != Title::default();
        table.title.take_line(&line, is_used);
    }
}

/// Rows of one text each below the last row of a table, which are none of its rows; a table of two columns has none that are
/// told apart from its rows.
fn lines_below(grid: &Grid, table: &Table, first: u32) -> Vec<BesideLine> {
    let mut lines = Vec::new();
    if table.columns.len() < LEAST_COLUMNS {
        return lines;
    }
    for row in (first..table.end_row).rev() {
        match grid.only_text(row) {
            Some((column, text)) if text.len() <= LONGEST_LINE => lines.push(BesideLine {
                row,
                column: column as u32,
                text: text.to_owned(),
            }),
            None if grid.is_blank(row) => {}
            _ => break,
        }
    }
    lines.reverse();
    lines
}

/// True for a line that says of prices whether tax is in them, and is no row of the table.
pub(super) fn is_of_tax(text: &str) -> bool {
    text.contains(char::is_whitespace) && {
        let states = Stated::read(text);
        states.is_with_tax || states.is_without_tax
    }
}

/// `Alle Preise in EUR je 100 Stück`; a bare `ab 100` is no number of units here.
fn take_basis(title: &mut Title, text: &str) {
    let folded = fold(text);
    let words: Vec<&str> = folded.split(' ').collect();
    let is_of_prices = words.iter().any(|word| {
        matches!(
            *word,
            "preise" | "prices" | "prix" | "precios" | "prezzi" | "ceny"
        )
    });
    if !is_of_prices {
        return;
    }
    let stated = Stated::read(text);
    let is_per = words.windows(2).any(|pair| {
        let is_for = matches!(
            pair[0],
            "je" | "pro" | "per" | "par" | "por" | "za" | "cada"
        );
        is_for && matches!(pair[1], "100" | "1000")
    });
    let states = &mut title.states;
    states.currency = states.currency.or(stated.currency);
    states.per = states.per.or(stated.per.filter(|_| is_per));
}

#[cfg(test)]
mod tests {
    use crate::import::find_table::{only_table, tables_of};

    #[test]
    fn lines_below_a_table_say_what_its_prices_are() {
        for (lines, is_with, is_without, per) in [
            ("Preise inkl. MwSt.", true, false, None),
            (
                "\nAlle Preise inkl. 19 % MwSt.\nLieferung ab Werk",
                true,
                false,
                None,
            ),
            ("prices incl. VAT", true, false, None),
            ("Preise zzgl. MwSt.", false, true, None),
            ("Alle Preise in EUR je 100 Stück", false, false, Some(100)),
            ("Alle Preise gültig ab 100 Stück", false, false, None),
            ("Gesamtsumme inkl. MwSt.", false, false, None),
            ("Summe;119,00", false, false, None),
        ] {
            let table = only_table(&format!(
                "Art-Nr;Bezeichnung;Preis\nN1;6305;11,90\n{lines}\n"
            ));
            let states = table.title.states;
            assert_eq!(
                (states.is_with_tax, states.is_without_tax, states.per),
                (is_with, is_without, per),
                "{lines}"
            );
        }
    }

    #[test]
    fn a_line_between_two_tables_is_of_the_one_above() {
        let tables = tables_of(
            "Art-Nr;Bezeichnung;Preis\nN1;6305;11,90\nPreise inkl. MwSt.\n\nTeilenr.;Lagerplatz;Bestand\nN2;B1;9\n",
        );
        let are_with: Vec<bool> = tables
            .iter()
            .map(|of| of.title.states.is_with_tax)
            .collect();
        assert_eq!(are_with, [true, false]);
    }
}
