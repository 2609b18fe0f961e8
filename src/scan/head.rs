//! What a file is, by its first bytes, and why it may not be read.

use std::fmt;

/// How a picture is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// PNG of 8 bits.
    Png,
    /// PNG of 16 bits.
    DeepPng,
    /// JPEG.
    Jpeg,
    /// TIFF.
    Tiff,
}

/// What the beginning of a file says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Head {
    /// How it is written.
    pub kind: Kind,
    /// Its width and height in pixels, where they stand at the beginning.
    pub size: Option<(u32, u32)>,
}

/// Why a picture cannot be sampled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unreadable {
    /// It is none, or of another kind.
    NotAPicture,
    /// More than a phone can hold.
    TooLarge,
    /// Fewer than 256 shades, or a list of colours.
    TooFewShades,
    /// Written in a way that is not read here.
    Unusual,
    /// It ends early, or does not fit together.
    Broken,
}

impl fmt::Display for Unreadable {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NotAPicture => "this is no picture that can be read here: choose a PNG, JPEG or TIFF file",
            Self::TooLarge => "this picture is too large: cut it down to the strip, or scan at fewer dots per inch",
            Self::TooFewShades => "this picture has too few shades: save the scan in grey or RGB with 8 or 16 bits",
            Self::Unusual => {
                "this way of writing a picture is not read here: save the scan in grey or RGB with 8 or 16 bits, as PNG, or as TIFF \
                 without layers and without JPEG inside"
            }
            Self::Broken => "this file is damaged, or was not copied to its end: copy it again, or scan again",
        })
    }
}

impl Head {
    /// So many bytes are enough, unless a JPEG file holds much else first.
    pub const BYTES: usize = 1 << 20;

    /// Most pixels: a roll of 36 frames at once at 2400 dots per inch has half as many (arithmetic from the size of a frame).
    pub const MOST_PIXELS: u64 = 200_000_000;

    /// Most bytes in memory.
    pub const MOST_BYTES: u64 = 512 << 20;

    /// Reads the beginning of a file (PNG: ISO/IEC 15948, 5.2 and 11.2.2; JPEG: ITU-T T.81, annex B; TIFF 6.0, section 2).
    ///
    /// # Errors
    ///
    /// If it is no picture that can be sampled.
    pub fn read(bytes: &[u8]) -> Result<Self, Unreadable> {
        let head = match bytes {
            [0x89, b'P', b'N', b'G', 0x0d, 0x0a, 0x1a, 0x0a, ..] => png(bytes)?,
            [0xff, 0xd8, 0xff, ..] => jpeg(bytes)?,
            [b'I', b'I', 42, 0, ..] | [b'M', b'M', 0, 42, ..] => Self {
                kind: Kind::Tiff,
                size: None,
            },
            _ => return Err(Unreadable::NotAPicture),
        };
        // In the browser a picture takes four bytes for each pixel.
        if let Some((width, height)) = head.size {
            fits(width, height, 4)?;
        }
        Ok(head)
    }
}

/// Whether a picture can be held.
///
/// # Errors
///
/// If it is too large, or has no pixels.
pub fn fits(width: u32, height: u32, bytes_each: u64) -> Result<(), Unreadable> {
    let pixels = u64::from(width) * u64::from(height);
    if pixels == 0 {
        return Err(Unreadable::Broken);
    }
    let fits = pixels <= Head::MOST_PIXELS && pixels * bytes_each <= Head::MOST_BYTES;
    fits.then_some(()).ok_or(Unreadable::TooLarge)
}

/// Whether the end of a file is that of a whole picture. Browsers show what they have of one that ends early.
pub fn is_whole(kind: Kind, end: &[u8]) -> bool {
    let mark: &[u8] = match kind {
        Kind::Png | Kind::DeepPng => b"IEND",
        Kind::Jpeg => &[0xff, 0xd9],
        // Read strip by strip, and missed where it is missing.
        Kind::Tiff => return true,
    };
    end.windows(mark.len()).any(|window| window == mark)
}

fn png(bytes: &[u8]) -> Result<Head, Unreadable> {
    let (Some(width), Some(height), Some([depth, colour])) = (number(bytes, 16), number(bytes, 20), bytes.get(24..26))
    else {
        return Err(Unreadable::Broken);
    };
    let kind = match (depth, colour) {
        (8, 0 | 2 | 4 | 6) => Kind::Png,
        (16, 0 | 2 | 4 | 6) => Kind::DeepPng,
        (1 | 2 | 4, 0) | (1 | 2 | 4 | 8, 3) => return Err(Unreadable::TooFewShades),
        _ => return Err(Unreadable::Broken),
    };
    Ok(Head {
        kind,
        size: Some((width, height)),
    })
}

