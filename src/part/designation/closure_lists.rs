//! The lists of words that name how a bearing is closed, each word found by one look.

use std::sync::LazyLock;

use crate::part::WordMap;

/// What a word for a closure names by itself.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Kind {
    Shield,
    Seal,
    /// A disc of which its material tells what it is.
    Cover,
}

/// How many a word names.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Number {
    /// `sealed` tells how the bearing is: all round, unless a side is named.
    State,
    /// `seals`: both.
    Many,
    /// `seal`: one, which leaves open whether there is a second.
    One,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Material {
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

/// One of the lists of words below.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) struct List(u32);

/// Materials of a closure.
pub(crate) const METAL: List = List(1 << 0);
pub(crate) const RUBBER: List = List(1 << 1);
/// Behind these a material is that of something else.
pub(crate) const OTHERS: List = List(1 << 2);
/// How many sides are closed.
pub(crate) const ONE: List = List(1 << 3);
pub(crate) const TWO: List = List(1 << 4);
/// Of these words one stands by itself, beside a state too: `double sealed`, `einseitig abgedichtet`.
pub(crate) const WHOLE_COUNTS: List = List(1 << 5);
/// `other side open` is one side.
pub(crate) const OTHER_SIDE: List = List(1 << 6);
/// How many sides, in one word.
pub(crate) const ONE_SIDED: List = List(1 << 7);
pub(crate) const TWO_SIDED: List = List(1 << 8);
/// What is counted.
pub(crate) const SIDES: List = List(1 << 9);
/// Words between a closure and how many there are.
pub(crate) const LINKS: List = List(1 << 10);
/// In front of `contact` it says that there is none.
pub(crate) const NON: List = List(1 << 11);
/// The same behind the name of a seal: `joint sans contact`.
pub(crate) const NO: List = List(1 << 12);
/// In front of these a seal is one for a shaft.
pub(crate) const OTHER_SEALS: List = List(1 << 13);
/// Behind a joint these name another part: `joint torique`.
pub(crate) const OTHER_PARTS: List = List(1 << 14);
/// Between a seal and the bearing that it is wanted for.
pub(crate) const FOR: List = List(1 << 15);
/// Seals that are neither of a bearing's marks: `labyrinth seal`.
pub(crate) const OTHER_KINDS: List = List(1 << 16);
/// Words that say open.
pub(crate) const OPEN: List = List(1 << 17);

/// Words in lower case of each list.
const LISTS: [(List, &str); 18] = [
    (
        METAL,
        "metal|metallic|steel|tin|sheet|pressed|blech|metall|stahl|métal|métallique|métalliques|metallique|\
         metalliques|tôle|tole|acier|metálica|metálicas|metalica|metalicas|metálico|metálicos|chapa|acero|lamiera",
    ),
    (RUBBER, "rubber|gummi|nitrile|caoutchouc|goma|gomma"),
    (
        OTHERS,
        "cage|cages|käfig|balls|ball|kugeln|outside|case|covered|housing|sleeve|ring|rings|lined|shaft|welle|\
         arbre|bearing|screw",
    ),
    (
        ONE,
        "one|single|einfach|einseits|1|einer|eine|einseitig|einseitige|un|une|una|d'un|only|1x|half|einem|eines",
    ),
    (
        TWO,
        "both|two|doble|beidseits|zweifach|2|double|each|either|beidseitig|beidseitige|beiden|beide|beider|\
         doppelseitig|zweiseitig|zwei|deux|dos|ambos|ambas|due|twin|2x|doppelt",
    ),
    (
        WHOLE_COUNTS,
        "single|double|doble|einfach|zweifach|einseits|beidseits|einseitig|einseitige|beidseitig|beidseitige|\
         doppelseitig|zweiseitig|half|doppelt",
    ),
    (OTHER_SIDE, "other|andere|anderen|autre|otro"),
    (ONE_SIDED, "einseitig|einseitige|einseits"),
    (
        TWO_SIDED,
        "beidseitig|beidseitige|beidseits|doppelseitig|zweiseitig",
    ),
    (
        SIDES,
        "side|sides|end|ends|face|faces|seite|seiten|côté|côtés|cotés|lado|lados|lati",
    ),
    (
        LINKS,
        "on|at|of|the|to|a|an|aus|auf|der|with|mit|only|des|de|du|en|les|par|por|los|con|avec|d|type|style|ein",
    ),
    (NON, "non"),
    (NO, "non|ohne|sans|sin|without"),
    (OTHER_SEALS, "oil|lip|shaft|rotary|radial"),
    (OTHER_PARTS, "torique|tórica|torica|à|plat|spi|d'étanchéité"),
    (FOR, "for|für|pour|para"),
    (
        OTHER_KINDS,
        "labyrinth|felt|brush|mechanical|packing|v-ring|labyrinthe|feutre",
    ),
    (
        OPEN,
        "open|offen|offene|offener|offenes|ouvert|ouverte|abierto|abierta|aperto",
    ),
];

/// Words for a seal that does not touch, with their endings.
pub(crate) const NO_CONTACT: [&str; 6] = [
    "non-contact",
    "noncontact",
    "contactless",
    "low-friction",
    "berührungsfrei",
    "berührungslos",
];
/// Words for one that does, with their endings.
pub(crate) const CONTACT: [&str; 8] = [
    "contact",
    "touching",
    "rubbing",
    "schleifend",
    "berührend",
    "frottant",
    "contacto",
    "kontakt",
];
/// Seals of other kinds in one word: `Filzring`.
pub(crate) const OTHER_IN_ONE: [&str; 6] = [
    "labyrinthdicht",
    "labyrinthring",
    "filzdicht",
    "filzring",
    "filzscheib",
    "bürstendicht",
];

/// The lists that a word stands in, a bit each.
static IN_LISTS: LazyLock<WordMap<u32>> = LazyLock::new(|| {
    let of_list = |(list, words): &(List, &'static str)| {
        let list = list.0;
        words.split('|').map(move |word| (list, word))
    };
    WordMap::of_lists(LISTS.iter().flat_map(of_list))
});

/// What a noun names, how many, and whether it does so beside a bearing only.
static NAMED: LazyLock<WordMap<(Kind, Number, bool)>> = LazyLock::new(|| {
    let strict = NOUNS.iter().map(|noun| (noun, false));
    let loose = LOOSE.iter().map(|noun| (noun, true));
    let nouns = strict.chain(loose);
    nouns
        .flat_map(|((words, kind, number), is_loose)| {
            let named = (*kind, *number, is_loose);
            words.split('|').map(move |word| (word, named))
        })
        .collect()
});

/// What a word for a closure names; some name one beside a bearing only.
pub(crate) fn noun(word: &str, is_bearing: bool) -> Option<(Kind, Number)> {
    let (kind, number, is_loose) = *NAMED.get(word)?;
    (is_bearing || !is_loose).then_some((kind, number))
}

pub(crate) fn material(word: &str) -> Option<Material> {
    if has(METAL, word) {
        Some(Material::Metal)
    } else {
        has(RUBBER, word).then_some(Material::Rubber)
    }
}

/// True for a word of a list.
pub(crate) fn has(list: List, word: &str) -> bool {
    IN_LISTS.get(word).is_some_and(|lists| lists & list.0 != 0)
}

/// True for a word that begins as one of a list does.
pub(crate) fn begins(list: &[&str], word: &str) -> bool {
    list.iter().any(|beginning| word.starts_with(beginning))
}

/// Words by which a closure, or what is open or another seal, may be named; `begins` has others.
pub(crate) fn names() -> impl Iterator<Item = &'static str> {
    let nouns = NOUNS.iter().chain(&LOOSE).map(|(words, ..)| *words);
    let of_list = |list: &List| matches!(*list, METAL | RUBBER | OTHER_KINDS | OPEN);
    let lists = LISTS.iter().filter(move |(list, _)| of_list(list));
    let lists = lists.map(|(_, words)| *words);
    nouns.chain(lists).flat_map(|words| words.split('|'))
}
