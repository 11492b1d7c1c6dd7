//! Drawn parts: sizes of the tables and specials, and what their dimensions read.

use sparewright::part::{Dimension, Family, SizeKey};
use sparewright::standard;
use sparewright::units::Length;

use super::dice::Dice;
use super::world::World;

/// One way a dimension may come to be read: from a base, evenly within a band, and worn one way.
#[derive(Clone, Copy)]
pub struct Way {
    pub share: f64,
    pub base_mm: f64,
    pub low_mm: f64,
    pub high_mm: f64,
    /// Scale of wear; negative where it makes the reading smaller.
    pub wear_mm: f64,
}

/// The sizes of a family with their popularity.
pub struct Stock {
    pub family: Family,
    pub sizes: Vec<SizeKey>,
    pub weights: Vec<f64>,
    /// Free diameters of retaining rings by size.
    free_mm: Vec<Option<f64>>,
    running: Vec<f64>,
}

pub fn lengths(size: &SizeKey) -> Vec<Length> {
    size.dimensions().map(|(_, length)| length).collect()
}

impl Stock {
    pub fn new(family: Family, world: &World) -> Self {
        let rows = standard::parts().iter();
        let mut sizes: Vec<SizeKey> = rows
            .filter(|row| row.size.family() == family)
            .map(|row| SizeKey::new(family, &lengths(&row.size)).expect("the row has this size"))
            .collect();
        sizes.sort();
        sizes.dedup();
        let raw: Vec<f64> = sizes
            .iter()
            .enumerate()
            .map(|(at, size)| (world.popularity)(lengths(size)[0].to_mm(), at))
            .collect();
        let sum: f64 = raw.iter().sum();
        let weights: Vec<f64> = raw.iter().map(|weight| weight / sum).collect();
        let running = weights
            .iter()
            .scan(0.0, |sum, weight| {
                *sum += weight;
                Some(*sum)
            })
            .collect();
        let free_mm = sizes.iter().map(free_of_table).collect();
        Self {
            family,
            sizes,
            weights,
            free_mm,
            running,
        }
    }

    /// A popular size.
    pub fn pick(&self, dice: &mut Dice) -> SizeKey {
        let at = self.running.partition_point(|sum| *sum < dice.unit());
        self.sizes[at.min(self.sizes.len() - 1)]
    }

    /// A part in no table: one of the table with dimensions moved.
    pub fn special(&self, dice: &mut Dice, world: &World) -> SizeKey {
        loop {
            let made: Option<Vec<Length>> = lengths(&self.pick(dice))
                .iter()
                .map(|length| {
                    let is_moved = dice.unit() < world.moved_share;
                    let mm = length.to_mm();
                    let to = if is_moved { world.moved(dice, mm) } else { mm };
                    Length::from_mm(to).ok()
                })
                .collect();
            let size = made.and_then(|made| SizeKey::new(self.family, &made).ok());
            if let Some(size) = size.filter(|size| self.sizes.binary_search(size).is_err()) {
                return size;
            }
        }
    }

    /// Free diameter of a retaining ring: the table's, else of a special about as much off as rings of the table are.
    fn free_mm(&self, size: Option<&SizeKey>, mm: f64) -> f64 {
        let of_table = size
            .and_then(|size| self.sizes.binary_search(size).ok())
            .and_then(|at| self.free_mm[at]);
        of_table.unwrap_or(
            mm * if self.family == Family::ShaftRetainingRing {
                0.925
            } else {
                1.08
            },
        )
    }

