//! Tells the kind of a table from the fields in its header.

use std::collections::BTreeSet;

use crate::record::TableKind;

use super::field::Field;

/// Points of a field that no other kind has.
const POINTS_CHARACTERISTIC: f64 = 3.0;
/// Points of a field that the kind often has.
const POINTS_TYPICAL: f64 = 1.0;
/// Points lost for a field that does not belong to the kind.
const POINTS_FOREIGN: f64 = -1.0;
/// Points of a sheet or file name that names the kind: less than any field, so that it only breaks ties.
const POINTS_NAME: f64 = 0.5;

/// What a kind of table consists of.
struct Makeup {
    kind: TableKind,
    /// One field of each group must be there.
    essential: &'static [&'static [Field]],
    characteristic: &'static [Field],
    typical: &'static [Field],
    /// Words in sheet and file names.
    words: &'static [&'static str],
}

/// A kind with its points.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ScoredKind {
    /// The kind.
    pub kind: TableKind,
    /// Points.
    pub points: f64,
}

use Field as F;

/// Fields that name a part.
const PART: &[Field] = &[
    F::OwnNumber,
    F::PartNumber,
    F::SupplierNumber,
    F::Designation,
    F::Alias,
    F::Description,
];

/// Fields that say what a part is.
const NATURE: &[Field] = &[
    F::Designation,
    F::Description,
    F::Type,
    F::Bore,
    F::OutsideDiameter,
    F::Width,
    F::AssembledWidth,
    F::Height,
    F::HousingWasherBore,
    F::InnerRacewayDiameter,
    F::OuterRacewayDiameter,
    F::CageOutsideDiameter,
    F::ShaftDiameter,
    F::HousingBore,
    F::InsideDiameter,
    F::Section,
    F::ThreadDiameter,
    F::ThreadPitch,
    F::PinDiameter,
    F::Length,
    F::Size,
    F::LengthUnit,
    F::Closure,
    F::Clearance,
    F::ToleranceClass,
    F::ContactAngle,
    F::RibForm,
    F::BoreForm,
    F::SnapRingGroove,
    F::Rows,
    F::PreloadClass,
    F::Arrangement,
    F::Cage,
    F::SealForm,
    F::Material,
    F::Hardness,
    F::Variant,
    F::FitClass,
    F::DynamicRating,
    F::StaticRating,
    F::RatingsSource,
    F::Maker,
    F::UnitOfCount,
    F::Alias,
    F::Note,
];

