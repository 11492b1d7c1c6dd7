//! Look-up at the bench: figures or a number in, the part, the reasons and the next question out.
//!
//! The page works without scripting: the form is sent and the answer comes with the page. With scripting the answer
//! alone is fetched while typing.

use axum::Extension;
use axum::extract::State;
use axum::http::header::CONTENT_DISPOSITION;
use axum::response::{Html, IntoResponse, Response};
use maud::{Markup, html};
use serde::Deserialize;

use super::answer_shown::shown;
use super::asset::PAGE_CSS;
use super::fields;
use super::frame::{self, Failure, current};
use crate::job::now;
use crate::lookup::{Question, QuestionError, answer};
use crate::report::PAGE_STYLE;
use crate::web::asked::AskedIn;
use crate::web::key::Role;
use crate::web::language::{chosen, say};
use crate::web::serving::Serving;

/// What the form sends.
#[derive(Debug, Default, Clone, Deserialize)]
#[serde(default)]
pub(in crate::web) struct Asked {
    /// Free words: a number, a size, anything.
    q: String,
    /// Measured figures.
    bore: String,
    od: String,
    width: String,
    /// A type that the form offers, or empty.
    kind: String,
    /// `mm`, `in`, or empty.
    unit: String,
    /// `rule`, `calliper`, `micrometer`, or empty.
    tool: String,
    /// Any text where the part is worn.
    worn: String,
}

impl Asked {
    /// Without signs that a page must not hold, which nobody types.
    fn cleaned(mut self) -> Self {
        for text in [
            &mut self.q,
            &mut self.bore,
            &mut self.od,
            &mut self.width,
            &mut self.kind,
            &mut self.unit,
            &mut self.tool,
            &mut self.worn,
        ] {
            if text.contains(char::is_control) {
                *text = text.replace(char::is_control, " ");
            }
        }
        self
    }

    /// The question as a person would write it at the command line; empty where nothing was asked.
    fn words(&self) -> String {
        self.put_together(str::to_owned)
    }

    /// The same as it is shown: what the form adds to the words of its user is in the language of the page.
    fn shown_words(&self) -> String {
        self.put_together(say)
    }

    fn put_together(&self, say: impl Fn(&str) -> String) -> String {
        let unit = match self.unit.as_str() {
            "in" => " in",
            "mm" => " mm",
            _ => "",
        };
        let mut words: Vec<String> = vec![self.q.trim().to_owned()];
        let figures = [&*self.bore, &*self.od, &*self.width];
        for (name, figure) in fields::said(&self.kind, figures) {
            words.push(format!("{} {figure}{unit}", say(name)));
        }
        if words.iter().all(String::is_empty) {
            return String::new();
        }
        for of_form in [self.kind.trim(), self.tool.trim()] {
            if !of_form.is_empty() {
                words.push(say(of_form));
            }
        }
        if !self.worn.is_empty() {
            words.push(say("worn"));
        }
        words.retain(|word| !word.is_empty());
        words.join(" ")
    }
}

/// The page with the form, and the answer where something was asked.
pub(in crate::web) async fn page(
    State(serving): State<Serving>,
    Extension(role): Extension<Role>,
    AskedIn(asked): AskedIn<Asked>,
) -> Result<Html<String>, Failure> {
    let asked = asked.cleaned();
    let answered = answered(&serving, &asked).await?;
    let body = html! {
        h1 { (say("Which part is it?")) }
        (form(&asked))
        div #answer role="region" aria-label=(say("Answer")) aria-live="polite"
            data-no-answer=(say("No answer")) data-no-network=(say("No network: this is the last answer")) { (answered) }
        p.row.screen-only {
            button type="button" #print hidden { (say("Print this answer")) }
            a #keep href={ "/answer.html" } hidden { (say("Keep as a file")) }
        }
    };
    Ok(frame::page("Look up", role, "/", &body))
}

/// The answer alone, for the script of the page.
pub(in crate::web) async fn answer_only(
    State(serving): State<Serving>,
    AskedIn(asked): AskedIn<Asked>,
) -> Result<Html<String>, Failure> {
    Ok(Html(
        answered(&serving, &asked.cleaned()).await?.into_string(),
    ))
}

/// The answer as one file that needs no network.
pub(in crate::web) async fn to_keep(
    State(serving): State<Serving>,
    AskedIn(asked): AskedIn<Asked>,
) -> Result<Response, Failure> {
    let asked = asked.cleaned();
    let answered = answered(&serving, &asked).await?;
    let page = html! {
        (maud::DOCTYPE)
        html lang=(chosen().code()) {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { (asked.words()) }
                style { (maud::PreEscaped(PAGE_STYLE)) (maud::PreEscaped(PAGE_CSS)) }
            }
            body { main { (answered) } }
        }
    };
    let name = [(CONTENT_DISPOSITION, "attachment; filename=\"answer.html\"")];
    Ok((name, Html(page.into_string())).into_response())
}

async fn answered(serving: &Serving, asked: &Asked) -> Result<Markup, Failure> {
    let words = asked.words();
    if words.is_empty() {
        return Ok(
            html! { p.quiet { (say("Type what is stamped on the part, or what you measured. Half a number will do.")) } },
        );
    }
    let shop = current(serving).await?;
    let question = match &shop {
        Some(shop) => shop.question(&words),
        None => Question::read(&words),
    };
    let question = match question {
        Ok(question) => question,
        Err(error) => return Ok(not_read(&error)),
    };
    let answers = match &shop {
        Some(shop) => shop.answer(&question),
        None => answer(&question, None),
    };
    let on = shop
        .as_ref()
        .map_or_else(|| now().date(), |shop| shop.day());
    Ok(shown(&asked.shown_words(), &question, &answers, on))
}

