//! What the price of an hour of waiting rests on, in words.

use std::fmt;

/// What the price of an hour of waiting rests on.
#[derive(Debug, Clone, PartialEq)]
pub enum WaitingBasis {
    /// Downtime cost of the machine that counts most among those that use the part.
    Machine {
        /// Its name.
        name: String,
        /// Weight of its criticality.
        weight: f64,
    },
    /// Downtime cost of several machines, each by its share of the usages.
    ByUsages {
        /// How many machines.
        machines: usize,
        /// Usages recorded on them.
        usages: u32,
        /// Name of the one whose hour counts most.
        dearest: String,
        /// Usages on it.
        on_dearest: u32,
        /// True where criticality weighs the hour of one of them.
        is_weighted: bool,
    },
    /// The settings.
    Setting,
    /// Middle of the machines that have a cost, because none is known for the part.
    MiddleOfMachines {
        /// How many have one.
        machines: usize,
        /// A machine that is known to use the part and has none, where there is one.
        in_place_of: Option<String>,
    },
    /// No machine of the shop has a cost: every hour counts alike, and no money is told.
    NothingKnown,
}

impl fmt::Display for WaitingBasis {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Machine { name, weight } if (weight - 1.0).abs() < 1e-9 => {
                write!(f, "downtime of {name}")
            }
            Self::Machine { name, weight } => {
                write!(f, "downtime of {name}, times {weight} for its criticality")
            }
            Self::ByUsages {
                machines,
                usages,
                dearest,
                on_dearest,
                is_weighted,
            } => {
                write!(
                    f,
                    "downtime of {machines} machines, shared by {usages} usages and one more spread over all of them, the dearest {dearest} with {on_dearest}"
                )?;
                if *is_weighted {
                    f.write_str(", times their criticality")?;
                }
                Ok(())
            }
            Self::Setting => f.write_str("downtime by the settings"),
            Self::MiddleOfMachines {
                machines,
                in_place_of: None,
            } => write!(f, "middle of {machines} machines, none known for this part"),
            Self::MiddleOfMachines {
                machines,
                in_place_of: Some(name),
            } => write!(
                f,
                "middle of {machines} machines, because nothing says it of {name}"
            ),
            Self::NothingKnown => f.write_str("no downtime cost known"),
        }
    }
}
