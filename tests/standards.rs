//! What the standards say, row by row, against what the core holds. Expected
//! values are typed in from the document that each row names, never from our
//! own output.

mod distances;
mod figures;
mod hardware;
mod shapes;
mod tape;
mod wood;