/// Segment by segment to the one that says how large the frame is.
fn jpeg(bytes: &[u8]) -> Result<Head, Unreadable> {
    let mut at = 2;
    let size = loop {
        match bytes.get(at..) {
            // A fill byte.
            Some([0xff, 0xff, ..]) => at += 1,
            Some([0xff, 0xc0..=0xcf, _, _, depth, high, low, wide, narrow, channels, ..])
                if ![0xc4, 0xc8, 0xcc].contains(&bytes[at + 1]) =>
            {
                if *depth != 8 || ![1, 3].contains(channels) {
                    return Err(Unreadable::Unusual);
                }
                let pixels = |high, low| u32::from(u16::from_be_bytes([high, low]));
                break Some((pixels(*wide, *narrow), pixels(*high, *low)));
            }
            Some([0xff, _, long, short, ..]) => at += 2 + usize::from(u16::from_be_bytes([*long, *short])),
            Some([first, ..]) if *first != 0xff => return Err(Unreadable::Broken),
            // Something long comes before it, or the file ends.
            _ => break None,
        }
    };
    Ok(Head { kind: Kind::Jpeg, size })
}

fn number(bytes: &[u8], at: usize) -> Option<u32> {
    let four = bytes.get(at..at + 4)?;
    Some(u32::from_be_bytes(four.try_into().ok()?))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The head of a PNG file by ISO/IEC 15948: signature, length 13, name, width, height, depth, colour type.
    fn head_of_png(width: u32, height: u32, depth: u8, colour: u8) -> Vec<u8> {
        let mut bytes = b"\x89PNG\r\n\x1a\n\0\0\0\x0dIHDR".to_vec();
        bytes.extend(width.to_be_bytes());
        bytes.extend(height.to_be_bytes());
        bytes.extend([depth, colour, 0, 0, 0]);
        bytes
    }

    #[test]
    fn files_are_known_by_their_first_bytes() {
        let is = |kind, width, height| {
            Ok(Head {
                kind,
                size: Some((width, height)),
            })
        };
        assert_eq!(Head::read(&head_of_png(6000, 4000, 8, 2)), is(Kind::Png, 6000, 4000));
        assert_eq!(Head::read(&head_of_png(600, 400, 16, 0)), is(Kind::DeepPng, 600, 400));
        // Start, an application's segment of 4 bytes, a fill byte, a progressive frame of 300 by 200 with three channels (T.81, B.2.2).
        let jpeg = b"\xff\xd8\xff\xe1\0\x04ab\xff\xff\xc2\0\x11\x08\0\xc8\x01\x2c\x03rest";
        assert_eq!(Head::read(jpeg), is(Kind::Jpeg, 300, 200));
        let early = Head {
            kind: Kind::Jpeg,
            size: None,
        };
        assert_eq!(Head::read(&jpeg[..12]), Ok(early));
        for tiff in [b"II\x2a\0\x08\0\0\0", b"MM\0\x2a\0\0\0\x08"] {
            assert_eq!(Head::read(tiff).map(|head| head.kind), Ok(Kind::Tiff));
        }
    }

    #[test]
    fn what_cannot_be_sampled_says_why() {
        for (bytes, why) in [
            (Vec::new(), Unreadable::NotAPicture),
            (b"a letter".to_vec(), Unreadable::NotAPicture),
            (b"GIF89a".to_vec(), Unreadable::NotAPicture),
            (head_of_png(9, 9, 8, 3), Unreadable::TooFewShades),
            (head_of_png(9, 9, 1, 0), Unreadable::TooFewShades),
            (head_of_png(0, 9, 8, 0), Unreadable::Broken),
            (head_of_png(9, 9, 8, 0)[..20].to_vec(), Unreadable::Broken),
            (head_of_png(20_000, 20_000, 8, 0), Unreadable::TooLarge),
            (head_of_png(u32::MAX, u32::MAX, 8, 0), Unreadable::TooLarge),
            (
                b"\xff\xd8\xff\xc0\0\x14\x08\0\xc8\x01\x2c\x04rest".to_vec(),
                Unreadable::Unusual,
            ),
            (b"\xff\xd8\xff\xe1\0\x02ab".to_vec(), Unreadable::Broken),
        ] {
            assert_eq!(Head::read(&bytes), Err(why), "{bytes:?}");
        }
    }

    #[test]
    fn a_picture_that_ends_early_is_noticed() {
        assert!(is_whole(Kind::Png, b"....IEND\xaeB`\x82") && !is_whole(Kind::Png, b"....IDAT"));
        assert!(is_whole(Kind::Jpeg, b"..\xff\xd9\0\0") && !is_whole(Kind::Jpeg, b"..\xff\xd8"));
    }
}
