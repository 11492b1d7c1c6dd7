//! Words for how a bearing is closed: `shielded`, `metal shields both sides`, `beidseitig Gummidichtung`, `deux flasques`.
//!
//! What closes it, and on how many sides. Marks are those of DIN 623-1; that a disc of sheet metal is a shield and one of
//! rubber a contact seal is common practice, no source.

use std::ops::Range;

use crate::part::ClosedBy;

/// What a word for a closure names by itself.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kind {
    Shield,
    Seal,
    /// A disc of which its material tells what it is.
    Cover,
}

/// How many a word names.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Number {
    /// `sealed` tells how the bearing is: all round, unless a side is named.
    State,
    /// `seals`: both.
    Many,
    /// `seal`: one, which leaves open whether there is a second.
    One,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Material {
    Metal,
    Rubber,
}

/// Words in lower case, what they name and how many. Terms of ISO 5593 and the trade, from memory.
const NOUNS: [(&str, Kind, Number); 6] = [
    (
        "sealed|abgedichtet|abgedichtete|abgedichtetes|abgedichteter|gedichtet|étanche|étanches|\
         etanche|sellado|sellados",
        Kind::Seal,
        Number::State,
    ),
    (
        "seals|dichtscheiben|dichtungen|gummidichtungen|gummischeiben|gummidichtscheiben|dichtlippen|\
         obturaciones|sellos",
        Kind::Seal,
        Number::Many,
    ),
    (
        "seal|dichtscheibe|dichtung|gummidichtung|gummischeibe|gummidichtscheibe|gummideckel|\
         dichtlippe|étanchéité|etancheite|obturación|obturacion|sello",
        Kind::Seal,
        Number::One,
    ),
    (
        "shielded|blindé|blindés|blinde|gedeckelt|gedeckelte|gedeckeltes|blindado|blindados|schermato",
        Kind::Shield,
        Number::State,
    ),
    (
        "shields|deckscheiben|blechscheiben|blechdeckscheiben|metallscheiben|stahlscheiben|\
         staubscheiben|flasques|déflecteurs|deflecteurs|blindajes|schermi",
        Kind::Shield,
        Number::Many,
    ),
    (
        "shield|deckscheibe|blechscheibe|blechdeckscheibe|metallscheibe|stahlscheibe|staubscheibe|\
         blechdeckel|metalldeckel|staubdeckel|flasque|déflecteur|deflecteur|blindaje|schermo",
        Kind::Shield,
        Number::One,
    ),
];
/// The same where other parts are called so as well: beside a bearing's number or type only.
const LOOSE: [(&str, Kind, Number); 5] = [
    ("joints|juntas", Kind::Seal, Number::Many),
    ("joint|junta", Kind::Seal, Number::One),
    ("deckel", Kind::Shield, Number::One),
    ("covers|caps|discs|tapas", Kind::Cover, Number::Many),
    ("cover|cap|disc|scheibe|tapa", Kind::Cover, Number::One),
];
const METAL: &str = "metal|metallic|steel|tin|sheet|pressed|blech|metall|stahl|métal|métallique|métalliques|\
    metallique|metalliques|tôle|tole|acier|metálica|metálicas|metalica|metalicas|metálico|\
    metálicos|chapa|acero|lamiera";
const RUBBER: &str = "rubber|gummi|nitrile|caoutchouc|goma|gomma";
/// Behind these a material is that of something else.
const OTHERS: &str = "cage|cages|käfig|balls|ball|kugeln|outside|case|covered|housing|sleeve|ring|rings|lined|shaft|\
    welle|arbre|bearing|screw";
const ONE: &str = "one|single|einfach|einseits|1|einer|eine|einseitig|einseitige|un|une|una|d'un|only|1x|half|einem|eines";
const TWO: &str = "both|two|doble|beidseits|zweifach|2|double|each|either|beidseitig|beidseitige|beiden|beide|beider|doppelseitig|zweiseitig|zwei|deux|dos|\
    ambos|ambas|due|twin|2x|doppelt";
