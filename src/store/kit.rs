//! Tables about rebuilds: kit lines, tasks, dates, approvals, other ways and machines.

use super::identity::{
    put_list, put_place, put_size, put_traits, put_unit, take_list, take_place, take_size,
    take_traits, take_unit,
};
use super::price::{put_money, take_money};
use super::table::{RowIn, RowOut, Stored, TableError};
use crate::record::{
    ApprovalOutcome, ApprovalRecord, KitLine, MachineRecord, OtherWay, OtherWayKind,
    PlannedRebuild, Task,
};

impl Stored for KitLine {
    const TABLE: &'static str = "kit_lines";

    fn put(&self, row: &mut RowOut<'_>) {
        row.text("kit", Some(&self.kit));
        row.text("machine", self.machine.as_deref());
        row.text("assembly", self.assembly.as_deref());
        row.text("line", Some(&self.line));
        row.text("part", self.part.as_deref());
        row.text("description", self.description.as_deref());
        put_size(row, self.family, self.size);
        put_traits(row, &self.traits);
        row.number("quantity", self.quantity);
        put_unit(row, self.unit_of_count);
        row.text("task", self.task.as_deref());
        row.text("note", self.note.as_deref());
        row.flag("no_substitutes", Some(self.no_substitutes));
        put_place(row, &self.place);
    }

    fn take(row: &mut RowIn<'_>) -> Result<Self, TableError> {
        let (kit, machine, assembly) = (
            row.required_text("kit")?,
            row.text("machine")?,
            row.text("assembly")?,
        );
        let (line, part, description) = (
            row.required_text("line")?,
            row.text("part")?,
            row.text("description")?,
        );
        let (family, size) = take_size(row)?;
        Ok(Self {
            kit,
            machine,
            assembly,
            line,
            part,
            description,
            family,
            size,
            traits: take_traits(row)?,
            quantity: row.number("quantity")?,
            unit_of_count: take_unit(row)?,
            task: row.text("task")?,
            note: row.text("note")?,
            no_substitutes: row.flag("no_substitutes")?.unwrap_or(false),
            place: take_place(row)?,
        })
    }
}

impl Stored for Task {
    const TABLE: &'static str = "tasks";

    fn put(&self, row: &mut RowOut<'_>) {
        row.text("kit", Some(&self.kit));
        row.text("task", Some(&self.task));
        row.number("hours", Some(self.hours));
        put_list(row, "predecessors", &self.predecessors);
        put_place(row, &self.place);
    }

    fn take(row: &mut RowIn<'_>) -> Result<Self, TableError> {
        Ok(Self {
            kit: row.required_text("kit")?,
            task: row.required_text("task")?,
            hours: row.required_number("hours")?,
            predecessors: take_list(row, "predecessors")?,
            place: take_place(row)?,
        })
    }
}

impl Stored for PlannedRebuild {
    const TABLE: &'static str = "planned_rebuilds";

    fn put(&self, row: &mut RowOut<'_>) {
        row.text("kit", Some(&self.kit));
        row.text("machine", self.machine.as_deref());
        row.date("date", Some(self.date));
        put_place(row, &self.place);
    }

    fn take(row: &mut RowIn<'_>) -> Result<Self, TableError> {
        Ok(Self {
            kit: row.required_text("kit")?,
            machine: row.text("machine")?,
            date: row.required_date("date")?,
            place: take_place(row)?,
        })
    }
}

impl Stored for ApprovalRecord {
    const TABLE: &'static str = "approvals";

    fn put(&self, row: &mut RowOut<'_>) {
        row.text("kit", Some(&self.kit));
        row.text("line", Some(&self.line));
        row.text("substitute", Some(&self.substitute));
        let is_approved = match self.outcome {
            ApprovalOutcome::Approved => Some(true),
            ApprovalOutcome::DidNotFit => Some(false),
            ApprovalOutcome::Rejected => None,
        };
        row.flag("is_approved", is_approved);
        row.text("checks", self.checks.as_deref());
        row.text("by", Some(&self.by));
        row.date("date", self.date);
        put_place(row, &self.place);
    }

