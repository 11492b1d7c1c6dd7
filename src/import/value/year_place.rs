//! Where the year of two figures stands in the dates of a column: `26-03-09` is a day of 2009 or of 2026.

/// Years by which a date may lie beside those that are known. Common practice, no source.
const YEARS_BESIDE: i32 = 1;
/// Least years over which days of the month spread where they are taken for years. Common practice, no source.
const LEAST_SPREAD: i32 = 8;
/// Times that the wrong reading spreads further than the right one, at least. Common practice, no source.
const SPREADS_FURTHER: i32 = 4;

/// The first and the last of some years; `None` of none.
type Years = Option<(i32, i32)>;

/// Where the year stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum YearPlace {
    /// In front.
    First,
    /// At the end.
    Last,
    /// Dates of the column prove both.
    Both,
    /// Nothing proves either.
    Doubt,
}

/// What the texts of a column prove about the place of years of two figures.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct YearEvidence {
    /// Dates, or columns, that prove the year in front.
    ahead: u32,
    /// The same at the end.
    behind: u32,
    /// Texts of hyphens that could be either.
    hyphened: u32,
    /// Years of the doubtful texts read from the front.
    front: Years,
    /// The same read from the end.
    end: Years,
    /// Years of dates that leave no doubt of their year.
    known: Years,
    /// What the doubtful texts prove of day and month where the year stands at the end.
    pub orders: Orders,
}

/// Texts by what they prove of the order of day and month.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Orders {
    /// Only day first makes a date.
    pub day_first: u32,
    /// Only month first does.
    pub month_first: u32,
    /// Both do.
    pub either: u32,
}

impl Orders {
    /// Counts one text by its first two figures.
    pub fn add(&mut self, a: u32, b: u32) {
        match (a > 12, b > 12) {
            (true, false) => self.day_first += 1,
            (false, true) => self.month_first += 1,
            (false, false) if a != b => self.either += 1,
            _ => {}
        }
    }
}

impl YearEvidence {
    /// Takes the year of a date into account that can be only this one.
    pub fn add_known(&mut self, year: i32) {
        self.known = join(self.known, Some((year, year)));
    }

    /// Takes a text into account by the years that it may mean: read from the front, and from the end.
    pub fn add(&mut self, front: Option<i32>, end: Option<i32>, sign: char) {
        match (front, end) {
            (Some(front), Some(end)) => {
                self.front = join(self.front, Some((front, front)));
                self.end = join(self.end, Some((end, end)));
                self.hyphened += u32::from(sign == '-');
            }
            (Some(_), None) => self.ahead += 1,
            (None, Some(_)) => self.behind += 1,
            (None, None) => {}
        }
    }

    /// Adds what other dates prove.
    pub fn join(&mut self, other: Self) {
        self.ahead += other.ahead;
        self.behind += other.behind;
        self.hyphened += other.hyphened;
        self.front = join(self.front, other.front);
        self.end = join(self.end, other.end);
        self.known = join(self.known, other.known);
        self.orders.day_first += other.orders.day_first;
        self.orders.month_first += other.orders.month_first;
        self.orders.either += other.orders.either;
    }

    /// Where the year stands: by dates that leave no choice, else by the years that are known, else by how far the years
    /// of both readings spread: a column holds days of the whole month and years of a few.
    pub fn place(&self) -> YearPlace {
        match (self.ahead > 0, self.behind > 0) {
            (true, true) => return YearPlace::Both,
            (true, false) => return YearPlace::First,
            (false, true) => return YearPlace::Last,
            (false, false) => {}
        }
        match self.by_known(self.known) {
            YearPlace::Doubt => {}
            place => return place,
        }
        let (Some(front), Some(end)) = (self.front, self.end) else {
            return YearPlace::Doubt;
        };
        let (front, end) = (front.1 - front.0, end.1 - end.0);
        let spreads = |wide: i32, narrow: i32| {
            wide >= LEAST_SPREAD && wide >= narrow.saturating_mul(SPREADS_FURTHER)
        };
        if spreads(end, front) {
            YearPlace::First
        } else if spreads(front, end) {
            YearPlace::Last
        } else {
            YearPlace::Doubt
        }
    }

    /// Where the year stands by years that are known: the reading of which all years lie among them, the other's not.
    fn by_known(&self, known: Years) -> YearPlace {
        let lies_among = |years: Years| match (years, known) {
            (Some(years), Some(known)) => {
                years.0 >= known.0 - YEARS_BESIDE && years.1 <= known.1 + YEARS_BESIDE
            }
            _ => false,
        };
        match (lies_among(self.front), lies_among(self.end)) {
            (true, false) => YearPlace::First,
            (false, true) => YearPlace::Last,
            _ => YearPlace::Doubt,
        }
    }

    /// Where the year stands by the other columns of the table; `is_near` where the dates lie near those of the others.
    pub fn place_beside(&self, table: &Self, is_near: bool) -> YearPlace {
        match self.place() {
            YearPlace::Doubt => {}
            place => return place,
        }
        match (table.ahead > 0, table.behind > 0) {
            (true, false) => YearPlace::First,
            (false, true) => YearPlace::Last,
            _ if is_near => self.by_known(table.known),
            _ => YearPlace::Doubt,
        }
    }

    /// True where texts could be either.
    pub fn has_doubtful(&self) -> bool {
        self.front.is_some()
    }

    /// True where texts of hyphens could be either; with strokes the year of two figures stands in front only where the
    /// column proves it. Common practice, no source.
    pub fn is_open(&self) -> bool {
        self.hyphened > 0 && self.place() == YearPlace::Doubt
    }

    /// The same with its place settled: the doubtful texts are one proof.
    pub fn settled(mut self, place: YearPlace) -> Self {
        let has_doubtful = self.has_doubtful();
        match place {
            YearPlace::First => {
                self.ahead += u32::from(has_doubtful);
                self.orders = Orders::default();
            }
            YearPlace::Last => self.behind += u32::from(has_doubtful),
            YearPlace::Both | YearPlace::Doubt => return self,
        }
        (self.front, self.end, self.hyphened) = (None, None, 0);
        self
    }

    /// True where columns settled the year in front, and none at the end.
    pub fn is_first(&self) -> bool {
        self.ahead > 0 && self.behind == 0
    }
}

fn join(one: Years, other: Years) -> Years {
    match (one, other) {
        (Some(one), Some(other)) => Some((one.0.min(other.0), one.1.max(other.1))),
        (one, other) => one.or(other),
    }
}
