//! The weather records that come with the program, built into the binary so that it works anywhere.

/// File names as in [`BuiltIn::file`](combcast_core::weather::BuiltIn::file), with what they hold.
const FILES: [(&str, &[u8]); 4] = [
    (
        "seattle-2012-2015.csv",
        include_bytes!("../scenarios/weather/seattle-2012-2015.csv"),
    ),
    (
        "new-york-2012-2015.csv",
        include_bytes!("../scenarios/weather/new-york-2012-2015.csv"),
    ),
    (
        "USC00368449.dly",
        include_bytes!("../scenarios/weather/USC00368449.dly"),
    ),
    (
        "maricopa-2003-2020.txt",
        include_bytes!("../scenarios/weather/maricopa-2003-2020.txt"),
    ),
];

/// The bytes of a shipped file.
///
/// # Panics
/// For a name that no built-in record has; a test goes through all of them.
pub fn bytes(file: &str) -> &'static [u8] {
    FILES
        .iter()
        .find(|(name, _)| *name == file)
        .map(|(_, bytes)| *bytes)
        .expect("every file of a built-in record is listed")
}