/// Of these words one stands by itself, beside a state too: `double sealed`, `einseitig abgedichtet`.
const WHOLE_COUNTS: &str = "single|double|doble|einfach|zweifach|einseits|beidseits|einseitig|einseitige|beidseitig|beidseitige|doppelseitig|\
    zweiseitig|half|doppelt";
/// `other side open` is one side.
const OTHER_SIDE: &str = "other|andere|anderen|autre|otro";
/// How many sides, in one word.
const ONE_SIDED: &str = "einseitig|einseitige|einseits";
const TWO_SIDED: &str = "beidseitig|beidseitige|beidseits|doppelseitig|zweiseitig";
/// Most words between `open` and how many sides are: `ouvert des deux côtés`.
const MOST_LINKS: usize = 3;
const SIDES: &str = "side|sides|end|ends|face|faces|seite|seiten|côté|côtés|cotés|lado|lados|lati";
/// Words between a closure and how many there are.
const LINKS: &str = "on|at|of|the|to|a|an|aus|auf|der|with|mit|only|des|de|du|en|les|par|por|los|con|avec|d|type|\
    style|ein";
/// Words for a seal that does not touch, with their endings.
const NO_CONTACT: &str =
    "non-contact|noncontact|contactless|low-friction|berührungsfrei|berührungslos";
/// Words for one that does, with their endings.
const CONTACT: &str = "contact|touching|rubbing|schleifend|berührend|frottant|contacto|kontakt";
/// In front of `contact` it says that there is none.
const NON: &str = "non";
/// The same behind the name of a seal: `joint sans contact`.
const NO: &str = "non|ohne|sans|sin|without";
/// In front of these a seal is one for a shaft.
const OTHER_SEALS: &str = "oil|lip|shaft|rotary|radial";
/// Behind a joint these name another part: `joint torique`.
const OTHER_PARTS: &str = "torique|tórica|torica|à|plat|spi|d'étanchéité";
/// Between a seal and the bearing that it is wanted for.
const FOR: &str = "for|für|pour|para";
/// How far words of a closure stand from it.
const REACH: usize = 6;

/// What words say of a closure, and which words they are.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Said {
    pub(super) range: Range<usize>,
    pub(super) by: ClosedBy,
    /// Both sides or one; `None` where nobody said.
    pub(super) is_both: Option<bool>,
    /// True where the words say that it touches, or does not.
    pub(super) is_touch_told: bool,
    /// True where its material makes it another closure than its name: `metal seals`.
    pub(super) is_by_material: bool,
}

/// `metal-shielded`, `double-sealed`: a closure and what is said of it, as words of their own.
pub(super) fn apart(word: &str) -> Vec<&str> {
    let pieces = word.split_once('-').filter(|(of, name)| {
        let (of, name) = (of.to_lowercase(), name.to_lowercase());
        let says = material(&of).is_some() || has(ONE, &of) || has(TWO, &of);
        says && noun(name.trim_end_matches([',', ';']), true).is_some()
    });
    pieces.map_or_else(|| vec![word], |(of, name)| vec![of, name])
}

/// True for a word that may name a closure.
pub(super) fn may_name(word: &str) -> bool {
    noun(word, true).is_some() || has(RUBBER, word) || has(METAL, word)
}

/// The end of the name of a closure that begins behind a negation, with at most its material or `contact` in front; what is
/// `non contact` is none.
pub(super) fn end_of_name(lower: &[String], at: usize) -> Option<usize> {
    const MOST_BEFORE: usize = 2;
    let word = |at: usize| lower.get(at).map_or("", String::as_str);
    let is_non = at > 0 && has(NON, word(at - 1));
    let is_before = |word: &str| material(word).is_some() || !is_non && begins(CONTACT, word);
    let name = (at..=at + MOST_BEFORE).find(|place| !is_before(word(*place)))?;
    noun(word(name), true).map(|_| name + 1)
}

