//! A line that tells whether it is whole: `FORMAT CHECKSUM JSON`, the checksum (CRC-32, ISO 3309) over the JSON's bytes.

use std::sync::LazyLock;

use crc::{CRC_32_ISO_HDLC, Crc, Table};

use super::RecordError;

/// With tables for sixteen bytes at a time, since a ledger of ten years is ten thousand lines to check at once; made when they
/// are first needed, since they would be the largest part of the page.
static CHECKSUM: LazyLock<Crc<u32, Table<16>>> = LazyLock::new(|| Crc::<u32, Table<16>>::new(&CRC_32_ISO_HDLC));

/// The line for a JSON text of that format.
pub(crate) fn seal(format: u32, json: &str) -> String {
    format!("{format} {:08x} {json}", checksum(json))
}

/// The JSON of a line of the latest format or an earlier one, if it is what was sealed.
pub(crate) fn unseal(text: &str, latest: u32) -> Result<&str, RecordError> {
    let mut parts = text.splitn(3, ' ');
    let (Some(format), Some(sum), Some(json)) = (parts.next(), parts.next(), parts.next()) else {
        return Err(RecordError::Shape);
    };
    let format: u32 = format.parse().map_err(|_| RecordError::Shape)?;
    if format == 0 {
        return Err(RecordError::Shape);
    }
    if format > latest {
        return Err(RecordError::Later(format));
    }
    let sum = u32::from_str_radix(sum, 16).map_err(|_| RecordError::Shape)?;
    match sum == checksum(json) {
        true => Ok(json),
        false => Err(RecordError::Checksum),
    }
}

/// CRC-32 of a text.
pub(crate) fn checksum(text: &str) -> u32 {
    CHECKSUM.checksum(text.as_bytes())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_checksum_is_the_standard_one() {
        // The check value that CRC-32 (ISO 3309, ITU-T V.42) is known by.
        assert_eq!(checksum("123456789"), 0xCBF4_3926);
        assert_eq!(seal(1, "123456789"), "1 cbf43926 123456789");
    }

    #[test]
    fn only_what_was_sealed_is_unsealed() {
        assert_eq!(unseal("1 cbf43926 123456789", 1), Ok("123456789"));
        assert_eq!(unseal("1 cbf43926 123456788", 1), Err(RecordError::Checksum));
        assert_eq!(unseal("2 cbf43926 123456789", 1), Err(RecordError::Later(2)));
        for text in [
            "",
            "1",
            "1 cbf43926",
            "one cbf43926 1",
            "0 cbf43926 123456789",
            "1 no 123456789",
        ] {
            assert_eq!(unseal(text, 1), Err(RecordError::Shape), "{text}");
        }
    }
}
