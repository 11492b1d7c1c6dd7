//! Reads every row of one table.

use crate::import::cell::Cell;
use crate::import::field::Field;
use crate::import::issue::{Problem, RowIssue, Severity};
use crate::import::progress::{Progress, Step};
use crate::import::table::Table;
use crate::import::whole_list::MAKES_AN_OFFER;
use crate::parallel;
use crate::record::{OfferColumns, Records, TableKind};

use super::context::TableContext;
use super::counts::TableCounts;
use super::memo::{LookedAt, Memo};
use super::pieces::{ROWS_OF_A_PIECE, Shelf, starts_of_pieces};
use super::quick_offers::QuickOffers;
use super::reader::{Rejected, RowReader};
use super::row_kind::{RowIs, what_row_is};
use super::{
    approvals, kit_lines, machines, offers, other_ways, parts, planned_rebuilds, receipts, stock,
    suppliers, tasks, usages,
};

/// Pieces of each worker that are read before they are joined.
const PIECES_OF_A_WORKER: usize = 8;

/// Rows of one piece with what they gave.
#[derive(Default)]
struct Piece {
    records: Records,
    issues: Vec<RowIssue>,
    counts: TableCounts,
    looked_at: LookedAt,
}

/// Reads the rows of a table into `records`, problems into `issues`: pieces on all cores, their results in order. Counts
/// its rows, and names the fields that a row was asked for.
pub fn read_table(
    context: &TableContext<'_>,
    table: &Table,
    records: &mut Records,
    issues: &mut Vec<RowIssue>,
    progress: &Progress,
) -> (TableCounts, LookedAt) {
    let quick = QuickOffers::of(context, table);
    read_pieces(context, table, quick.as_ref(), records, issues, progress)
}

/// As [`read_table`], by the quick way only where one is given.
pub(super) fn read_pieces(
    context: &TableContext<'_>,
    table: &Table,
    quick: Option<&QuickOffers<'_>>,
    records: &mut Records,
    issues: &mut Vec<RowIssue>,
    progress: &Progress,
) -> (TableCounts, LookedAt) {
    let (mut counts, mut looked_at) = (TableCounts::default(), LookedAt::default());
    let starts = starts_of_pieces(table);
    // Memos and emptied pieces go from hand to hand, so that neither is made anew for each piece.
    let (memos, emptied) = (Shelf::default(), Shelf::default());
    let read_from = |start: &u32| {
        let mut memo = memos.take().unwrap_or_else(|| Memo::new(context));
        let mut piece: Piece = emptied.take().unwrap_or_default();
        let end = table.end_row.min(start + ROWS_OF_A_PIECE);
        piece.counts = read_piece(context, table, quick, (*start, end), &mut memo, &mut piece);
        piece.looked_at = memo.looked_at;
        memos.put(memo);
        progress.tell(Step::Rows {
            rows: u64::from(end - start),
        });
        piece
    };
    // A round at a time, so that no more than its pieces and those of the round before wait to be joined; a round is
    // joined while the next is read.
    let mut waiting: Vec<Piece> = Vec::new();
    let none: &[u32] = &[];
    let rounds = starts.chunks(parallel::workers() * PIECES_OF_A_WORKER);
    for round in rounds.chain([none]) {
        let before = std::mem::take(&mut waiting);
        let join = || {
            for mut piece in before {
                records.append(&mut piece.records);
                issues.append(&mut piece.issues);
                counts.add(piece.counts);
                looked_at.join(piece.looked_at);
                emptied.put(piece);
            }
        };
        (waiting, ()) = parallel::both(|| parallel::each(round, read_from), join);
    }
    (counts, looked_at)
}

/// Reads the rows from one to another into a piece.
fn read_piece<'g>(
    context: &TableContext<'g>,
    table: &Table,
    quick: Option<&QuickOffers<'g>>,
    (start, end): (u32, u32),
    memo: &mut Memo<'g>,
    piece: &mut Piece,
) -> TableCounts {
    let mut counts = TableCounts::default();
    // A list whose rows share nothing is kept as rows.
    let quick = quick.filter(|_| memo.offer_kinds.is_open());
    let mut columns = OfferColumns::with_room(if quick.is_some() {
        (end - start) as usize
    } else {
        0
    });
    for row in start..end {
        if quick.is_some_and(|quick| quick.read(context, row, memo, &mut columns, start)) {
            counts.read += 1;
            continue;
        }
        match what_row_is(context, table, row) {
            RowIs::Blank => counts.blank += 1,
            RowIs::Header => counts.headers += 1,
            RowIs::Total => counts.totals += 1,
            RowIs::Note => counts.notes += 1,
            RowIs::Heading => counts.headings += 1,
            RowIs::Data => {
                counts.read += 1;
                let mut reader = RowReader::new(context, row, memo, &mut piece.issues);
                if context.grid.is_crossed_out(row) {
                    reader.issue(Severity::Rejected, None, Problem::RowCrossedOut);
                    counts.rejected += 1;
                    continue;
                }
                if let Some((cells, header)) = context.slips.wider(context.grid, row) {
                    let problem = Problem::WiderThanHeader { cells, header };
                    reader.issue(Severity::Rejected, None, problem);
                    counts.rejected += 1;
                    continue;
                }
                if let Some(quick) = quick {
                    match offers::read(&mut reader) {
                        Ok(record) => {
                            let is_plain = reader.is_plain();
                            quick.learn(record, is_plain, memo, &mut columns, start);
                        }
                        Err(Rejected) => counts.rejected += 1,
                    }
                } else if read_row(&mut reader, &mut piece.records).is_err() {
                    counts.rejected += 1;
                }
            }
        }
    }
    piece.records.offers.push_columns(columns);
    counts
}

fn read_row(row: &mut RowReader<'_, '_>, records: &mut Records) -> Result<(), Rejected> {
    match row.table.kind {
        TableKind::Parts => parts::read(row).map(|record| records.parts.push(record)),
        TableKind::Suppliers => suppliers::read(row).map(|record| records.suppliers.push(record)),
        TableKind::Offers if is_without_offer(row) => Ok(()),
        TableKind::Offers => offers::read(row).map(|record| records.offers.push(record)),
        TableKind::OtherWays => other_ways::read(row).map(|record| records.other_ways.push(record)),
        TableKind::Stock => stock::read(row).map(|record| records.stock.push(record)),
        TableKind::Usages => usages::read(row).map(|record| records.usages.extend(record)),
        TableKind::Receipts => receipts::read(row).map(|record| records.receipts.push(record)),
        TableKind::KitLines => kit_lines::read(row).map(|record| records.kit_lines.push(record)),
        TableKind::Tasks => tasks::read(row).map(|record| records.tasks.push(record)),
        TableKind::PlannedRebuilds => {
            planned_rebuilds::read(row).map(|record| records.planned_rebuilds.push(record))
        }
        TableKind::Approvals => approvals::read(row).map(|record| records.approvals.push(record)),
        TableKind::Machines => machines::read(row).map(|record| records.machines.push(record)),
    }
}

/// True for a row of a list of everything in which nobody sells the part.
fn is_without_offer(row: &RowReader<'_, '_>) -> bool {
    let says = |field: &Field| {
        let column = row.table.column(*field);
        column.is_some_and(|column| row.table.grid.cell(row.row, column.index) != Cell::Empty)
    };
    row.table.is_read_beside && !MAKES_AN_OFFER.iter().any(says)
}
