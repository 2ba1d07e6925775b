//! Where the numbers come from.
//!
//! Every parameter names its source as author and year in its own row. "From memory" marks a value
//! that was recalled and not read again in its source; "common practice, no source" marks what
//! beekeepers do without a measurement behind it; "assumed" stands for a plausible value that nobody
//! has measured, as far as we found.
