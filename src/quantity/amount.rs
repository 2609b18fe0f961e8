//! Amount of substance, the measure in which air and preservative meet.

linear! {
    /// An amount of substance, in millimoles. Negative only as a difference.
    Amount, from_millimoles, millimoles, "millimoles"
}
