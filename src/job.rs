//! The main job: a folder of spreadsheets or a workspace in, the shop, its plan and its report out.
//!
//! A folder goes through a workspace that lives no longer than the reading, so that both ways give the same.

use std::path::{Path, PathBuf};
use std::sync::OnceLock;

use chrono::{Local, NaiveDate, NaiveDateTime, Timelike};

use crate::catalogue::frame::{self, FrameError};
use crate::catalogue::{PartId, Shop, UsageOfYear};
use crate::import::{ColumnMap, ImportError, Imported, Known, read_folder_knowing};
use crate::interchange::{Envelopes, LineAcceptance, accept, groups};
use crate::language::Language;
use crate::parallel;
use crate::plan::{
    KitStudy, Plan, Runs, SEED, ShopYear, StudyAsk, WhatIf, WhatIfError, YearAhead, compare, plan,
    plan_as_if, replications_for, study_kit,
};
use crate::record::ShopSettings;
use crate::report::content::{Inputs, reorder_head, reorder_report, reorder_sheets};
use crate::report::{Report, ToMake, WriteError, translated, translated_sheet, write_made};
use crate::store::{KeptOut, Loaded, StoreError, Workspace};

/// The present moment, to the second.
pub fn now() -> NaiveDateTime {
    let now = Local::now().naive_local();
    now.with_nanosecond(0).unwrap_or(now)
}

/// The day that the settings of a snapshot state; `None` where they state none, and what it holds is looked at as of today.
pub fn stated_day(workspace: &Workspace, snapshot: u32) -> Option<NaiveDate> {
    let manifest = workspace.manifest(snapshot).ok()?;
    let settings = ShopSettings::from_toml(&manifest.settings?.text).ok()?;
    settings.as_of.map(|as_of| as_of.date())
}

/// The present minute: plans are told in minutes, and seconds would make nine o'clock a minute to nine.
fn present_minute() -> NaiveDateTime {
    let now = now();
    now.with_second(0).unwrap_or(now)
}