    /// The ways a dimension may come to be read; `size` is none for one dimension of a special.
    pub fn ways(
        &self,
        world: &World,
        dimension: Dimension,
        mm: f64,
        size: Option<&SizeKey>,
    ) -> Vec<Way> {
        use Dimension as D;
        use Family as F;
        let way = |share, base_mm: f64, low_mm, high_mm, wear_mm| Way {
            share,
            base_mm,
            low_mm,
            high_mm,
            wear_mm,
        };
        let one = |low_mm, high_mm, wear_mm| vec![way(1.0, mm, low_mm, high_mm, wear_mm)];
        let free = world.free_share;
        // The core of a nut is 1.0825 pitches under its thread (ISO 724).
        let pitch = size.and_then(|size| size.get(D::ThreadPitch));
        let core = 1.0825 * pitch.map_or(1.5, Length::to_mm);
        match (self.family, dimension) {
            (F::ORing, D::Section) => one(-0.09, 0.09, -0.06 * mm),
            (F::ORing, _) => {
                let band = 0.15 + 0.004 * mm;
                one(-band, band, 0.008 * mm)
            }
            (F::LipSeal, D::ShaftDiameter) => vec![
                way(1.0 - free, mm, -0.1, 0.0, -0.03),
                way(free, mm, -1.2 - 0.012 * mm, -0.5, 0.25),
            ],
            (F::LipSeal, D::HousingBore) => vec![
                way(1.0 - free, mm, 0.0, 0.04, 0.03),
                way(free, mm, 0.12, 0.35, -0.05),
            ],
            (F::LipSeal, _) => one(-0.2, 0.2, 0.0),
            (F::ShaftRetainingRing | F::BoreRetainingRing, _) => vec![
                way(1.0 - free, mm, -0.05, 0.05, 0.0),
                way(free, self.free_mm(size, mm), -0.3, 0.3, 0.0),
            ],
            (F::LockNut, D::ThreadDiameter) => vec![
                way(1.0 - free, mm, -0.25, 0.0, 0.0),
                way(free, mm - core, 0.0, 0.3, 0.0),
            ],
            (F::LockNut, _) => one(-0.06, 0.06, 0.0),
            // Most of the band of ISO 8734, from memory: ±0.25 mm to 10, ±0.5 to 50, ±0.75 mm above.
            (F::DowelPin, D::Length) => {
                let band = match mm {
                    mm if mm <= 10.0 => 0.2,
                    mm if mm <= 50.0 => 0.4,
                    _ => 0.6,
                };
                one(-band, band, 0.0)
            }
            (F::DowelPin, _) => one(0.0, 0.012, -0.01),
            (F::TaperedRoller, D::AssembledWidth) => one(-0.05, 0.2, -0.05),
            (F::NeedleCage, D::Width) => one(-0.4, 0.0, 0.0),
            (F::NeedleCage, _) => one(-0.1, 0.06, 0.0),
            (F::DrawnCupNeedle, D::Width) => one(-0.25, 0.0, 0.0),
            (F::DrawnCupNeedle | F::CombinedNeedleThrust, D::OutsideDiameter) => {
                one(-0.02, 0.05, -0.02)
            }
            (F::ThrustNeedle, D::Bore) => one(0.0, 0.15, 0.02),
            (F::ThrustNeedle, D::CageOutsideDiameter) => one(-0.3, 0.0, -0.02),
            (F::ThrustNeedle, _) => one(-0.02, 0.01, -0.02),
            (_, D::InnerRacewayDiameter) => one(-0.02, 0.05, 0.02),
            (_, D::Bore | D::HousingWasherBore) => one(-0.02, 0.0, 0.025),
            (_, D::OutsideDiameter) => one(-0.015, 0.0, -0.04),
            _ => one(-0.12, 0.0, -0.06),
        }
    }

    /// What one dimension of a part reads, mm, to the hundredth of a calliper.
    pub fn reads(
        &self,
        dice: &mut Dice,
        world: &World,
        size: &SizeKey,
        dimension: Dimension,
        bias_mm: f64,
    ) -> (f64, bool) {
        let mm = size.get(dimension).map_or(0.0, Length::to_mm);
        let ways = self.ways(world, dimension, mm, Some(size));
        let mut left = dice.unit();
        let way = ways
            .iter()
            .find(|way| {
                left -= way.share;
                left < 0.0
            })
            .unwrap_or(&ways[0]);
        let wear = world.wear(dice);
        let own = way.base_mm + world.within(dice, way.low_mm, way.high_mm) + wear * way.wear_mm;
        let reads = own + world.error(dice) + bias_mm;
        ((reads.max(0.1) * 100.0).round() / 100.0, wear > 0.0)
    }
}

/// `free diameter d3 43.5` of the table's note.
fn free_of_table(size: &SizeKey) -> Option<f64> {
    let row = standard::of_size(size).first()?;
    let (_, rest) = row.note.split_once("free diameter d3 ")?;
    rest.split([';', ' ']).next()?.parse().ok()
}
