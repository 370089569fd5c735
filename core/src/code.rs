//! The plan code: four characters that change whenever a hole changes.
