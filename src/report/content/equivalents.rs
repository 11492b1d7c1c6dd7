//! For each kit line the parts of its size: what may be fitted after checks, and what must not be used.

use std::collections::{BTreeSet, HashMap};
use std::sync::Arc;

use super::Inputs;
use super::words::{asked_for, cross_checked, designation, number, size};
use crate::catalogue::PartId;
use crate::interchange::{Judgement, MOST_NEAR, Verdict};
use crate::report::model::{Column, Emphasis, Row, Sheet, Value};

/// The sheet, one row per kit line and part that might be mistaken for it.
pub fn sheet(inputs: &Inputs<'_>) -> Sheet {
    let mut sheet = Sheet::new(
        "equivalents",
        "Equivalents and traps",
        "What else has this size, and may it be fitted?",
    );
    sheet.has_marks = true;
    sheet.columns = vec![
        Column::text("kit", "Kit").wrapped(28),
        Column::text("line", "Line"),
        Column::text("asks_for", "Asks for").wrapped(32),
        Column::text("part", "Part"),
        Column::text("designation", "Designation").wrapped(24),
        Column::text("size", "Size").wrapped(32),
        Column::text("size_checked", "Size cross-checked")
            .with_help("A three or more open sources, B two, C one, D from memory."),
        Column::text("verdict", "Verdict").wrapped(20),
        Column::text("why", "What differs or is not known").wrapped(60),
        Column::text("checks", "Before fitting").wrapped(44),
        Column::text("agrees", "What agrees").wrapped(40),
        Column::text("sources", "Rules from").wrapped(36),
    ];
    let mut said: HashMap<*const Judgement, Said> = HashMap::new();
    for acceptance in inputs.acceptances {
        let line = &inputs.shop.kits[acceptance.kit].lines[acceptance.line];
        let of_line = [
            line.record.kit.as_str(),
            line.record.line.as_str(),
            asked_for(inputs.shop, line).as_str(),
        ]
        .map(Arc::from);
        for open in acceptance.open.iter().chain(&acceptance.refused) {
            let said = said
                .entry(Arc::as_ptr(&open.judgement))
                .or_insert_with(|| Said::of(&open.judgement));
            sheet.rows.push(row(inputs, &of_line, open.part, said));
        }
    }
    sheet.notes = vec![
        "Exchange has a direction: the verdict is on fitting the part in place of what the line asks for, not the reverse.".to_owned(),
        "Unknown is never taken for equal. A size from memory never gives an unconditional yes.".to_owned(),
    ];
    let left_out: usize = inputs.acceptances.iter().map(|of| of.near_left_out).sum();
    if left_out > 0 {
        sheet.notes.push(format!(
            "Of other sizes each line shows the {MOST_NEAR} nearest; {left_out} more are not listed."
        ));
    }
    sheet.empty_text = "No other part of the size of any kit line.".to_owned();
    sheet
}

/// Says whether no check could make the part go in.
const fn is_refused(verdict: Verdict) -> bool {
    matches!(verdict, Verdict::MustNot | Verdict::Near)
}

/// What speaks against a part; of one that is refused for what differs, what is not known besides says nothing new.
fn against(judgement: &Judgement) -> String {
    if !is_refused(judgement.verdict) || judgement.differs.is_empty() {
        return judgement.against();
    }
    let known = Judgement {
        unknown: Vec::new(),
        ..judgement.clone()
    };
    known.against()
}

/// What to check first; nothing of a part that is not to be fitted.
fn before_fitting(judgement: &Judgement) -> String {
    match is_refused(judgement.verdict) {
        true => String::new(),
        false => judgement.before_fitting(),
    }
}

/// A judgement in the words of the sheet; rows of which the same is said share them.
struct Said {
    verdict: Arc<str>,
    against: Arc<str>,
    before_fitting: Arc<str>,
    agrees: Arc<str>,
    sources: Arc<str>,
    emphasis: Emphasis,
}

impl Said {
    fn of(judgement: &Judgement) -> Self {
        let sources: BTreeSet<&str> = judgement
            .differs
            .iter()
            .map(|difference| difference.source)
            .collect();
        Self {
            verdict: judgement.verdict.to_string().into(),
            against: against(judgement).into(),
            before_fitting: before_fitting(judgement).into(),
            agrees: judgement.agrees.join("; ").into(),
            sources: sources.into_iter().collect::<Vec<_>>().join("; ").into(),
            emphasis: match judgement.verdict {
                Verdict::AsItIs => Emphasis::Good,
                Verdict::AfterChecks | Verdict::WithRework => Emphasis::Attention,
                Verdict::MustNot | Verdict::Near => Emphasis::Stop,
            },
        }
    }
}

fn row(inputs: &Inputs<'_>, of_line: &[Arc<str>; 3], part: PartId, said: &Said) -> Row {
    let [kit, line, asks_for] = of_line.each_ref().map(Value::shared);
    Row::new(vec![
        kit,
        line,
        asks_for,
        Value::text(number(inputs.shop, part)),
        designation(inputs.shop, part),
        size(inputs.shop, part),
        cross_checked(inputs.shop, part),
        Value::shared(&said.verdict),
        Value::shared(&said.against),
        Value::shared(&said.before_fitting),
        Value::shared(&said.agrees),
        Value::shared(&said.sources),
    ])
    .with(said.emphasis)
}