/// What the words around a place say of a closure that is named there; `is_bearing` where the text surely is for one.
pub(super) fn named_at(
    lower: &[String],
    is_taken: &[bool],
    at: usize,
    is_bearing: bool,
) -> Option<Said> {
    let around = Around { lower, is_taken };
    let (kind, number) = noun(around.word(at), is_bearing).filter(|_| around.is_open(at))?;
    let before = at.checked_sub(1).map_or("", |before| around.word(before));
    let is_part = number != Number::State;
    let is_other = has(OTHER_SEALS, before) || has(OTHER_PARTS, around.word(at + 1));
    if is_part && is_other {
        return None;
    }
    around.read(at, kind, number, None)
}

/// Words for seals that are neither of a bearing's marks, and such words in one: `labyrinth seal`, `Filzring`.
const OTHER_KINDS: &str = "labyrinth|felt|brush|mechanical|packing|v-ring|labyrinthe|feutre";
const OTHER_IN_ONE: &str =
    "labyrinthdicht|labyrinthring|filzdicht|filzring|filzscheib|bürstendicht";

/// True for a word that a seal of another kind than a bearing's may be named by.
pub(super) fn may_name_other(word: &str) -> bool {
    has(OTHER_KINDS, word) || begins(OTHER_IN_ONE, word)
}

/// A seal of another kind, by its name: it is no shield and no contact seal.
pub(super) fn other_seal(lower: &[String], at: usize) -> Option<Range<usize>> {
    let word = |at: usize| lower.get(at).map_or("", String::as_str);
    let is_seal = |word: &str| {
        matches!(noun(word, true), Some((Kind::Seal, _))) || matches!(word, "ring" | "rings")
    };
    if begins(OTHER_IN_ONE, word(at)) {
        return Some(at..at + 1);
    }
    if has(OTHER_KINDS, word(at)) && is_seal(word(at + 1)) {
        return Some(at..at + 2);
    }
    // `joint à labyrinthe`, `joint feutre`
    let end = at + 1 + usize::from(matches!(word(at + 1), "à" | "en" | "de"));
    (is_seal(word(at)) && has(OTHER_KINDS, word(end))).then_some(at..end + 1)
}

/// Covers that are counted and of which nobody said what they are made of: `dos tapas`, `two covers`.
pub(super) fn covers_at(lower: &[String], is_taken: &[bool], at: usize) -> Option<Range<usize>> {
    let around = Around { lower, is_taken };
    let (kind, number) = noun(around.word(at), true).filter(|_| around.is_open(at))?;
    if kind != Kind::Cover {
        return None;
    }
    let said = around.read(at, kind, number, Some(Material::Metal))?;
    let is_count = |word: &String| has(ONE, word) || has(TWO, word);
    lower[said.range.clone()]
        .iter()
        .any(is_count)
        .then_some(said.range)
}

/// True for a word that says open.
pub(super) fn says_open(word: &str) -> bool {
    has(
        "open|offen|offene|offener|offenes|ouvert|ouverte|abierto|abierta|aperto",
        word,
    )
}

/// True for a word that says rubber.
pub(super) fn says_rubber(word: &str) -> bool {
    has(RUBBER, word)
}

/// What words around one that says open say: of one side or of the bearing, and which words they are.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Open {
    pub(super) range: Range<usize>,
    pub(super) is_one_side: bool,
}

/// Words around a place that says open: `one side open`, `einseitig offen`, `open on one side`, `open both sides`.
pub(super) fn open_at(lower: &[String], at: usize) -> Option<Open> {
    let word = |at: usize| lower.get(at).map_or("", String::as_str);
    if !says_open(word(at)) {
        return None;
    }
    let open = |range: Range<usize>, is_one_side: bool| Some(Open { range, is_one_side });
    let is_one = |word: &str| has(ONE, word) || has(OTHER_SIDE, word);
    // `one side`, `both sides`: one side or all of them.
    let pair = |first: usize| {
        let is_pair = has(SIDES, word(first + 1)) && (is_one(word(first)) || has(TWO, word(first)));
        is_pair.then(|| is_one(word(first)))
    };
    let before = at.checked_sub(1).map_or("", word);
    let first = at.checked_sub(2);
    if let Some((first, is_one_side)) = first.and_then(|first| Some((first, pair(first)?))) {
        return open(first..at + 1, is_one_side);
    }
    if has(ONE_SIDED, before) || has(TWO_SIDED, before) {
        return open(at - 1..at + 1, has(ONE_SIDED, before));
    }
    let behind = (at + 1..at + 1 + MOST_LINKS)
        .take_while(|place| *place == at + 1 || has(LINKS, word(place - 1)))
        .find_map(|place| Some((place, pair(place)?)));
    if let Some((place, is_one_side)) = behind {
        return open(at..place + 2, is_one_side);
    }
    let is_one_side = has(ONE_SIDED, word(at + 1)) || matches!(word(at + 1), "side" | "seite");
    let has_sides = is_one_side || has(TWO_SIDED, word(at + 1)) || has(SIDES, word(at + 1));
    open(at..at + 1 + usize::from(has_sides), is_one_side)
}

