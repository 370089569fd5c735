//! Tests of survey.
