//! Rows of machine lists.

use crate::import::field::Field;
use crate::record::MachineRecord;

use super::reader::{Rejected, RowReader};

/// Reads one machine.
pub fn read(row: &mut RowReader<'_, '_>) -> Result<MachineRecord, Rejected> {
    Ok(MachineRecord {
        machine: row.required_text(Field::Machine, "machine")?,
        description: row.text(Field::Description),
        downtime_cost_per_hour: row.money(Field::DowntimeCost),
        installed: row
            .number_above_zero(Field::Installed)
            .or_else(|| row.number_above_zero(Field::Quantity)),
        in_use_from: row.date(Field::InUseFrom),
        in_use_until: row.date(Field::InUseUntil),
        running_hours: row.number_from_zero(Field::RunningHours),
        criticality: row.text(Field::Criticality),
        place: row.place.clone(),
    })
}
