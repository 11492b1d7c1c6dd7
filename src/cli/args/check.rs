//! The checks behind a verdict, one at a time.

use clap::{Args, Subcommand};

use super::{Format, LanguageArgs};

/// Arguments of `check`.
#[derive(Debug, Args)]
pub struct CheckArgs {
    /// What to work out
    #[command(subcommand)]
    pub kind: CheckKind,
    /// Form of the answer
    #[arg(long, value_enum, default_value_t = Format::Table, global = true)]
    pub format: Format,
    /// Language
    #[command(flatten)]
    pub language: LanguageArgs,
}

/// The checks. Lengths in mm, forces in kN, unless the name says otherwise.
#[derive(Debug, Subcommand)]
pub enum CheckKind {
    /// Basic rating life, ISO 281
    #[command(
        after_help = "Example:\n  sparewright check life --family deep_groove_ball --rating 19.5 --load 3 --rpm 1450"
    )]
    Life {
        /// Family, such as deep_groove_ball
        #[arg(long)]
        family: String,
        /// Dynamic load rating C, kN
        #[arg(long)]
        rating: f64,
        /// Equivalent dynamic load P, kN
        #[arg(long)]
        load: f64,
        /// Speed, rev/min, for hours
        #[arg(long)]
        rpm: Option<f64>,
    },
    /// Static safety, ISO 76
    #[command(
        after_help = "Example:\n  sparewright check static --family deep_groove_ball --rating 11.2 --radial 4 --axial 1"
    )]
    Static {
        /// Family, such as deep_groove_ball
        #[arg(long)]
        family: String,
        /// Static load rating C0, kN
        #[arg(long)]
        rating: f64,
        /// Radial force, kN
        #[arg(long)]
        radial: f64,
        /// Axial force, kN
        #[arg(long, default_value_t = 0.0)]
        axial: f64,
    },
    /// Interference of a bearing ring on its seat, ISO 286 with ISO 492
    #[command(
        after_help = "Example:\n  sparewright check seat --diameter 25 --seat k6 --clearance CN"
    )]
    Seat {
        /// Nominal diameter, mm
        #[arg(long)]
        diameter: f64,
        /// Class of the seat: k6 for a shaft, J7 for a housing
        #[arg(long)]
        seat: String,
        /// Tolerance class of the bearing
        #[arg(long, default_value = "P0")]
        class: String,
        /// Measured diameter of the seat, mm
        #[arg(long)]
        measured: Option<f64>,
        /// Expanded uncertainty of that measurement, µm
        #[arg(long, default_value_t = 4.0)]
        uncertainty: f64,
        /// Clearance group of a deep groove ball bearing, for the clearance left
        #[arg(long)]
        clearance: Option<String>,
    },
    /// Stretch, squeeze and fill of an O-ring in a measured groove
    #[command(
        after_help = "Example:\n  sparewright check oring --inside 37.69 --section 3.53 --floor 38.1 --depth 2.87 --width 4.6"
    )]
    Oring {
        /// Inside diameter, mm
        #[arg(long)]
        inside: f64,
        /// Section, mm
        #[arg(long)]
        section: f64,
        /// Diameter of the groove floor, mm
        #[arg(long)]
        floor: Option<f64>,
        /// Depth from floor to counterface, mm
        #[arg(long)]
        depth: f64,
        /// Width of the groove, mm
        #[arg(long)]
        width: Option<f64>,
        /// static_radial, static_face or reciprocating
        #[arg(long, default_value = "static_radial")]
        duty: String,
    },
    /// Speed of a shaft under the lip of a seal
    #[command(
        after_help = "Example:\n  sparewright check lip --shaft 35 --rpm 1450 --elastomer NBR"
    )]
    Lip {
        /// Shaft, mm
        #[arg(long)]
        shaft: f64,
        /// Speed, rev/min
        #[arg(long)]
        rpm: f64,
        /// Elastomer by its ISO 1629 symbol
        #[arg(long)]
        elastomer: Option<String>,
    },
    /// Difference of the spacers of a preloaded pair, from face offsets measured under load
    #[command(
        after_help = "Example:\n  sparewright check spacer --first 4 --second 6 --load 200 --documented 12 --documented-load 200"
    )]
    Spacer {
        /// Face offset of the first bearing, µm
        #[arg(long)]
        first: Option<f64>,
        /// Face offset of the second bearing, µm
        #[arg(long)]
        second: Option<f64>,
        /// Load they were measured under, N
        #[arg(long)]
        load: Option<f64>,
        /// Expanded uncertainty of each offset, µm
        #[arg(long, default_value_t = 0.5)]
        uncertainty: f64,
        /// Sum of both offsets that the machine's documentation asks for, µm
        #[arg(long)]
        documented: Option<f64>,
        /// Load the documentation states it under, N
        #[arg(long)]
        documented_load: Option<f64>,
        /// DB or DF
        #[arg(long, default_value = "DB")]
        arrangement: String,
        /// The offsets come from nominal or calliper widths
        #[arg(long)]
        from_widths: bool,
    },
}
