//! Columns that line up, for terminals and files.
//!
//! Must not know: what stands in them.

/// Spaces between columns.
const GAP: usize = 2;

/// Rows set in columns: the first column to the left, all others to the right. The first row is the
/// heading; it is set off by an empty line before it.
pub fn table(rows: &[Vec<String>]) -> String {
    let columns = rows.iter().map(Vec::len).max().unwrap_or(0);
    let width = |column: usize| {
        let cells = rows.iter().filter_map(|row| row.get(column));
        cells.map(|cell| cell.chars().count()).max().unwrap_or(0)
    };
    let widths: Vec<usize> = (0..columns).map(width).collect();
    let mut out = String::from("\n");
    for row in rows {
        let mut line = String::new();
        for (column, (cell, width)) in row.iter().zip(&widths).enumerate() {
            if column == 0 {
                line += &format!("{cell:<width$}");
            } else {
                line += &format!("{:GAP$}{cell:>width$}", "");
            }
        }
        out += line.trim_end();
        out.push('\n');
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_line_up_by_characters() {
        let rows = [["Rad", "Zähne"], ["Kurbelwelle", "24"], ["Öl", "−8"]];
        let rows = rows.map(|row| row.map(str::to_owned).to_vec());
        assert_eq!(table(&rows), "\nRad          Zähne\nKurbelwelle     24\nÖl              −8\n");
    }
}
