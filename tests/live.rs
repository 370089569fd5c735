//! Tests of the handheld live on a desktop: its file, its cells, its window.

mod cells;
mod guide;
mod store;
mod window;