/// True where the closure itself is wanted, and not the bearing: `seal for 6206`.
pub(super) fn is_wanted_itself(lower: &[String], at: usize) -> bool {
    let has_figure = |words: &[String]| {
        words
            .iter()
            .any(|word| word.contains(|c: char| c.is_ascii_digit()))
    };
    let next = lower.get(at + 1).map_or("", String::as_str);
    let is_part = noun(&lower[at], true).is_some_and(|(_, number)| number != Number::State);
    is_part && has(FOR, next) && !has_figure(&lower[..at]) && has_figure(&lower[at + 1..])
}

/// What a material alone says of a closure: `rubber both sides`; metal only where sides are named.
pub(super) fn material_at(lower: &[String], is_taken: &[bool], at: usize) -> Option<Said> {
    let around = Around { lower, is_taken };
    let of = material(around.word(at)).filter(|_| around.is_open(at))?;
    if has(OTHERS, around.word(at + 1)) {
        return None;
    }
    let said = around.read(at, Kind::Cover, Number::One, Some(of))?;
    // `6206 rubber C3`, but not `rubber mount`.
    let next = around.word(said.range.end);
    let is_alone = next.is_empty() || next.contains(|c: char| c.is_ascii_digit());
    (said.is_both.is_some() || of == Material::Rubber && is_alone).then_some(said)
}

fn noun(word: &str, is_bearing: bool) -> Option<(Kind, Number)> {
    let loose = LOOSE.iter().filter(|_| is_bearing);
    let found = NOUNS
        .iter()
        .chain(loose)
        .find(|(words, ..)| has(words, word));
    found.map(|(_, kind, number)| (*kind, *number))
}

fn material(word: &str) -> Option<Material> {
    if has(METAL, word) {
        Some(Material::Metal)
    } else {
        has(RUBBER, word).then_some(Material::Rubber)
    }
}

/// True for a word of a list, whose words have strokes between them.
fn has(list: &str, word: &str) -> bool {
    list.split('|').any(|known| known == word)
}

/// True for a word that begins as one of a list does.
fn begins(list: &str, word: &str) -> bool {
    list.split('|').any(|beginning| word.starts_with(beginning))
}

/// The words of a text, and which of them were taken.
struct Around<'a> {
    lower: &'a [String],
    is_taken: &'a [bool],
}

/// What is found while the words around a closure go by.
struct Found {
    start: usize,
    end: usize,
    is_both: Option<bool>,
    has_count: bool,
    touches: Option<bool>,
    material: Option<Material>,
}

