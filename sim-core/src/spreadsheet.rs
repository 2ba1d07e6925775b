//! Tables as spreadsheets write them: what stands above the heading, what parts the cells, quotes, decimal commas.

/// Where a table begins, and what parts its cells.
pub(crate) struct Opening<'a> {
    /// The table from its heading on.
    pub table: &'a str,
    /// Lines above the heading: empty ones, comments after `#`, and `sep=;`, in which spreadsheets say what parts cells.
    pub lines_before: usize,
    /// A comma, a semicolon or a tab.
    pub separator: char,
}

impl<'a> Opening<'a> {
    /// Finds the heading.
    pub fn of(text: &'a str) -> Self {
        let mut table = text;
        let mut lines_before = 0;
        let mut said = None;
        while let Some((line, rest)) = table.split_once('\n') {
            let separator = separator_said(line);
            if separator.is_none() && !line.trim().is_empty() && !line.starts_with('#') {
                break;
            }
            said = said.or(separator);
            (table, lines_before) = (rest, lines_before + 1);
        }
        Self {
            table,
            lines_before,
            separator: said.unwrap_or_else(|| separator_of(table)),
        }
    }

    /// Cells are parted by semicolons, so that a comma parts the decimals.
    pub fn decimal_comma(&self) -> bool {
        self.separator == ';'
    }

    /// The line, counted in the whole text, of a quote that begins a cell and does not end it; what comes after such a quote
    /// would be one cell with it, up to the next quote or the end. Lines after a `#` are no rows where `comments` are let in.
    pub fn open_quote(&self, comments: bool) -> Option<usize> {
        let mut line = self.lines_before + 1;
        let mut opened = None;
        let mut begins_line = true;
        let mut begins_cell = true;
        let mut letters = self.table.chars().peekable();
        while let Some(letter) = letters.next() {
            if letter == '\n' {
                line += 1;
            }
            if opened.is_some() {
                if letter == '"' && letters.next_if_eq(&'"').is_none() {
                    let ends = |next| next == self.separator || matches!(next, '\r' | '\n');
                    if !letters.clone().find(|next| *next != ' ').is_none_or(ends) {
                        return opened;
                    }
                    opened = None;
                }
            } else if comments && begins_line && letter == '#' {
                while letters.next_if(|next| *next != '\n').is_some() {}
            } else if letter == '"' && begins_cell {
                opened = Some(line);
            }
            begins_line = letter == '\n';
            begins_cell = begins_line || letter == self.separator;
        }
        opened
    }
}

/// What parts the cells by a line such as `sep=;`.
fn separator_said(line: &str) -> Option<char> {
    let line = line.trim_end_matches('\r').trim_matches('"');
    let (name, separator) = line.split_once('=')?;
    let mut letters = separator.chars();
    match (letters.next(), letters.next()) {
        (Some(separator @ (',' | ';' | '\t')), None) if name.eq_ignore_ascii_case("sep") => {
            Some(separator)
        }
        _ => None,
    }
}

/// What parts the cells as most of them stand in the heading.
fn separator_of(table: &str) -> char {
    let heading = table.lines().next().unwrap_or("");
    let count = |separator: char| heading.matches(separator).count();
    [';', '\t']
        .into_iter()
        .find(|&separator| count(separator) > count(','))
        .unwrap_or(',')
}

/// A number with a decimal comma as it is read, `6,5` as `6.5`; dots that part its thousands, `1.234,5`, are left out.
pub(crate) fn with_point(cell: &str) -> String {
    let Some((whole, decimals)) = cell.split_once(',') else {
        return cell.to_owned();
    };
    let mut groups = whole.split('.');
    let first = groups.next().unwrap_or("").trim_start_matches(['-', '+']);
    let parts_thousands = (1..=3).contains(&first.len()) && groups.all(|group| group.len() == 3);
    if parts_thousands {
        format!("{}.{decimals}", whole.replace('.', ""))
    } else {
        format!("{whole}.{decimals}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_table_opens_at_its_heading() {
        for (text, lines, separator) in [
            ("date,notes\n", 0, ','),
            ("# a;b;c\n\ndate;notes\n", 2, ';'),
            ("sep=;\r\ndate,and;notes\r\n", 1, ';'),
            ("\"SEP=,\"\n# more\ndate;a,b\n", 2, ','),
            ("sep=\t\ndate\tnotes", 1, '\t'),
            ("date", 0, ','),
        ] {
            let opening = Opening::of(text);
            assert!(opening.table.starts_with("date"), "{text}");
            assert_eq!(
                (opening.lines_before, opening.separator),
                (lines, separator),
                "{text}"
            );
        }
    }

    #[test]
    fn a_quote_that_is_not_closed_has_its_line() {
        for (rows, line) in [
            ("1,\"calm, \"\"so\"\" calm\"\n2,\"two\nlines\"\n3,", None),
            ("1,\"calm\" \n2,5\" of snow\n2,it \"rained\"\n", None),
            ("1,\"calm\n2,windy\n", Some(3)),
            ("1,x\n2,\"calm\n3,\"windy\"\n", Some(4)),
            ("1,\"calm\" and warm\n", Some(3)),
            ("1,x\n# \"a\n# b,\"c\n2,y\n", Some(5)),
        ] {
            let text = format!("# \"\ndate,notes\n{rows}");
            assert_eq!(Opening::of(&text).open_quote(false), line, "{text}");
        }
        let text = "date,notes\n# b,\"c\n2,y\n";
        assert_eq!(Opening::of(text).open_quote(true), None);
    }

    #[test]
    fn dots_part_thousands_where_a_comma_parts_decimals() {
        for (cell, read) in [
            ("6,5", "6.5"),
            ("1.234,5", "1234.5"),
            ("-1.234.567,25", "-1234567.25"),
            ("6.5", "6.5"),
            ("1.23,5", "1.23.5"),
            ("1,2,3", "1.2,3"),
        ] {
            assert_eq!(with_point(cell), read);
        }
    }
}
