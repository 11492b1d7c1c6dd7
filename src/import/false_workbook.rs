//! Text and web pages under the name of a workbook, as some systems export them.

/// Bytes looked at.
const BYTES_LOOKED_AT: usize = 1_024;

/// What a file is that begins as no workbook does, and what to do with it; in lower case, as causes are.
pub fn what_it_is(bytes: &[u8]) -> &'static str {
    let head = &bytes[..bytes.len().min(BYTES_LOOKED_AT)];
    let text = String::from_utf8_lossy(head).to_lowercase();
    let text = text.trim_start_matches(|c: char| c == '\u{feff}' || c.is_whitespace());
    let is_page = text.starts_with('<')
        && ["<html", "<!doctype html", "<table", "<body"]
            .iter()
            .any(|element| text.contains(element));
    let is_control = |byte: &u8| *byte < b' ' && !matches!(byte, b'\t' | b'\n' | b'\r');
    if is_page {
        "it is a web page under the name of a workbook, so open it in a spreadsheet program and save it as xlsx"
    } else if text.starts_with("<?xml") {
        "it is an xml text under the name of a workbook, so open it in a spreadsheet program and save it as xlsx"
    } else if text.contains(char::is_alphanumeric) && !head.iter().any(is_control) {
        "it is plain text under the name of a workbook, so let its name end in .csv, or save it as xlsx"
    } else {
        "no workbook begins with these bytes"
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_and_pages_are_told_from_damage() {
        for (bytes, begins) in [
            (&b"Artikel;Bestand\nT-001;4\n"[..], "it is plain text"),
            (b"St\xfcck\tPreis\r\n1\t2\r\n", "it is plain text"),
            (
                b"\n<HTML><body><table><tr><td>Artikel</td>",
                "it is a web page",
            ),
            (b"\xef\xbb\xbf<table><tr><td>1</td>", "it is a web page"),
            (b"<?xml version=\"1.0\"?><Workbook>", "it is an xml text"),
            (b"\x00\x01\x02abc", "no workbook"),
            (b"", "no workbook"),
        ] {
            assert!(what_it_is(bytes).starts_with(begins), "{begins}");
        }
    }
}