impl Around<'_> {
    fn word(&self, at: usize) -> &str {
        self.lower.get(at).map_or("", String::as_str)
    }

    fn is_open(&self, at: usize) -> bool {
        self.is_taken.get(at).is_some_and(|taken| !taken)
    }

    fn read(&self, at: usize, kind: Kind, number: Number, of: Option<Material>) -> Option<Said> {
        let mut found = Found {
            start: at,
            end: at + 1,
            is_both: (number != Number::One).then_some(true),
            has_count: false,
            touches: None,
            material: of,
        };
        self.backward(at, kind, number, &mut found);
        self.forward(at, &mut found);
        let is_seal = match (found.material, kind) {
            (Some(Material::Rubber), _) | (None, Kind::Seal) => true,
            (Some(Material::Metal), _) | (None, Kind::Shield) => false,
            (None, Kind::Cover) => return None,
        };
        let by = match (is_seal, found.touches) {
            (false, _) => ClosedBy::Shield,
            (true, Some(false)) => ClosedBy::LowFrictionSeal,
            (true, _) => ClosedBy::ContactSeal,
        };
        Some(Said {
            range: found.start..found.end,
            by,
            is_both: found.is_both,
            is_touch_told: found.touches.is_some(),
            is_by_material: kind == Kind::Seal && !is_seal || kind == Kind::Shield && is_seal,
        })
    }

    /// `one rubber seal`, `both sides sealed`, `2 shields`.
    fn backward(&self, at: usize, kind: Kind, number: Number, found: &mut Found) {
        let mut has_side = false;
        for step in (at.saturating_sub(REACH)..at).rev() {
            let word = self.word(step);
            let before = step.checked_sub(1).map_or("", |before| self.word(before));
            let counts = number != Number::State || has_side || has(WHOLE_COUNTS, word);
            if !self.is_open(step) {
                return;
            } else if word == "friction" && matches!(before, "low" | "reduced") {
                (found.touches, found.start) = (Some(false), step - 1);
            } else if matches!(word, "low" | "reduced") && found.start == step {
                // Taken with its friction.
            } else if begins(NO_CONTACT, word) {
                (found.touches, found.start) = (Some(false), step);
            } else if begins(CONTACT, word) && before != "angular" {
                let has_none = has(NON, before);
                found.touches = Some(!has_none);
                found.start = step - usize::from(has_none);
            } else if has(NON, word) {
                // Taken with the contact that there is not.
                if found.start > step {
                    return;
                }
            } else if counts && (has(ONE, word) || has(TWO, word)) {
                found.is_both = Some(has(TWO, word));
                (found.start, found.has_count) = (step, true);
                return;
            } else if has(SIDES, word) {
                has_side = true;
            } else if let Some(of) = material(word) {
                found.material = found.material.or(Some(of));
                found.start = step;
            } else if word == "dust" && kind != Kind::Seal {
                // A dust shield or cover is of sheet metal.
                found.material = found.material.or(Some(Material::Metal));
                found.start = step;
            } else if !has(LINKS, word) {
                return;
            }
        }
    }

    /// `sealed on one side only`, `seal at both ends`, `flasques métalliques des deux côtés`.
    fn forward(&self, at: usize, found: &mut Found) {
        let mut count = None;
        for step in at + 1..(at + 1 + REACH).min(self.lower.len()) {
            let word = self.word(step);
            let next = self.word(step + 1);
            // `2 seals both sides` says it twice.
            let says_again = has(TWO, word) && found.is_both == Some(true);
            let is_side = has(SIDES, word) && count.is_some();
            if !self.is_open(step) {
                break;
            } else if let Some(of) = material(word).filter(|_| !has(OTHERS, next)) {
                found.material = found.material.or(Some(of));
                found.end = step + 1;
            } else if begins(CONTACT, word) || begins(NO_CONTACT, word) {
                let has_none = has(NO, self.word(step - 1)) || begins(NO_CONTACT, word);
                (found.touches, found.end) = (Some(!has_none), step + 1);
            } else if found.has_count && !says_again && !is_side && !has(LINKS, word) {
                break;
            } else if is_side {
                (found.is_both, found.end, found.has_count) = (count, step + 1, true);
            } else if word.ends_with("seitig") || word.ends_with("seits") {
                found.is_both = Some(!word.starts_with("einseit"));
                (found.end, found.has_count) = (step + 1, true);
            } else if has(TWO, word) {
                count = Some(true);
            } else if has(ONE, word) && word != "only" {
                count = Some(false);
            } else if !(has(LINKS, word) || has(NO, word) && begins(CONTACT, next)) {
                break;
            }
        }
        while found.has_count
            && matches!(self.word(found.end), "only" | "nur" | "seulement" | "solo")
        {
            found.end += 1;
        }
    }
}
