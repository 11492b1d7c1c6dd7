//! Looks of the page.
//!
//! Plain paper with dark slate ink; the only strong colour is kept for rows to stop at. Reasons:
//! - Every ink stands at 4.5:1 or more on its ground, in light, dark and print, as WCAG 2.1 asks for
//!   (criterion 1.4.3); a test below reckons it from the colours.
//! - Marks carry a sign of their own shape (square, triangle, disc) and a word, so nothing hangs on colour; in
//!   grey print the edge of the row is thick, dashed or absent.
//! - Red and amber are set far apart in lightness, so that they differ for those who see red and green alike.
//! - Figures are tabular and flush right, so that digits stand below each other.
//! - Wide tables scroll within their own region and the first column stays; the page itself never scrolls
//!   sideways, down to 320 pixels (criterion 1.4.10).

/// Style sheet of the page.
pub const STYLE: &str = r##"
:root{color-scheme:light dark;--paper:#fff;--panel:#f4f6f7;--ink:#1d2a33;--quiet:#55606a;--rule:#cdd3d8;
--link:#0b57a4;--head:#1f3a4d;--head-ink:#fff;--bar:#2f627f;--rail:#e4e8eb;
--stop:#fbe3df;--stop-ink:#8f1d10;--check:#fff4d1;--check-ink:#6b4a00;--good-ink:#1d5f36}
@media (prefers-color-scheme:dark){:root{--paper:#14191d;--panel:#1d252b;--ink:#e6ebee;--quiet:#a9b4bc;
--rule:#3a454d;--link:#8cc2f5;--head:#2b4457;--head-ink:#f2f6f8;--bar:#7fb2cf;--rail:#2a343c;
--stop:#45201b;--stop-ink:#ffb4a8;--check:#3d3316;--check-ink:#f6d584;--good-ink:#93d6ab}}
*{box-sizing:border-box}
html{-webkit-text-size-adjust:100%;scroll-padding-top:1rem}
body{margin:0;background:var(--paper);color:var(--ink);line-height:1.5;
font:16px/1.5 system-ui,-apple-system,"Segoe UI",Roboto,"Liberation Sans",Arial,sans-serif}
a{color:var(--link);text-underline-offset:.15em}
a:focus-visible,.scroll:focus-visible,button:focus-visible,summary:focus-visible{outline:3px solid var(--link);outline-offset:2px}
.skip{position:absolute;left:-999em}.skip:focus{left:1rem;top:1rem;background:var(--paper);padding:.5rem 1rem;z-index:9}
header,main,footer{max-width:84rem;margin:0 auto;padding:0 1.25rem}
header{padding-top:1.75rem;padding-bottom:.5rem}
h1{font-size:1.75rem;line-height:1.2;margin:0 0 .25rem}
h2{font-size:1.25rem;line-height:1.3;margin:0 0 .5rem}
h3{font-size:1rem;margin:1.25rem 0 .35rem}
p{margin:.25rem 0 .5rem;max-width:75ch}
.quiet,.meta{color:var(--quiet)}
section{margin:1.75rem 0;padding-top:1.25rem;border-top:1px solid var(--rule)}
section:first-child{border-top:0;padding-top:0}
nav ul{list-style:none;display:flex;flex-wrap:wrap;gap:.25rem 1.1rem;padding:0;margin:.75rem 0 0}
nav a{display:inline-block;padding:.3rem 0}
.actions{padding-left:0;margin:0;counter-reset:step;list-style:none;max-width:75ch}
.actions li{counter-increment:step;position:relative;padding:.6rem 0 .6rem 2.6rem;border-bottom:1px solid var(--rule)}
.actions li:last-child{border-bottom:0}
.actions li::before{content:counter(step);position:absolute;left:0;top:.65rem;width:1.75rem;height:1.75rem;
line-height:1.75rem;text-align:center;border-radius:50%;background:var(--head);color:var(--head-ink);font-weight:700;font-size:.9rem}
.actions strong{display:block}
.facts{display:grid;grid-template-columns:repeat(auto-fill,minmax(14.5rem,1fr));gap:.75rem;margin:.5rem 0}
.facts div{background:var(--panel);border-left:4px solid var(--head);padding:.7rem .9rem}
.facts dt{color:var(--quiet);font-size:.9rem}
.facts dd{margin:0}.facts .figure{font-size:1.4rem;font-weight:650;line-height:1.3;font-variant-numeric:tabular-nums}
.facts .note{font-size:.875rem;color:var(--quiet)}
ul.plain{padding-left:1.15rem;margin:.4rem 0;max-width:75ch}ul.plain li{margin:.25rem 0}
.scroll{overflow-x:auto;margin:.6rem 0;border:1px solid var(--rule);max-width:100%;position:relative}
.long{max-height:85vh;overflow-y:auto}
table{border-collapse:separate;border-spacing:0;width:100%;font-size:.875rem;line-height:1.4}
caption{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%);white-space:nowrap}
th{hyphens:auto}
th,td{padding:.45rem .5rem;text-align:left;vertical-align:top;border-bottom:1px solid var(--rule);
overflow-wrap:break-word;min-width:4rem;max-width:26rem}
td.words{min-width:7rem}td.wide{min-width:30rem}
.tall{max-height:12rem;overflow-y:auto}
thead th{background:var(--head);color:var(--head-ink);position:sticky;top:0;z-index:2;vertical-align:bottom;line-height:1.3}
tbody th,tfoot th{position:sticky;left:0;background:var(--paper);font-weight:600;z-index:1;min-width:10rem;max-width:16rem}
thead th:first-child{left:0;z-index:3}
thead button{font:inherit;color:inherit;background:none;border:0;padding:.15rem 0;margin:0;min-height:1.75rem;text-align:inherit;cursor:pointer}
thead button:hover{text-decoration:underline}thead button:focus-visible{outline-color:var(--head-ink);outline-offset:-2px}
th[aria-sort=ascending] button::after{content:" \25B2"}th[aria-sort=descending] button::after{content:" \25BC"}
.n{text-align:right;font-variant-numeric:tabular-nums;white-space:nowrap}thead .n{white-space:normal}
.d{white-space:nowrap;font-variant-numeric:tabular-nums}
tbody tr:last-child>*{border-bottom:0}
tfoot th,tfoot td{background:var(--panel);font-weight:700;border-top:2px solid var(--head);border-bottom:0}
.unknown{font-style:italic;color:var(--quiet)}
.mark{display:block;font-size:.78rem;font-weight:700;white-space:nowrap}
tr.stop>*{background:var(--stop)}tr.stop .unknown{color:var(--stop-ink)}
tr.stop>:first-child{border-left:6px solid var(--stop-ink)}.stop .mark{color:var(--stop-ink)}
tr.check>*{background:var(--check)}tr.check .unknown{color:var(--check-ink)}
tr.check>:first-child{border-left:6px dashed var(--check-ink)}.check .mark{color:var(--check-ink)}
.good .mark{color:var(--good-ink)}
.old{font-weight:700}
.none{background:var(--panel);padding:.8rem 1rem;border-left:4px solid var(--rule)}
figcaption{font-weight:650}.chart{margin:.75rem 0 1rem;max-width:60rem}
.drawing{display:block;width:100%;overflow:visible;background:var(--paper)}
.drawing text{fill:var(--ink);font-size:13px}
.drawing .step,.drawing .axis{fill:var(--quiet);font-size:12px;font-variant-numeric:tabular-nums}
.drawing .name,.drawing .figure{stroke:var(--paper);stroke-width:4px;paint-order:stroke}
.drawing .roomy{display:none}
@media (min-width:48rem){.drawing .roomy{display:inline}.drawing .tight{display:none}}
.drawing .grid{stroke:var(--rule);stroke-width:1}
.drawing .line{stroke:var(--ink);stroke-width:2}
.drawing .dashed{stroke-dasharray:8 4}.drawing .dotted{stroke-dasharray:2 4}
.drawing .sign{font-size:14px;stroke:var(--paper);stroke-width:3px;paint-order:stroke}
.drawing .band{stroke:var(--ink);stroke-width:1}
.drawing .bar,.drawing .work,.drawing .span{fill:var(--bar)}.drawing .rail{fill:var(--rail)}
.drawing .wait{fill:var(--panel)}
.drawing .spread{fill:var(--panel);stroke-dasharray:3 3}
.drawing .late-work{fill:var(--paper);stroke-dasharray:3 3}
.legend{list-style:none;display:flex;flex-wrap:wrap;gap:.1rem 1.2rem;padding:0;margin:.2rem 0 .5rem;font-size:.875rem}
.legend .sign{display:inline-block;min-width:1.2em}
details{margin:.5rem 0}summary{cursor:pointer;color:var(--link)}
.help dt{font-weight:650;margin-top:.4rem}.help dd{margin:0 0 0 1rem;max-width:70ch}
.print-choice{display:flex;align-items:center;gap:.6rem;min-height:48px}
.print-choice input{width:24px;height:24px;flex:none;margin:0}
.not-printed{display:none}
footer{color:var(--quiet);border-top:1px solid var(--rule);padding-top:1rem;padding-bottom:2rem;margin-top:2rem;font-size:.9rem}
@media (max-width:40rem){header,main,footer{padding-left:.9rem;padding-right:.9rem}h1{font-size:1.45rem}
th,td{padding:.4rem .5rem}tbody th,tfoot th{max-width:9rem;min-width:8.5rem}
.facts{grid-template-columns:1fr}nav ul{gap:0 1rem}td.wide{min-width:24rem}
nav a,.actions a,summary{display:inline-flex;align-items:center;min-height:48px}thead button{min-height:48px}}
@page{size:landscape;margin:12mm}
@media print{:root{color-scheme:light;--paper:#fff;--panel:#f1f3f4;--ink:#111;--quiet:#444;--rule:#aaa;--link:#111;
--head:#1f3a4d;--head-ink:#fff;--bar:#444;--rail:#e4e4e4;--stop:#e6e6e6;--stop-ink:#111;--check:#f6f6f6;--check-ink:#111;--good-ink:#111}
*{-webkit-print-color-adjust:exact;print-color-adjust:exact}
body{font-size:10pt}header,main,footer{max-width:none;padding:0}nav,.skip{display:none}
.scroll,.long,.tall{overflow:visible;max-height:none;border:0}table{font-size:8pt}
th,td{min-width:0!important;max-width:none;padding:1.2mm 1.6mm}
thead{display:table-header-group}thead button{display:contents}tfoot{display:table-row-group}thead th,tbody th,tfoot th{position:static}
tr,.actions li,.facts div,figure{break-inside:avoid}h2,h3,caption,h2+p{break-after:avoid}section{margin:4mm 0;padding-top:3mm}
h3{margin:2.5mm 0 1mm}ul.plain{font-size:9pt;max-width:none;margin:1mm 0}ul.plain li{margin:.5mm 0}
p{max-width:none}.help{font-size:9pt;line-height:1.35}.help dt{margin-top:.8mm}.help dd{max-width:none}
.print-choice{display:none}body:not(:has(#print-all:checked)) .not-printed{display:block}
body:not(:has(#print-all:checked)) .on-screen{display:none}
details>*{display:block}details::details-content{content-visibility:visible}summary{list-style:none}}
"##;

#[cfg(test)]
mod tests {
    use super::*;

    /// Colour of a name in a part of the style sheet, as shares of red, green and blue.
    fn colour(part: &str, name: &str) -> Option<[f64; 3]> {
        let hex = part.split(&format!("--{name}:#")).nth(1)?;
        let hex: String = hex.chars().take_while(char::is_ascii_hexdigit).collect();
        let hex = match hex.len() {
            3 => hex.chars().flat_map(|c| [c, c]).collect(),
            _ => hex,
        };
        let part = |at: usize| u8::from_str_radix(&hex[at..at + 2], 16).ok();
        Some([0, 2, 4].map(|at| f64::from(part(at).unwrap()) / 255.0))
    }

    /// Contrast ratio of two colours (WCAG 2.1, definitions of relative luminance and contrast ratio).
    fn contrast(one: [f64; 3], two: [f64; 3]) -> f64 {
        let luminance = |colour: [f64; 3]| {
            let [r, g, b] = colour.map(|c| match c <= 0.03928 {
                true => c / 12.92,
                false => ((c + 0.055) / 1.055).powf(2.4),
            });
            0.2126 * r + 0.7152 * g + 0.0722 * b
        };
        let (one, two) = (luminance(one), luminance(two));
        (one.max(two) + 0.05) / (one.min(two) + 0.05)
    }

    #[test]
    fn black_on_white_has_the_contrast_the_guideline_states() {
        // WCAG 2.1: ratios range from 1 to 21.
        assert!((contrast([0.0; 3], [1.0; 3]) - 21.0).abs() < 1e-9);
        assert!((contrast([0.5; 3], [0.5; 3]) - 1.0).abs() < 1e-9);
    }

    #[test]
    fn every_text_has_the_contrast_that_wcag_asks_for() {
        let parts: Vec<&str> = STYLE.split("@media").collect();
        let dark = parts.iter().find(|p| p.contains("scheme:dark)")).unwrap();
        let print = parts.iter().find(|p| p.starts_with(" print")).unwrap();
        for (scheme, part) in [("light", &parts[0]), ("dark", dark), ("print", print)] {
            let of = |name: &str| {
                colour(part, name)
                    .or_else(|| colour(parts[0], name))
                    .unwrap_or_else(|| panic!("{scheme}: no colour {name}"))
            };
            for (ink, ground) in [
                ("ink", "paper"),
                ("ink", "panel"),
                ("quiet", "paper"),
                ("quiet", "panel"),
                ("link", "paper"),
                ("head-ink", "head"),
                ("ink", "stop"),
                ("stop-ink", "stop"),
                ("ink", "check"),
                ("check-ink", "check"),
                ("good-ink", "paper"),
            ] {
                let ratio = contrast(of(ink), of(ground));
                // WCAG 2.1, success criterion 1.4.3 (level AA).
                assert!(ratio >= 4.5, "{scheme}: {ink} on {ground} is {ratio:.2}");
            }
            // Criterion 1.4.11: what a picture shows needs 3 to 1.
            for ground in ["rail", "paper"] {
                assert!(contrast(of("bar"), of(ground)) >= 3.0, "{scheme}: {ground}");
                assert!(
                    contrast(of("stop-ink"), of(ground)) >= 3.0,
                    "{scheme}: {ground}"
                );
            }
        }
    }
}
