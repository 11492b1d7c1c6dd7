//! What came out of many draws.

/// Counts of one family and case.
#[derive(Default, Clone)]
pub struct Tally {
    pub drawn: usize,
    pub first: usize,
    pub first_three: usize,
    /// Parts in no table, and those for which a size was stated with 90 % or more.
    pub outside: usize,
    pub outside_sure: usize,
    /// Answers by stated probability of the first, in twentieths: how many, sum stated, how many right.
    pub stated: [Bin; 21],
    /// Those stated with 85 to 95 %.
    pub ninety: Bin,
}

/// Answers stated alike.
#[derive(Default, Clone, Copy)]
pub struct Bin {
    pub count: usize,
    pub stated: f64,
    pub right: usize,
}

pub fn share(part: usize, of: usize) -> f64 {
    if of == 0 {
        f64::NAN
    } else {
        part as f64 / of as f64
    }
}

impl Bin {
    fn add(&mut self, stated: f64, is_right: bool) {
        self.count += 1;
        self.stated += stated;
        self.right += usize::from(is_right);
    }

    fn join(&mut self, other: &Self) {
        self.count += other.count;
        self.stated += other.stated;
        self.right += other.right;
    }

    pub fn mean_stated(&self) -> f64 {
        if self.count == 0 {
            f64::NAN
        } else {
            self.stated / self.count as f64
        }
    }

    pub fn right_share(&self) -> f64 {
        share(self.right, self.count)
    }
}

impl Tally {
    /// Adds one answer: what was stated of the first, whether it is right, whether the right one is in the first three.
    pub fn add(&mut self, is_outside: bool, stated: f64, is_right: bool, is_in_three: bool) {
        let at = if stated >= 0.99 {
            20
        } else {
            (stated * 20.0) as usize
        };
        self.stated[at].add(stated, is_right);
        if (0.85..0.95).contains(&stated) {
            self.ninety.add(stated, is_right);
        }
        if is_outside {
            self.outside += 1;
            self.outside_sure += usize::from(stated >= 0.9);
        } else {
            self.drawn += 1;
            self.first += usize::from(is_right);
            self.first_three += usize::from(is_in_three);
        }
    }

    pub fn join(&mut self, other: &Self) {
        self.drawn += other.drawn;
        self.first += other.first;
        self.first_three += other.first_three;
        self.outside += other.outside;
        self.outside_sure += other.outside_sure;
        self.ninety.join(&other.ninety);
        for (own, others) in self.stated.iter_mut().zip(&other.stated) {
            own.join(others);
        }
    }

    pub fn first_share(&self) -> f64 {
        share(self.first, self.drawn)
    }

    pub fn first_three_share(&self) -> f64 {
        share(self.first_three, self.drawn)
    }

    pub fn sure_of_outside_share(&self) -> f64 {
        share(self.outside_sure, self.outside)
    }

    /// Mean difference of what was stated and what was right, by twentieth, weighted by answers.
    pub fn calibration_error(&self) -> f64 {
        let all: usize = self.stated.iter().map(|bin| bin.count).sum();
        let bins = self.stated.iter().filter(|bin| bin.count > 0);
        bins.map(|bin| {
            (bin.right_share() - bin.mean_stated()).abs() * bin.count as f64 / all as f64
        })
        .sum()
    }
}