    fn take(row: &mut RowIn<'_>) -> Result<Self, TableError> {
        let (kit, line) = (row.required_text("kit")?, row.required_text("line")?);
        let substitute = row.required_text("substitute")?;
        let is_approved = row.flag("is_approved")?;
        let (checks, by, date) = (
            row.text("checks")?,
            row.required_text("by")?,
            row.date("date")?,
        );
        let place = take_place(row)?;
        let outcome = match is_approved {
            Some(true) => ApprovalOutcome::Approved,
            Some(false) => ApprovalOutcome::DidNotFit,
            None => ApprovalOutcome::Rejected,
        };
        Ok(Self {
            kit,
            line,
            substitute,
            outcome,
            checks,
            by,
            date,
            place,
        })
    }
}

const WAYS: [(OtherWayKind, &str); 5] = [
    (OtherWayKind::MakeInHouse, "make_in_house"),
    (OtherWayKind::ReworkInHouse, "rework_in_house"),
    (OtherWayKind::RepairOutside, "repair_outside"),
    (OtherWayKind::OtherBin, "other_bin"),
    (OtherWayKind::OtherMachine, "other_machine"),
];

impl Stored for OtherWay {
    const TABLE: &'static str = "other_ways";

    fn put(&self, row: &mut RowOut<'_>) {
        row.text("part", Some(&self.part));
        row.text("kit", self.kit.as_deref());
        row.text("line", self.line.as_deref());
        row.text(
            "kind",
            WAYS.iter()
                .find(|(kind, _)| *kind == self.kind)
                .map(|(_, code)| *code),
        );
        row.number("hours", self.hours);
        put_money(row, "cost_cents", "cost_currency", self.cost);
        row.number("quantity", self.quantity);
        row.text("from", self.from.as_deref());
        row.text("approved_by", self.approved_by.as_deref());
        row.text("note", self.note.as_deref());
        put_place(row, &self.place);
    }

    fn take(row: &mut RowIn<'_>) -> Result<Self, TableError> {
        let (part, kit, line) = (
            row.required_text("part")?,
            row.text("kit")?,
            row.text("line")?,
        );
        let kind = row.coded("kind", |code| {
            WAYS.iter()
                .find(|(_, known)| *known == code)
                .map(|(kind, _)| *kind)
        })?;
        let (hours, cost) = (
            row.number("hours")?,
            take_money(row, "cost_cents", "cost_currency")?,
        );
        let (quantity, from) = (row.number("quantity")?, row.text("from")?);
        let (approved_by, note) = (row.text("approved_by")?, row.text("note")?);
        let place = take_place(row)?;
        Ok(Self {
            part,
            kit,
            line,
            kind: kind.ok_or_else(|| row.bad("kind", "null"))?,
            hours,
            cost,
            quantity,
            from,
            approved_by,
            note,
            place,
        })
    }
}

impl Stored for MachineRecord {
    const TABLE: &'static str = "machines";

    fn put(&self, row: &mut RowOut<'_>) {
        row.text("machine", Some(&self.machine));
        row.text("description", self.description.as_deref());
        put_money(
            row,
            "downtime_cents_per_hour",
            "downtime_currency",
            self.downtime_cost_per_hour,
        );
        row.number("installed", self.installed);
        row.date("in_use_from", self.in_use_from);
        row.date("in_use_until", self.in_use_until);
        row.number("running_hours", self.running_hours);
        row.text("criticality", self.criticality.as_deref());
        put_place(row, &self.place);
    }

    fn take(row: &mut RowIn<'_>) -> Result<Self, TableError> {
        Ok(Self {
            machine: row.required_text("machine")?,
            description: row.text("description")?,
            downtime_cost_per_hour: take_money(
                row,
                "downtime_cents_per_hour",
                "downtime_currency",
            )?,
            installed: row.number("installed")?,
            in_use_from: row.date("in_use_from")?,
            in_use_until: row.date("in_use_until")?,
            running_hours: row.number("running_hours")?,
            criticality: row.text("criticality")?,
            place: take_place(row)?,
        })
    }
}
