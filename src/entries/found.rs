//! What a test found, as the ledger writes it down.

use crate::ledger::{BottleId, TestResult, Thousandths, What};
use crate::proof::{Finding, Outcome};

/// What is to be written down of the bottle that was tested, and, where another stood beside it as fresh, of that one.
///
/// ```
/// use meniscus::entries::found;
/// use meniscus::ledger::{BottleId, What};
/// use meniscus::proof::{Finding, Outcome, TestKind};
///
/// let finding = Finding { test: TestKind::Clip, outcome: Outcome::Passed, remark: String::new() };
/// let whats = found(&finding, &BottleId::new("blue-1")?, None);
/// assert!(matches!(&whats[..], [What::Tested { .. }]));
/// # Ok::<(), meniscus::ledger::IdError>(())
/// ```
pub fn found(finding: &Finding, bottle: &BottleId, beside: Option<(&BottleId, &str)>) -> Vec<What> {
    let result = match finding.outcome {
        Outcome::Passed => TestResult::Passed,
        Outcome::Seen => TestResult::Seen,
        Outcome::Failed => TestResult::Failed,
        Outcome::Strength { strength, uncertainty } => TestResult::Strength {
            strength: Thousandths::nearest(strength),
            uncertainty: Some(Thousandths::nearest(uncertainty)),
        },
    };
    let tested = What::Tested {
        bottle: bottle.clone(),
        test: finding.test,
        result,
        note: finding.remark.clone(),
    };
    let stood_beside = beside.map(|(reference, product)| What::Note {
        bottle: Some(reference.clone()),
        text: ["Stood as fresh in a ", finding.test.name(), " of ", product, "."].concat(),
    });
    stood_beside.into_iter().chain([tested]).collect()
}
