//! The main job: a folder of spreadsheets in, the shop, its plan and its report out.

use std::path::Path;

use chrono::{Local, NaiveDateTime};

use crate::catalogue::frame::{self, FrameError, UsageOfYear};
use crate::catalogue::{PartId, Shop};
use crate::import::{ImportError, Imported, read_folder};
use crate::interchange::{Envelopes, LineAcceptance, accept, groups};
use crate::plan::{Plan, plan};
use crate::report::Report;
use crate::report::content::{Inputs, reorder_report};

/// Why the job cannot be done.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum JobError {
    /// Nothing usable in the folder.
    #[error(transparent)]
    Import(#[from] ImportError),
    /// A table could not be grouped.
    #[error(transparent)]
    Frame(#[from] FrameError),
}

/// A shop read from a folder, not yet planned.
#[derive(Debug)]
pub struct Job {
    /// What was read.
    pub imported: Imported,
    /// The shop as of the moment of planning.
    pub shop: Shop,
}

/// A planned shop.
#[derive(Debug)]
pub struct Planned {
    /// What is accepted on each kit line.
    pub acceptances: Vec<LineAcceptance>,
    /// Groups of parts that go in for each other as they are; single parts are groups of one.
    pub groups: Vec<Vec<PartId>>,
    /// The plan.
    pub plan: Plan,
    /// Usages by year.
    pub usage: Vec<UsageOfYear>,
}

impl Job {
    /// Reads a folder; the moment of planning is `as_of`, else that of the settings, else now.
    ///
    /// # Errors
    /// [`JobError::Import`] where nothing usable is in the folder.
    pub fn read(folder: &Path, as_of: Option<NaiveDateTime>) -> Result<Self, JobError> {
        let mut imported = read_folder(folder)?;
        let as_of = as_of
            .or(imported.settings.as_of)
            .unwrap_or_else(|| Local::now().naive_local());
        let records = std::mem::take(&mut imported.records);
        let shop = Shop::new(records, imported.settings.clone(), as_of);
        Ok(Self { imported, shop })
    }

    /// Works out what is accepted, groups and plans.
    ///
    /// # Errors
    /// [`JobError::Frame`] where usages cannot be grouped.
    pub fn plan(&self) -> Result<Planned, JobError> {
        let envelopes = Envelopes::new(&self.shop.catalogue);
        let acceptances = accept(&self.shop, &envelopes);
        let plan = plan(&self.shop, &acceptances);
        let groups = groups(&self.shop.catalogue);
        let usage = frame::usage_by_year(&self.shop)?;
        Ok(Planned {
            acceptances,
            groups,
            plan,
            usage,
        })
    }

    /// Makes the reorder report of a plan.
    pub fn report(&self, planned: &Planned) -> Report {
        reorder_report(&self.inputs(planned))
    }

    /// What a report or a summary is made of.
    pub fn inputs<'a>(&'a self, planned: &'a Planned) -> Inputs<'a> {
        Inputs {
            imported: &self.imported,
            shop: &self.shop,
            acceptances: &planned.acceptances,
            groups: &planned.groups,
            plan: &planned.plan,
            usage: &planned.usage,
        }
    }
}