fn not_read(error: &QuestionError) -> Markup {
    html! { p.none { (say(&error.to_string())) } }
}

fn form(asked: &Asked) -> Markup {
    // The script names the figures anew where another kind is chosen; without it the next page does.
    let labels = fields::of(&asked.kind).labels;
    let figure = |at: usize, name: &str, value: &str| {
        html! {
            label.figure-in { span data-names=(fields::names(at, say)) { (say(labels[at])) }
                input type="text" inputmode="decimal" name=(name) value=(value) autocomplete="off" enterkeyhint="next";
            }
        }
    };
    html! {
        form #ask method="get" action="/" role="search" {
            label.wide-in { span { (say("Number or size, as it stands there")) }
                input type="search" name="q" value=(asked.q) autocomplete="off" autocapitalize="characters" spellcheck="false"
                    placeholder="6308 2RS C3, 40x80x18, 63?6" enterkeyhint="search";
            }
            fieldset {
                legend { (say("or what you measured")) }
                div.figures {
                    (figure(0, "bore", &asked.bore))
                    (figure(1, "od", &asked.od))
                    (figure(2, "width", &asked.width))
                }
                div.figures {
                    label { span { (say("Unit")) } select name="unit" {
                        @for (value, name) in [("", "mm or inch"), ("mm", "mm"), ("in", "inch")] {
                            option value=(value) selected[asked.unit == value] { (say(name)) }
                        }
                    } }
                    label { span { (say("Type")) } select name="kind" {
                        option value="" { (say("not known")) }
                        @for kind in fields::kinds() { option value=(kind) selected[asked.kind == kind] { (say(kind)) } }
                    } }
                    label { span { (say("Measured with")) } select name="tool" {
                        @for (value, name) in [("", "calliper"), ("micrometer", "micrometer"), ("rule", "rule")] {
                            option value=(value) selected[asked.tool == value] { (say(name)) }
                        }
                    } }
                    label.tick { input type="checkbox" name="worn" value="yes" checked[!asked.worn.is_empty()]; span { (say("worn")) } }
                }
            }
            p.row { button type="submit" { (say("Find")) } button type="reset" #clear { (say("Clear")) } }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn asked(pairs: &[(&str, &str)]) -> Asked {
        let mut asked = Asked::default();
        for (name, value) in pairs {
            let value = (*value).to_owned();
            match *name {
                "q" => asked.q = value,
                "bore" => asked.bore = value,
                "od" => asked.od = value,
                "width" => asked.width = value,
                "unit" => asked.unit = value,
                "kind" => asked.kind = value,
                "worn" => asked.worn = value,
                other => panic!("no field {other}"),
            }
        }
        asked
    }

    #[test]
    fn signs_that_steer_become_blanks() {
        let asked = asked(&[("q", "6308\u{1b}[31m\0"), ("bore", "40\n")]).cleaned();
        assert_eq!(
            (asked.q.as_str(), asked.bore.as_str()),
            ("6308 [31m ", "40 ")
        );
        assert_eq!(asked.words(), "6308 [31m bore 40");
    }

    #[test]
    fn figures_become_the_words_a_person_would_write() {
        assert_eq!(asked(&[]).words(), "");
        assert_eq!(
            asked(&[("kind", "deep groove"), ("worn", "yes")]).words(),
            ""
        );
        assert_eq!(asked(&[("q", " 6308 2RS ")]).words(), "6308 2RS");
        assert_eq!(
            asked(&[
                ("bore", "44,96"),
                ("od", "84.9"),
                ("unit", "mm"),
                ("worn", "yes")
            ])
            .words(),
            "bore 44,96 mm od 84.9 mm worn"
        );
        let of_kind = [("kind", "o-ring"), ("bore", "31.34"), ("width", "3.53")];
        assert_eq!(asked(&of_kind).words(), "inside 31.34 section 3.53 o-ring");
    }

    /// The order of the families, those first that are asked for most (common practice, no source).
    #[test]
    fn the_form_offers_a_choice_of_types() {
        let shown = form(&asked(&[("kind", "oil seal")])).into_string();
        let types = [
            "deep groove",
            "angular contact",
            "cylindrical roller",
            "tapered roller",
            "spherical roller",
            "needle roller",
            "thrust ball",
            "oil seal",
            "o-ring",
            "external circlip",
            "internal circlip",
            "dowel pin",
        ];
        let options = types.map(|kind| match kind {
            "oil seal" => format!("<option value=\"{kind}\" selected>{kind}</option>"),
            _ => format!("<option value=\"{kind}\">{kind}</option>"),
        });
        assert!(shown.contains(&options.concat()), "{shown}");
    }

    #[test]
    fn the_figures_are_called_as_the_chosen_kind_has_them() {
        let shown = form(&asked(&[("kind", "o-ring")])).into_string();
        assert!(shown.contains(">Section</span>") && !shown.contains(">Width</span>"));
        // For the script the names of the other kinds are there too.
        assert!(
            shown.contains("&quot;dowel pin&quot;:&quot;Length&quot;"),
            "{shown}"
        );
        let usual = form(&asked(&[])).into_string();
        for label in ["Bore", "Outside", "Width"] {
            assert!(usual.contains(&format!(">{label}</span>")), "{label}");
        }
    }
}
