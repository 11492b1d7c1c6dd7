//! What an import, done or tried, says of its files and tables.

use super::output;
use crate::import::Imported;
use crate::language::Translator;
use crate::store::Outcome;

/// `1 row`, `2 rows`.
pub fn count(number: usize, noun: &str) -> String {
    let plural = if number == 1 { "" } else { "s" };
    format!("{number} {noun}{plural}")
}

/// Files that could not be read, a line each.
pub fn not_read(imported: &Imported, words: &mut Translator) -> String {
    let problems = imported.problems.iter();
    let lines = problems.map(|problem| {
        let label = words.say(problem.label());
        let reason = words.say(&problem.reason.to_string());
        format!("{label}: {}: {reason}\n", problem.file)
    });
    lines.collect()
}

/// Rows by table, and what was kept out.
pub fn counts(outcome: &Outcome, words: &mut Translator) -> String {
    let counts = outcome.snapshot.counts.iter();
    let rows = counts
        .filter(|(_, counts)| counts.rows + counts.dropped > 0)
        .map(|(table, counts)| {
            vec![
                words.say(&table.replace('_', " ")),
                counts.rows.to_string(),
                counts.added.to_string(),
                counts.dropped.to_string(),
            ]
        });
    let rows = rows.collect();
    let mut text = output::table_said(words, &["Table", "Rows", "new", "gone"], rows);
    for (label, lines) in [
        ("Kept out", &outcome.snapshot.kept_out),
        ("Set aside", &outcome.set_aside),
    ] {
        for line in lines {
            text.push_str(&format!(
                "{}: {}\n",
                words.say(label),
                words.say(&line.to_string())
            ));
        }
    }
    text
}
