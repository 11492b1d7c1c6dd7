//! Tells the kind of a table from the fields in its header, by `data/import/table_kinds.csv`.

use std::collections::BTreeSet;
use std::sync::OnceLock;

use crate::record::TableKind;

use super::field::Field;
use super::shipped::lines;

/// The table as shipped.
const TABLE_KINDS_CSV: &str = include_str!("../../data/import/table_kinds.csv");
/// Points of a field that no other kind has.
const POINTS_CHARACTERISTIC: f64 = 3.0;
/// Points of a field that the kind often has.
const POINTS_TYPICAL: f64 = 1.0;
/// Points of a field that may stand in a table of the kind and tells nothing of it.
const POINTS_BESIDE: f64 = 0.0;
/// Points lost for a field that does not belong to the kind.
const POINTS_FOREIGN: f64 = -1.0;
/// Points of a sheet or file name that names the kind: less than any field, so that it only breaks ties.
const POINTS_NAME: f64 = 0.5;

/// What a kind of table consists of.
#[derive(Debug)]
struct Makeup {
    kind: TableKind,
    /// One field of each group must be there.
    essential: Vec<Vec<Field>>,
    characteristic: Vec<Field>,
    typical: Vec<Field>,
    /// Fields that neither speak for the kind nor against it.
    beside: Vec<Field>,
    /// Fields that tell the kind although none of its records keeps them.
    unused: Vec<Field>,
    /// Beginnings of words in sheet and file names.
    words: Vec<&'static str>,
}

/// A kind with its points.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ScoredKind {
    /// The kind.
    pub kind: TableKind,
    /// Points.
    pub points: f64,
}

/// A kind of table with its points and where they come from.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct KindScore {
    /// The kind.
    pub kind: TableKind,
    /// Points.
    pub points: f64,
    /// What gave or took points, in words.
    pub reasons: Vec<String>,
}

fn makeups() -> &'static [Makeup] {
    static MAKEUPS: OnceLock<Vec<Makeup>> = OnceLock::new();
    MAKEUPS.get_or_init(|| TableKind::ALL.into_iter().map(Makeup::shipped).collect())
}

impl Makeup {
    fn shipped(kind: TableKind) -> Self {
        let mut makeup = Self {
            kind,
            essential: Vec::new(),
            characteristic: Vec::new(),
            typical: Vec::new(),
            beside: Vec::new(),
            unused: Vec::new(),
            words: Vec::new(),
        };
        for (_, part, values) in
            lines(TABLE_KINDS_CSV).filter(|(code, _, _)| *code == code_of(kind))
        {
            let fields = || values.split('|').filter_map(Field::from_code).collect();
            match part {
                "one_of" => makeup.essential.push(fields()),
                "own" => makeup.characteristic = fields(),
                "often" => makeup.typical = fields(),
                "beside" => makeup.beside = fields(),
                "unused" => makeup.unused = fields(),
                _ => makeup.words = values.split('|').collect(),
            }
        }
        makeup
    }

    /// True where the fields hold one of every essential group.
    fn allows(&self, fields: &BTreeSet<Field>) -> bool {
        self.essential
            .iter()
            .all(|group| group.iter().any(|field| fields.contains(field)))
    }

    fn points_of(&self, field: Field) -> f64 {
        let is_essential = || self.essential.iter().any(|group| group.contains(&field));
        if self.characteristic.contains(&field) {
            POINTS_CHARACTERISTIC
        } else if self.typical.contains(&field) || is_essential() {
            POINTS_TYPICAL
        } else if self.beside.contains(&field) {
            POINTS_BESIDE
        } else {
            POINTS_FOREIGN
        }
    }
}

/// Code of a kind in the shipped table.
pub const fn code_of(kind: TableKind) -> &'static str {
    match kind {
        TableKind::Parts => "parts",
        TableKind::Suppliers => "suppliers",
        TableKind::Offers => "offers",
        TableKind::OtherWays => "other_ways",
        TableKind::Stock => "stock",
        TableKind::Usages => "usages",
        TableKind::Receipts => "receipts",
        TableKind::KitLines => "kit_lines",
        TableKind::Tasks => "tasks",
        TableKind::PlannedRebuilds => "planned_rebuilds",
        TableKind::Approvals => "approvals",
        TableKind::Machines => "machines",
    }
}

