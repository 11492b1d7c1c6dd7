//! The shop behind the page: the current snapshot, read again when an import has made another one.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, OnceLock, PoisonError, RwLock};

use chrono::NaiveDate;

use crate::catalogue::card_index::{self, CardIndex};
use crate::job::{Job, JobError, Planned, StudiedKit, now, stated_day};
use crate::lookup::{Answers, Question, QuestionError, answer};
use crate::plan::{Levels, StudyAsk, levels_for_budget};
use crate::report::Report;
use crate::report::content::Inputs;
use crate::store::{StoreError, Workspace};

/// Budgets whose levels are kept.
const MOST_BUDGETS: usize = 64;

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

/// A file to download: its bytes, shared by all who ask.
pub(super) type Bytes = Arc<[u8]>;

/// One snapshot: its cards at hand, its tables read and planned when somebody first asks for more than a look-up, so that
/// nobody at the bench waits for a plan.
#[derive(Debug)]
pub(super) struct Loaded {
    /// Number of the snapshot.
    pub(super) number: u32,
    folder: PathBuf,
    /// The day that its settings state.
    stated_day: Option<NaiveDate>,
    index: CardIndex,
    planned: Mutex<Option<Arc<PlannedShop>>>,
}

/// A snapshot that is read and planned, with what is made of it once and kept.
#[derive(Debug)]
pub(super) struct PlannedShop {
    /// What was read.
    pub(super) job: Job,
    /// What is accepted, groups and plan.
    pub(super) planned: Planned,
    report: OnceLock<Arc<Report>>,
    files: Mutex<BTreeMap<String, Bytes>>,
    levels: Mutex<BTreeMap<u64, Arc<Levels>>>,
}

/// Takes a lock, also after a panic in another thread: what it guards is only ever replaced as a whole.
fn held<T>(lock: &Mutex<T>) -> MutexGuard<'_, T> {
    lock.lock().unwrap_or_else(PoisonError::into_inner)
}

impl Loaded {
    fn read(folder: &Path, number: u32) -> Result<Self, LiveShopError> {
        let workspace = Workspace::open(folder)?;
        let opened = card_index::load(&workspace)?;
        Ok(Self {
            number,
            stated_day: stated_day(&workspace, number),
            folder: folder.to_owned(),
            index: opened.index,
            planned: Mutex::new(None),
        })
    }

    /// The snapshot planned. Blocks while that is done.
    ///
    /// # Errors
    /// [`LiveShopError::Job`] where the shop cannot be read or planned.
    pub(super) fn planned(&self) -> Result<Arc<PlannedShop>, LiveShopError> {
        let mut made = held(&self.planned);
        if let Some(planned) = &*made {
            return Ok(Arc::clone(planned));
        }
        let job = Job::open_snapshot(&Workspace::open(&self.folder)?, self.number)?;
        let planned = job.plan()?;
        let shop = Arc::new(PlannedShop {
            report: OnceLock::new(),
            job,
            planned,
            files: Mutex::default(),
            levels: Mutex::default(),
        });
        *made = Some(Arc::clone(&shop));
        Ok(shop)
    }

    /// The day on which offers are looked at: the one that the settings state, else today.
    pub(super) fn day(&self) -> NaiveDate {
        self.stated_day.unwrap_or_else(|| now().date())
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

impl PlannedShop {
    /// What reports of the whole shop are made of.
    pub(super) fn inputs(&self) -> Inputs<'_> {
        self.job.inputs(&self.planned)
    }

    /// The report, made when it is first asked for. Blocks while that is done.
    pub(super) fn report(&self) -> Arc<Report> {
        let report = || Arc::new(self.job.report(&self.planned));
        Arc::clone(self.report.get_or_init(report))
    }

    /// One kit in depth; `None` where there is none at this position.
    pub(super) fn kit(&self, position: usize, ask: &StudyAsk) -> Option<StudiedKit> {
        self.job.study_kit(&self.planned.acceptances, position, ask)
    }

    /// What the report of one kit is made of.
    pub(super) fn inputs_of_kit<'a>(&'a self, kit: &'a StudiedKit) -> Inputs<'a> {
        self.job.inputs_of_kit(&self.planned.acceptances, kit)
    }

    /// The levels for a sum of money in stock, in whole units of the currency.
    pub(super) fn levels_for(&self, budget: u64) -> Arc<Levels> {
        if let Some(levels) = held(&self.levels).get(&budget) {
            return Arc::clone(levels);
        }
        let plan = &self.planned.plan;
        let levels = levels_for_budget(&self.job.shop, plan, budget as f64);
        let levels = Arc::new(levels);
        let mut kept = held(&self.levels);
        if kept.len() >= MOST_BUDGETS {
            kept.clear();
        }
        kept.insert(budget, Arc::clone(&levels));
        levels
    }

    /// A file by its key (language and name), made when it is first asked for; `None` where `make` has none of this name.
    pub(super) fn file(&self, key: &str, make: impl FnOnce() -> Option<Vec<u8>>) -> Option<Bytes> {
        // The lock is held while a file is made, so that twenty phones make it once.
        let mut files = held(&self.files);
        if let Some(bytes) = files.get(key) {
            return Some(Arc::clone(bytes));
        }
        let bytes: Bytes = make()?.into();
        files.insert(key.to_owned(), Arc::clone(&bytes));
        Some(bytes)
    }
}

/// The shop as the workspace has it now.
///
/// Readers always get a whole snapshot at once: the last one read until the next one is read in full.
#[derive(Debug)]
pub struct LiveShop {
    folder: PathBuf,
    workspace: Workspace,
    loaded: RwLock<Option<Arc<Loaded>>>,
    reading: Mutex<()>,
}

impl LiveShop {
    /// A shop over a workspace, which is made where there is none.
    ///
    /// # Errors
    /// [`StoreError`] where the folder holds something else or cannot be written to.
    pub fn open(folder: &Path) -> Result<Self, StoreError> {
        Ok(Self {
            workspace: Workspace::create(folder)?,
            folder: folder.to_owned(),
            loaded: RwLock::new(None),
            reading: Mutex::new(()),
        })
    }

    /// The workspace.
    pub(super) const fn workspace(&self) -> &Workspace {
        &self.workspace
    }

    /// The current snapshot where it was read already. Reads one short file and blocks for nothing else, so that it needs
    /// no thread of its own.
    ///
    /// # Errors
    /// [`StoreError`] where the workspace cannot be read.
    pub(super) fn at_hand(&self) -> Result<Option<Arc<Loaded>>, StoreError> {
        let number = self.workspace.number()?;
        Ok(self.held().filter(|loaded| loaded.number == number))
    }

    /// The current snapshot; `None` before the first import. Blocks while one is read.
    ///
    /// # Errors
    /// [`LiveShopError`] where it cannot be read.
    pub(super) fn current(&self) -> Result<Option<Arc<Loaded>>, LiveShopError> {
        let number = self.workspace.number()?;
        if number == 0 {
            return Ok(None);
        }
        if let Some(loaded) = self.held().filter(|loaded| loaded.number == number) {
            return Ok(Some(loaded));
        }
        let _one_reader = self.reading.lock().unwrap_or_else(PoisonError::into_inner);
        // Another request may have read it while this one waited.
        let number = self.workspace.number()?;
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
