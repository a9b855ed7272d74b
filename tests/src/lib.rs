//! Checks against outside sources live in the test targets of this package.
