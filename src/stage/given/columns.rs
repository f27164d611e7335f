//! Two-column files: thrust against time, drag coefficient against Mach number.

/// What a two-column file holds.
#[derive(Debug)]
pub(super) struct Columns {
    /// Line that names the columns, counted from 1.
    pub head: usize,
    /// The two names of the first line.
    pub header: [String; 2],
    /// The rows.
    pub rows: Vec<(f64, f64)>,
    /// Line of each row, counted from 1.
    pub lines: Vec<usize>,
}

/// Reads a header line and rows of two numbers. Errors carry the line, counted from 1.
pub(super) fn read(text: &str) -> std::result::Result<Columns, (usize, String)> {
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(true)
        .comment(Some(b'#'))
        .trim(csv::Trim::All)
        .flexible(true)
        .from_reader(text.as_bytes());
    let first = reader.headers().map_err(|error| (1, error.to_string()))?;
    let head = first.position().map_or(1, |place| place.line() as usize);
    let names: Vec<String> = first.iter().map(str::to_owned).collect();
    let header: [String; 2] = names.try_into().map_err(|names: Vec<String>| {
        let found = names.len();
        (
            head,
            format!(
                "the first line must name two columns, it names {found}; write both with their \
                 units, such as \"time s,thrust N\""
            ),
        )
    })?;
    let (mut rows, mut lines) = (Vec::new(), Vec::new());
    for record in reader.records() {
        let record = record.map_err(|error| {
            let line = error.position().map_or(1, |place| place.line() as usize);
            (line, error.to_string())
        })?;
        let line = record.position().map_or(1, |place| place.line() as usize);
        if record.len() != 2 {
            return Err((
                line,
                format!(
                    "two columns are expected, here are {}; write two numbers and a comma",
                    record.len()
                ),
            ));
        }
        let number = |cell: &str| {
            cell.parse::<f64>()
                .ok()
                .filter(|number| number.is_finite())
                .ok_or_else(|| {
                    let problem = "is not a finite number; write one, with a decimal point";
                    (line, format!("\"{cell}\" {problem}"))
                })
        };
        rows.push((number(&record[0])?, number(&record[1])?));
        lines.push(line);
    }
    Ok(Columns {
        head,
        header,
        rows,
        lines,
    })
}