const MAKEUPS: [Makeup; 12] = [
    Makeup {
        kind: TableKind::Parts,
        essential: &[&[F::OwnNumber, F::PartNumber], NATURE],
        characteristic: &[F::MinStock, F::ShelfLife, F::SpeedLimit],
        typical: NATURE,
        words: &[
            "part", "teil", "artikel", "piece", "pieza", "ricambi", "czesci", "master", "stamm",
            "catalog",
        ],
    },
    Makeup {
        kind: TableKind::Suppliers,
        essential: &[
            &[F::Supplier],
            &[
                F::Approved,
                F::ApprovedClasses,
                F::OrderCutoff,
                F::CounterHours,
                F::CounterOpens,
                F::Freight,
                F::FreightFreeFrom,
                F::CollectionHours,
                F::CourierCost,
                F::Calendar,
            ],
        ],
        characteristic: &[
            F::ApprovedClasses,
            F::OrderCutoff,
            F::CounterHours,
            F::CounterOpens,
            F::CounterCloses,
            F::Freight,
            F::FreightFreeFrom,
            F::CollectionHours,
            F::CourierCost,
            F::CourierHours,
            F::Calendar,
        ],
        typical: &[F::Supplier, F::Approved, F::Note, F::Currency],
        words: &[
            "supplier",
            "vendor",
            "lieferanten",
            "fournisseur",
            "proveedor",
            "fornitor",
            "dostawc",
        ],
    },
    Makeup {
        kind: TableKind::Offers,
        essential: &[PART, &[F::Price, F::ListPrice, F::PriceFrom, F::LeadTime]],
        characteristic: &[
            F::Price,
            F::ListPrice,
            F::PriceFrom,
            F::LeadTime,
            F::Discount,
            F::MinimumQuantity,
            F::PackQuantity,
            F::ValidUntil,
            F::QuoteDate,
            F::ExpediteLeadTime,
            F::ExpediteSurcharge,
            F::PricePer,
            F::SupplierNumber,
            F::Available,
            F::Condition,
        ],
        typical: &[
            F::Supplier,
            F::Currency,
            F::UnitOfCount,
            F::Designation,
            F::Description,
            F::Type,
            F::Size,
            F::Bore,
            F::OutsideDiameter,
            F::Width,
            F::Maker,
            F::OwnNumber,
            F::PartNumber,
            F::Date,
            F::Note,
            F::Clearance,
            F::Closure,
            F::Material,
            F::Quantity,
        ],
        words: &[
            "offer", "price", "quote", "angebot", "preis", "prix", "devis", "offre", "oferta",
            "precio", "listino", "offert", "cennik",
        ],
    },
    Makeup {
        kind: TableKind::OtherWays,
        essential: &[PART, &[F::WayKind]],
        characteristic: &[F::WayKind, F::From],
        typical: &[
            F::OwnNumber,
            F::PartNumber,
            F::Kit,
            F::Line,
            F::Hours,
            F::Cost,
            F::Quantity,
            F::By,
            F::Note,
            F::Machine,
            F::Approved,
        ],
        words: &["way", "other", "repair", "make", "weg"],
    },
    Makeup {
        kind: TableKind::Stock,
        essential: &[
            PART,
            &[F::OnHand, F::Quantity],
            &[
                F::OnHand,
                F::Bin,
                F::Lot,
                F::CureDate,
                F::Reserved,
                F::OnOrder,
                F::CountedOn,
            ],
        ],
        characteristic: &[
            F::OnHand,
            F::Bin,
            F::Lot,
            F::CureDate,
            F::Reserved,
            F::OnOrder,
            F::CountedOn,
            F::DueDate,
        ],
        typical: &[
            F::OwnNumber,
            F::PartNumber,
            F::Designation,
            F::Description,
            F::UnitOfCount,
            F::Quantity,
            F::Note,
            F::MinStock,
            F::Date,
        ],
        words: &[
            "stock",
            "bestand",
            "lager",
            "inventory",
            "bin",
            "existencias",
            "giacenz",
            "magazyn",
            "stan",
        ],
    },
    Makeup {
        kind: TableKind::Usages,
        essential: &[PART, &[F::Date], &[F::Quantity]],
        characteristic: &[F::Reason],
        typical: &[
            F::OwnNumber,
            F::PartNumber,
            F::Date,
            F::Quantity,
            F::Machine,
            F::Designation,
            F::Description,
            F::UnitOfCount,
            F::Note,
            F::By,
            F::Bin,
            F::Kit,
        ],
        words: &[
            "usage",
            "issue",
            "verbrauch",
            "entnahme",
            "consomm",
            "consum",
            "zuzyc",
            "history",
            "rozchod",
        ],
    },
    Makeup {
        kind: TableKind::Receipts,
        essential: &[PART, &[F::Ordered], &[F::Received, F::Promised]],
        characteristic: &[F::Ordered, F::Received, F::Promised],
        typical: &[
            F::Supplier,
            F::OwnNumber,
            F::PartNumber,
            F::Quantity,
            F::Description,
            F::Designation,
            F::UnitOfCount,
            F::Note,
            F::Price,
            F::Line,
            F::OnOrder,
            F::DueDate,
        ],
        words: &[
            "receipt",
            "order",
            "purchase",
            "bestell",
            "wareneingang",
            "commande",
            "pedido",
            "ordin",
            "zamow",
        ],
    },
    Makeup {
        kind: TableKind::KitLines,
        essential: &[
            &[F::Kit],
            &[F::Quantity],
            &[
                F::Line,
                F::OwnNumber,
                F::PartNumber,
                F::Designation,
                F::Description,
            ],
        ],
        characteristic: &[F::Assembly, F::NoSubstitutes],
        typical: &[
            F::Kit,
            F::Line,
            F::Quantity,
            F::OwnNumber,
            F::PartNumber,
            F::Designation,
            F::Description,
            F::Machine,
            F::Task,
            F::UnitOfCount,
            F::Note,
            F::Type,
            F::Size,
            F::Bore,
            F::OutsideDiameter,
            F::Width,
            F::Material,
            F::Section,
            F::InsideDiameter,
            F::ShaftDiameter,
            F::HousingBore,
            F::Closure,
            F::Clearance,
        ],
        words: &["kit", "satz", "bom", "zestaw"],
    },
    Makeup {
        kind: TableKind::Tasks,
        essential: &[&[F::Kit], &[F::Task], &[F::Hours]],
        characteristic: &[F::Predecessors, F::Hours],
        typical: &[F::Kit, F::Task, F::Machine, F::Note, F::Description],
        words: &[
            "task",
            "operation",
            "arbeitsg",
            "tache",
            "tarea",
            "attivita",
            "zadani",
        ],
    },
    Makeup {
        kind: TableKind::PlannedRebuilds,
        essential: &[&[F::Kit], &[F::Date]],
        characteristic: &[],
        typical: &[F::Kit, F::Date, F::Machine, F::Note],
        words: &["plan", "rebuild", "schedule", "termin"],
    },
    Makeup {
        kind: TableKind::Approvals,
        essential: &[&[F::Kit], &[F::Line], &[F::Substitute]],
        characteristic: &[F::Substitute, F::Outcome, F::Checks],
        typical: &[F::Kit, F::Line, F::By, F::Date, F::Note, F::Approved],
        words: &["approv", "freigab", "approb", "aprob", "zatwierd"],
    },
    Makeup {
        kind: TableKind::Machines,
        essential: &[
            &[F::Machine],
            &[
                F::DowntimeCost,
                F::Installed,
                F::RunningHours,
                F::Criticality,
                F::InUseFrom,
                F::InUseUntil,
                F::Description,
            ],
        ],
        characteristic: &[
            F::DowntimeCost,
            F::Installed,
            F::RunningHours,
            F::Criticality,
            F::InUseFrom,
            F::InUseUntil,
        ],
        typical: &[F::Machine, F::Description, F::Note],
        words: &[
            "machine", "maschin", "anlage", "equip", "maquina", "macchin", "maszyn",
        ],
    },
];

