//! Tests of report.