/// What gave or took points to a kind, in words.
pub fn reasons(kind: TableKind, fields: &BTreeSet<Field>, names: &str) -> Vec<String> {
    let Some(makeup) = makeups().iter().find(|makeup| makeup.kind == kind) else {
        return Vec::new();
    };
    let names = names.to_lowercase();
    let mut reasons: Vec<String> = fields
        .iter()
        .map(|field| format!("{field} {:+}", makeup.points_of(*field)))
        .collect();
    if let Some(word) = makeup.words.iter().find(|word| names.contains(**word)) {
        reasons.push(format!("`{word}` in the name {POINTS_NAME:+}"));
    }
    reasons
}

/// Kinds that the fields allow, best first; `names` are sheet and file name, which only break ties.
pub fn score_kinds(fields: &BTreeSet<Field>, names: &str) -> Vec<ScoredKind> {
    let names = names.to_lowercase();
    let mut scored: Vec<ScoredKind> = makeups()
        .iter()
        .filter(|makeup| makeup.allows(fields))
        .map(|makeup| {
            let own: f64 = fields.iter().map(|field| makeup.points_of(*field)).sum();
            let is_named = makeup.words.iter().any(|word| names.contains(word));
            ScoredKind {
                kind: makeup.kind,
                points: own + if is_named { POINTS_NAME } else { 0.0 },
            }
        })
        .collect();
    scored.sort_by(|a, b| b.points.total_cmp(&a.points).then(a.kind.cmp(&b.kind)));
    scored
}

/// The kind of which the fields lack least, with the first field of each group that is missing.
///
/// Most a kind may lack is `most` groups; what it has must speak for it.
pub fn nearest_kind(fields: &BTreeSet<Field>, most: usize) -> Option<(TableKind, Vec<Field>)> {
    let near = makeups().iter().filter_map(|makeup| {
        let missing: Vec<Field> = makeup
            .essential
            .iter()
            .filter(|group| !group.iter().any(|field| fields.contains(field)))
            .map(|group| name_of_group(group))
            .collect();
        let points: f64 = fields.iter().map(|field| makeup.points_of(*field)).sum();
        (missing.len() <= most && points > 0.0).then_some((makeup.kind, missing, points))
    });
    let nearest = near.min_by(|a, b| {
        let by_points = || b.2.total_cmp(&a.2).then(a.0.cmp(&b.0));
        a.1.len().cmp(&b.1.len()).then_with(by_points)
    });
    nearest.map(|(kind, missing, _)| (kind, missing))
}

/// The field by which a group is named to people: a part goes by its number.
fn name_of_group(group: &[Field]) -> Field {
    match group.contains(&Field::PartNumber) && !group.contains(&Field::Line) {
        true => Field::PartNumber,
        false => group[0],
    }
}

/// True for a field that does not belong to a kind.
pub fn is_foreign(kind: TableKind, field: Field) -> bool {
    let makeup = makeups().iter().find(|makeup| makeup.kind == kind);
    makeup.is_some_and(|makeup| makeup.points_of(field) <= POINTS_BESIDE)
}

/// True for a field that no record of a kind keeps, though tables of the kind often have it.
pub fn is_unused(kind: TableKind, field: Field) -> bool {
    let makeup = makeups().iter().find(|makeup| makeup.kind == kind);
    makeup.is_some_and(|makeup| makeup.unused.contains(&field))
}