/// Why the job cannot be done.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum JobError {
    /// Nothing usable in the folder.
    #[error(transparent)]
    Import(#[from] ImportError),
    /// The workspace cannot be used.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// No room for what is between reading and planning.
    #[error("no temporary folder can be made")]
    Temporary(#[source] std::io::Error),
    /// A table could not be grouped.
    #[error(transparent)]
    Frame(#[from] FrameError),
}

/// A shop read from a folder, not yet planned.
#[derive(Debug)]
pub struct Job {
    /// What was read.
    pub imported: Imported,
    /// Older rows that were kept out, by the last import.
    pub kept_out: Vec<KeptOut>,
    /// Rows of older lists that do not hold, list by list.
    pub set_aside: Vec<KeptOut>,
    /// Given meanings of columns that no table had a column for.
    pub unused_maps: Vec<ColumnMap>,
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
    /// The year ahead, simulated when a report asks for it ([`Inputs::year`]).
    year: OnceLock<Option<YearAhead>>,
}

/// A shop planned once more after changes.
#[derive(Debug)]
pub struct Changed {
    /// The plan after the changes.
    pub plan: Plan,
    /// The year before and after, both with the planned levels; `None` as for [`Inputs::year`].
    pub year: Option<YearAhead>,
}

/// One kit planned in depth.
#[derive(Debug)]
pub struct StudiedKit {
    /// The study.
    pub study: KitStudy,
    /// A plan that holds this kit alone.
    plan: Plan,
    /// Nothing: a year is that of the whole shop.
    year: OnceLock<Option<YearAhead>>,
}

impl Job {
    /// Reads a folder; the moment of planning is `as_of`, else that of the settings, else now.
    ///
    /// # Errors
    /// [`JobError::Import`] where nothing usable is in the folder, [`JobError::Temporary`] and [`JobError::Store`] where
    /// the disk is full.
    pub fn read(folder: &Path, as_of: Option<NaiveDateTime>) -> Result<Self, JobError> {
        let room = tempfile::tempdir().map_err(JobError::Temporary)?;
        Self::read_knowing(folder, &Known::default(), room.path(), as_of)
    }

    /// As [`read`](Self::read), with all that is known before reading; `room` is an empty folder for what is between
    /// reading and planning, which the caller removes.
    ///
    /// # Errors
    /// As [`read`](Self::read).
    pub fn read_knowing(
        folder: &Path,
        known: &Known,
        room: &Path,
        as_of: Option<NaiveDateTime>,
    ) -> Result<Self, JobError> {
        let mut imported = read_folder_knowing(folder, known)?;
        // A day to come is told by the moment that is planned for, whoever named it.
        imported.settings.as_of = as_of.or(imported.settings.as_of);
        let workspace = Workspace::create_fleeting(room)?;
        workspace.import(&imported, Local::now().naive_local())?;
        let mut job = Self::of(&workspace, as_of)?;
        job.unused_maps = imported.unused_maps();
        // A workspace keeps what was taken; the cells of rows to mend are known while they are read only.
        job.imported.rejects = imported.rejects;
        Ok(job)
    }

    /// Reads the current snapshot of a workspace; the moment of planning as for [`read`](Self::read).
    ///
    /// # Errors
    /// [`JobError::Store`] where the folder is no workspace or nothing was imported yet.
    pub fn open(workspace: &Path, as_of: Option<NaiveDateTime>) -> Result<Self, JobError> {
        Self::of(&Workspace::open(workspace)?, as_of)
    }

    /// Reads one snapshot of a workspace, which may no longer be the current one; the moment of planning as for
    /// [`read`](Self::read) without one given.
    ///
    /// # Errors
    /// [`JobError::Store`] where there is no such snapshot.
    pub fn open_snapshot(workspace: &Workspace, number: u32) -> Result<Self, JobError> {
        Ok(Self::of_loaded(workspace.load_whole(Some(number))?, None))
    }

    fn of(workspace: &Workspace, as_of: Option<NaiveDateTime>) -> Result<Self, JobError> {
        Ok(Self::of_loaded(workspace.load_whole(None)?, as_of))
    }

    fn of_loaded(loaded: Loaded, as_of: Option<NaiveDateTime>) -> Self {
        let Loaded {
            manifest,
            mut imported,
            set_aside,
        } = loaded;
        let as_of = as_of
            .or(imported.settings.as_of)
            .unwrap_or_else(present_minute);
        let records = std::mem::take(&mut imported.records);
        let shop = Shop::new(records, imported.settings.clone(), as_of);
        Self {
            imported,
            kept_out: manifest.kept_out,
            set_aside,
            unused_maps: Vec::new(),
            shop,
        }
    }

    /// Works out what is accepted, groups and plans.
    ///
    /// # Errors
    /// [`JobError::Frame`] where usages cannot be grouped.
    pub fn plan(&self) -> Result<Planned, JobError> {
        let acceptances = self.acceptances();
        let (plan, (groups, usage)) = parallel::both(
            || plan(&self.shop, &acceptances),
            || {
                let groups = groups(&self.shop.catalogue);
                (groups, frame::usage_by_year(&self.shop))
            },
        );
        Ok(Planned {
            acceptances,
            groups,
            plan,
            usage: usage?,
            year: OnceLock::new(),
        })
    }

    /// Plans the shop once more after changes, and simulates a year before and after.
    ///
    /// # Errors
    /// [`WhatIfError`] where a change names nothing that there is.
    pub fn what_if(&self, planned: &Planned, asked: &WhatIf) -> Result<Changed, WhatIfError> {
        let (shop, as_if) = asked.changed(&self.shop, &planned.plan)?;
        let plan = plan_as_if(&shop, &planned.acceptances, &as_if);
        let before = ShopYear::new(&self.shop, &planned.plan);
        let after = ShopYear::after_change(&shop, &plan, (&planned.plan, &before));
        let parts = before.parts.len().max(after.parts.len());
        let year = (parts > 0).then(|| replications_for(parts)).flatten();
        let year = year.map(|replications| {
            let of = |year: &ShopYear| Runs::new(year, &year.planned, SEED, replications);
            compare(&of(&before), &of(&after), SEED, &after)
        });
        Ok(Changed { plan, year })
    }

    /// What is accepted on each kit line.
    pub fn acceptances(&self) -> Vec<LineAcceptance> {
        accept(&self.shop, &Envelopes::new(&self.shop.catalogue))
    }

    /// Plans one kit in depth; `None` where there is none at this position.
    pub fn study_kit(
        &self,
        acceptances: &[LineAcceptance],
        kit: usize,
        ask: &StudyAsk,
    ) -> Option<StudiedKit> {
        let study = study_kit(&self.shop, acceptances, kit, ask)?;
        let plan = Plan {
            kits: vec![study.plan.clone()],
            issues: study.issues.clone(),
            ..Plan::default()
        };
        Some(StudiedKit {
            study,
            plan,
            year: OnceLock::from(None),
        })
    }

    /// What the report of one kit is made of.
    pub fn inputs_of_kit<'a>(
        &'a self,
        acceptances: &'a [LineAcceptance],
        studied: &'a StudiedKit,
    ) -> Inputs<'a> {
        Inputs {
            imported: &self.imported,
            shop: &self.shop,
            acceptances,
            groups: &[],
            plan: &studied.plan,
            usage: &[],
            year: &studied.year,
        }
    }

    /// Makes the reorder report of a plan.
    pub fn report(&self, planned: &Planned) -> Report {
        reorder_report(&self.inputs(planned))
    }

    /// Writes the reorder report of a plan in a language, its sheets made one after another and forgotten when they are
    /// written; the same files as [`report`](Self::report), put into the language and written, gives.
    ///
    /// # Errors
    /// [`WriteError`] with the path.
    pub fn write_report(
        &self,
        planned: &Planned,
        language: Language,
        others: &[(String, Vec<u8>)],
        dir: &Path,
    ) -> Result<Vec<PathBuf>, WriteError> {
        let inputs = self.inputs(planned);
        let head = translated(reorder_head(&inputs), language);
        let groups = reorder_sheets(&inputs).map(|group| ToMake {
            is_long: group.is_long,
            make: || {
                let sheets = (group.make)().into_iter();
                sheets
                    .map(|sheet| translated_sheet(sheet, language))
                    .collect()
            },
        });
        write_made(head, groups, others, dir)
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
            year: &planned.year,
        }
    }
}
