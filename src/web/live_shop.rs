//! The shop behind the page: the current snapshot, read again when an import has made another one.

use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError, RwLock};

use crate::catalogue::card_index::CardIndex;
use crate::job::{Job, JobError};
use crate::lookup::{Answers, Question, QuestionError, answer};
use crate::report::Report;
use crate::store::{StoreError, Workspace};

/// Why the shop cannot be shown.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum LiveShopError {
    /// The workspace cannot be read.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// The shop cannot be read or planned.
    #[error(transparent)]
    Job(#[from] JobError),
}

/// One snapshot, read; planned when the report is first asked for, so that nobody at the bench waits for a plan.
#[derive(Debug)]
pub(super) struct Loaded {
    /// Number of the snapshot.
    pub(super) number: u32,
    job: Job,
    index: CardIndex,
    report: Mutex<Option<Arc<Report>>>,
}

impl Loaded {
    fn read(folder: &Path, number: u32) -> Result<Self, LiveShopError> {
        let job = Job::open(folder, None)?;
        Ok(Self {
            number,
            index: CardIndex::of_shop(&job.shop),
            job,
            report: Mutex::new(None),
        })
    }

    /// The report. Blocks while it is made.
    ///
    /// # Errors
    /// [`LiveShopError::Job`] where the shop cannot be planned.
    pub(super) fn report(&self) -> Result<Arc<Report>, LiveShopError> {
        let mut made = self.report.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(report) = &*made {
            return Ok(Arc::clone(report));
        }
        let report = Arc::new(self.job.report(&self.job.plan()?));
        *made = Some(Arc::clone(&report));
        Ok(report)
    }

    /// Reads a question; numbers of the shop's own are known.
    ///
    /// # Errors
    /// [`QuestionError`] where nothing in it can be read.
    pub(super) fn question(&self, words: &str) -> Result<Question, QuestionError> {
        Question::read_in(words, Some(&self.index))
    }

    /// Answers a question from this shop.
    pub(super) fn answer(&self, question: &Question) -> Answers {
        answer(question, Some(&self.index))
    }
}

/// The shop as the workspace has it now.
///
/// Readers always get a whole snapshot at once: the last one read until the next one is read in full.
#[derive(Debug)]
pub struct LiveShop {
    folder: PathBuf,
    loaded: RwLock<Option<Arc<Loaded>>>,
    reading: Mutex<()>,
}

impl LiveShop {
    /// A shop over a workspace, which is made where there is none.
    ///
    /// # Errors
    /// [`StoreError`] where the folder holds something else or cannot be written to.
    pub fn open(folder: &Path) -> Result<Self, StoreError> {
        Workspace::create(folder)?;
        Ok(Self {
            folder: folder.to_owned(),
            loaded: RwLock::new(None),
            reading: Mutex::new(()),
        })
    }

    /// The workspace.
    pub(super) fn workspace(&self) -> Result<Workspace, StoreError> {
        Workspace::open(&self.folder)
    }

    /// The current snapshot; `None` before the first import. Blocks while one is read.
    ///
    /// # Errors
    /// [`LiveShopError`] where it cannot be read.
    pub(super) fn current(&self) -> Result<Option<Arc<Loaded>>, LiveShopError> {
        let number = self.workspace()?.number()?;
        if number == 0 {
            return Ok(None);
        }
        if let Some(loaded) = self.held().filter(|loaded| loaded.number == number) {
            return Ok(Some(loaded));
        }
        let _one_reader = self.reading.lock().unwrap_or_else(PoisonError::into_inner);
        // Another request may have read it while this one waited.
        let number = self.workspace()?.number()?;
        if let Some(loaded) = self.held().filter(|loaded| loaded.number == number) {
            return Ok(Some(loaded));
        }
        let loaded = Arc::new(Loaded::read(&self.folder, number)?);
        *self.loaded.write().unwrap_or_else(PoisonError::into_inner) = Some(Arc::clone(&loaded));
        Ok(Some(loaded))
    }

    fn held(&self) -> Option<Arc<Loaded>> {
        self.loaded
            .read()
            .unwrap_or_else(PoisonError::into_inner)
            .clone()
    }
}
