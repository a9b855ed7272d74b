//! Checks against the outside world live in the test targets of this package.
