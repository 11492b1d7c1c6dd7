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
        after_help = "Examples:\n  sparewright check life --family deep_groove_ball --rating 19.5 --load 3 --rpm 1450\n  sparewright check life --family deep_groove_ball --rating 12.7 --load 3 --instead-rating 15.9 --same-source"
    )]
    Life {
        /// Family, such as deep_groove_ball
        #[arg(long)]
        family: String,
        /// Dynamic load rating C, kN
        #[arg(long, value_parser = above_zero, allow_negative_numbers = true)]
        rating: f64,
        /// Static load rating C0, kN, above which the life formula does not hold
        #[arg(long, value_parser = above_zero, allow_negative_numbers = true)]
        static_rating: Option<f64>,
        /// Equivalent dynamic load P, kN
        #[arg(long, value_parser = above_zero, allow_negative_numbers = true)]
        load: f64,
        /// Speed, rev/min, for hours
        #[arg(long, value_parser = above_zero, allow_negative_numbers = true)]
        rpm: Option<f64>,
        /// Dynamic load rating of a bearing instead, kN, for the ratio of the lives
        #[arg(long, value_parser = above_zero, allow_negative_numbers = true)]
        instead_rating: Option<f64>,
        /// Its family, where it is another
        #[arg(long, requires = "instead_rating")]
        instead_family: Option<String>,
        /// Both ratings are of one source and edition; without, they do not compare
        #[arg(long, requires = "instead_rating")]
        same_source: bool,
    },
    /// Speed against a bearing's limit
    #[command(
        after_help = "Example:\n  sparewright check speed --rpm 9000 --limit 14000 --closure 2RS --limit-of-open"
    )]
    Speed {
        /// Speed, rev/min
        #[arg(long, value_parser = above_zero, allow_negative_numbers = true)]
        rpm: f64,
        /// Limit from the bearing's data, rev/min
        #[arg(long, value_parser = above_zero, allow_negative_numbers = true)]
        limit: f64,
        /// Closure of the bearing: open, Z, 2Z, RS, 2RS
        #[arg(long)]
        closure: Option<String>,
        /// The limit is that of the open bearing
        #[arg(long)]
        limit_of_open: bool,
    },
    /// Static safety, ISO 76
    #[command(
        after_help = "Examples:\n  sparewright check static --family deep_groove_ball --rating 11.2 --radial 4 --axial 1\n  sparewright check static --family angular_contact_ball --angle 40 --rating 15 --radial 2\n  sparewright check static --family tapered_roller --rating 90 --radial 9 --axial 5 --axial-factor 1"
    )]
    Static {
        /// Family, such as deep_groove_ball
        #[arg(long)]
        family: String,
        /// Static load rating C0, kN
        #[arg(long, value_parser = above_zero, allow_negative_numbers = true)]
        rating: f64,
        /// Radial force, kN
        #[arg(long, value_parser = from_zero, allow_negative_numbers = true)]
        radial: f64,
        /// Axial force, kN
        #[arg(long, default_value_t = 0.0, value_parser = from_zero, allow_negative_numbers = true)]
        axial: f64,
        /// Contact angle of an angular contact ball bearing, degrees: 15, 20, 25, 30, 35 or 40
        #[arg(long)]
        angle: Option<u8>,
        /// Axial factor Y0 of the data sheet, of a tapered roller, spherical roller or self-aligning ball bearing
        #[arg(long, conflicts_with = "angle", value_parser = above_zero, allow_negative_numbers = true)]
        axial_factor: Option<f64>,
    },
    /// Interference of a bearing ring on its seat, ISO 286 with ISO 492
    #[command(
        after_help = "Examples:\n  sparewright check seat --diameter 25 --seat k6 --clearance CN\n  sparewright check seat --diameter 52 --seat P7 --clearance C3 --bore 25"
    )]
    Seat {
        /// Nominal diameter, mm
        #[arg(long, value_parser = above_zero, allow_negative_numbers = true)]
        diameter: f64,
        /// Class of the seat: k6 for a shaft, J7 for a housing
        #[arg(long)]
        seat: String,
        /// Tolerance class of the bearing
        #[arg(long, default_value = "P0")]
        class: String,
        /// Measured diameter of the seat, mm
        #[arg(long, value_parser = above_zero, allow_negative_numbers = true)]
        measured: Option<f64>,
        /// Expanded uncertainty of that measurement, µm; without it that of a micrometer in a workshop
        #[arg(long, value_parser = above_zero, allow_negative_numbers = true)]
        uncertainty: Option<f64>,
        /// Clearance group before fitting, for the clearance left
        #[arg(long)]
        clearance: Option<String>,
        /// Family that the clearance is of: deep_groove_ball (without it), cylindrical_roller or spherical_roller
        #[arg(long, requires = "clearance")]
        family: Option<String>,
        /// Bore of the bearing in a housing, mm, which its clearance goes by
        #[arg(long, requires = "clearance", value_parser = above_zero, allow_negative_numbers = true)]
        bore: Option<f64>,
    },
    /// Stretch, squeeze and fill of an O-ring in a measured groove
    #[command(
        after_help = "Example:\n  sparewright check oring --inside 37.69 --section 3.53 --floor 38.1 --depth 2.87 --width 4.6"
    )]
    Oring {
        /// Inside diameter, mm
        #[arg(long, value_parser = above_zero, allow_negative_numbers = true)]
        inside: f64,
        /// Section, mm
        #[arg(long, value_parser = above_zero, allow_negative_numbers = true)]
        section: f64,
        /// Diameter of the groove floor, mm
        #[arg(long, value_parser = above_zero, allow_negative_numbers = true)]
        floor: Option<f64>,
        /// Depth from floor to counterface, mm
        #[arg(long, value_parser = above_zero, allow_negative_numbers = true)]
        depth: f64,
        /// Width of the groove, mm
        #[arg(long, value_parser = above_zero, allow_negative_numbers = true)]
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
        #[arg(long, value_parser = above_zero, allow_negative_numbers = true)]
        shaft: f64,
        /// Speed, rev/min
        #[arg(long, value_parser = above_zero, allow_negative_numbers = true)]
        rpm: f64,
        /// Elastomer by its ISO 1629 symbol
        #[arg(long)]
        elastomer: Option<String>,
    },
    /// Difference of the spacers of a preloaded pair, from face offsets measured under load
    #[command(
        after_help = "Example:\n  sparewright check spacer --first 4 --second 6 --load 200 --documented 22 --documented-load 200"
    )]
    Spacer {
        /// Gap of the first bearing that clamping closes, µm: DB between inner rings, DF between outer rings; below 0 if proud
        #[arg(long, allow_negative_numbers = true, value_parser = figure)]
        first: Option<f64>,
        /// Gap of the second bearing that clamping closes, µm
        #[arg(long, allow_negative_numbers = true, value_parser = figure)]
        second: Option<f64>,
        /// Load they were measured under, N
        #[arg(long, value_parser = above_zero, allow_negative_numbers = true)]
        load: Option<f64>,
        /// Expanded uncertainty of each offset, µm
        #[arg(long, default_value_t = 0.5, value_parser = above_zero, allow_negative_numbers = true)]
        uncertainty: f64,
        /// Sum of both gaps, by the same sign, that the machine's documentation asks for, µm
        #[arg(long, allow_negative_numbers = true, value_parser = figure)]
        documented: Option<f64>,
        /// Load the documentation states it under, N
        #[arg(long, value_parser = above_zero, allow_negative_numbers = true)]
        documented_load: Option<f64>,
        /// DB or DF
        #[arg(long, default_value = "DB")]
        arrangement: String,
        /// The offsets come from nominal or calliper widths
        #[arg(long)]
        from_widths: bool,
    },
}

/// A figure with decimal point or comma.
pub(super) fn figure(text: &str) -> Result<f64, String> {
    let figure = text.trim().replace(',', ".").parse::<f64>();
    (figure.ok().filter(|figure| figure.is_finite())).ok_or_else(|| "expected a number".to_owned())
}

fn above_zero(text: &str) -> Result<f64, String> {
    (figure(text).ok().filter(|figure| *figure > 0.0))
        .ok_or_else(|| "expected a number above 0".to_owned())
}

fn from_zero(text: &str) -> Result<f64, String> {
    (figure(text).ok().filter(|figure| *figure >= 0.0))
        .ok_or_else(|| "expected a number of 0 or more".to_owned())
}