/// True for a name that begins like a kind of table: `Prices`, `Angebote`.
pub fn is_kind_word(name: &str) -> bool {
    let name = name.to_lowercase();
    makeups().iter().any(|makeup| {
        makeup
            .words
            .iter()
            .any(|word| name.starts_with(word) && name.len() <= word.len() + 8)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use Field as F;

    #[test]
    fn every_line_names_a_kind_a_part_and_known_fields() {
        for (kind, part, values) in lines(TABLE_KINDS_CSV) {
            assert!(
                TableKind::ALL.iter().any(|known| code_of(*known) == kind),
                "{kind}"
            );
            assert!(
                ["one_of", "own", "often", "beside", "unused", "words"].contains(&part),
                "{part}"
            );
            if part != "words" {
                for code in values.split('|') {
                    assert!(Field::from_code(code).is_some(), "{kind}: {code}");
                }
            }
        }
        assert!(makeups().iter().all(|makeup| !makeup.essential.is_empty()));
    }

    fn kind(fields: &[Field], names: &str) -> Option<TableKind> {
        score_kinds(&fields.iter().copied().collect(), names)
            .first()
            .map(|scored| scored.kind)
    }

    #[test]
    fn fields_decide_and_names_only_break_ties() {
        for (fields, expected) in [
            (
                &[
                    F::PartNumber,
                    F::Type,
                    F::Bore,
                    F::OutsideDiameter,
                    F::Width,
                ][..],
                TableKind::Parts,
            ),
            (
                &[F::Supplier, F::Approved, F::OrderCutoff][..],
                TableKind::Suppliers,
            ),
            (
                &[F::Supplier, F::PartNumber, F::Price, F::LeadTime][..],
                TableKind::Offers,
            ),
            (
                &[F::PartNumber, F::Description, F::Price][..],
                TableKind::Offers,
            ),
            (&[F::PartNumber, F::OnHand, F::Bin][..], TableKind::Stock),
            (&[F::PartNumber, F::Quantity, F::Bin][..], TableKind::Stock),
            (
                &[F::Date, F::PartNumber, F::Quantity, F::Machine][..],
                TableKind::Usages,
            ),
            (
                &[F::Supplier, F::PartNumber, F::Ordered, F::Received][..],
                TableKind::Receipts,
            ),
            (
                &[F::Kit, F::Line, F::PartNumber, F::Quantity, F::Task][..],
                TableKind::KitLines,
            ),
            (
                &[F::Kit, F::Task, F::Hours, F::Predecessors][..],
                TableKind::Tasks,
            ),
            (
                &[F::Kit, F::Machine, F::Date][..],
                TableKind::PlannedRebuilds,
            ),
            (
                &[F::Kit, F::Line, F::Substitute, F::Outcome, F::By][..],
                TableKind::Approvals,
            ),
            (
                &[F::Machine, F::DowntimeCost, F::Installed][..],
                TableKind::Machines,
            ),
            (
                &[F::PartNumber, F::WayKind, F::Hours, F::Cost][..],
                TableKind::OtherWays,
            ),
        ] {
            assert_eq!(kind(fields, ""), Some(expected), "{fields:?}");
            // A sheet name that says something else changes nothing.
            assert_eq!(kind(fields, "machines"), Some(expected), "{fields:?}");
        }
        assert_eq!(kind(&[F::Note, F::Date], "stock"), None);
    }

    /// Common practice, no source: a shop notes of its parts who sells them, and by which number.
    #[test]
    fn a_supplier_in_a_list_of_parts_speaks_neither_for_nor_against_it() {
        let parts = [
            F::PartNumber,
            F::Description,
            F::Supplier,
            F::SupplierNumber,
        ];
        let scored = score_kinds(&parts.into_iter().collect(), "");
        assert_eq!(scored[0].kind, TableKind::Parts);
        assert!((scored[0].points - 2.0).abs() < 1e-9, "{scored:?}");
        assert!(is_foreign(TableKind::Parts, F::Supplier));
        assert!(!is_foreign(TableKind::Parts, F::Description));
    }

    #[test]
    fn the_nearest_kind_names_what_it_lacks() {
        for (fields, expected) in [
            (
                &[F::PartNumber, F::Machine, F::Reason, F::Quantity][..],
                Some((TableKind::Usages, vec![F::Date])),
            ),
            (
                &[F::Bin, F::OnHand, F::Lot],
                Some((TableKind::Stock, vec![F::PartNumber])),
            ),
            (
                &[F::Kit, F::Line],
                Some((TableKind::KitLines, vec![F::Quantity])),
            ),
            (
                &[F::Supplier, F::Ordered, F::Received],
                Some((TableKind::Receipts, vec![F::PartNumber])),
            ),
            (&[F::By, F::Checks][..], None),
        ] {
            let fields: BTreeSet<Field> = fields.iter().copied().collect();
            assert_eq!(nearest_kind(&fields, 1), expected, "{fields:?}");
        }
    }
}