/// Kinds that the fields allow, best first; `names` are sheet and file name, which only break ties.
pub fn score_kinds(fields: &BTreeSet<Field>, names: &str) -> Vec<ScoredKind> {
    let names = names.to_lowercase();
    let mut scored: Vec<ScoredKind> = MAKEUPS
        .iter()
        .filter(|makeup| {
            makeup
                .essential
                .iter()
                .all(|group| group.iter().any(|field| fields.contains(field)))
        })
        .map(|makeup| {
            let own: f64 = fields
                .iter()
                .map(|field| {
                    if makeup.characteristic.contains(field) {
                        POINTS_CHARACTERISTIC
                    } else if makeup.typical.contains(field)
                        || makeup.essential.iter().any(|group| group.contains(field))
                    {
                        POINTS_TYPICAL
                    } else {
                        POINTS_FOREIGN
                    }
                })
                .sum();
            let by_name = if makeup.words.iter().any(|word| names.contains(word)) {
                POINTS_NAME
            } else {
                0.0
            };
            ScoredKind {
                kind: makeup.kind,
                points: own + by_name,
            }
        })
        .collect();
    scored.sort_by(|a, b| b.points.total_cmp(&a.points).then(a.kind.cmp(&b.kind)));
    scored
}

/// True for a name that begins like a kind of table: `Prices`, `Angebote`.
pub fn is_kind_word(name: &str) -> bool {
    let name = name.to_lowercase();
    MAKEUPS.iter().any(|makeup| {
        makeup
            .words
            .iter()
            .any(|word| name.starts_with(word) && name.len() <= word.len() + 8)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

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
}
