//! Pictures that browsers do not read, or not with all of their 16 bits: TIFF and PNG.

use std::io::{BufRead, Seek};

use tiff::ColorType;
use tiff::decoder::{Decoder, DecodingResult, Limits};

use super::head::{Head, Kind, Unreadable, fits};
use crate::proof::sampling::{Area, Light, Refusal, Sampler, Writing};

/// A picture in memory.
#[derive(Debug)]
pub struct Pixels {
    /// Pixels side by side.
    pub width: u32,
    /// Pixels below one another.
    pub height: u32,
    channels: usize,
    values: Values,
}

#[derive(Debug)]
enum Values {
    Bytes(Vec<u8>),
    Words(Vec<u16>),
}

/// Reads a file of a kind that the browser does not.
///
/// # Errors
///
/// If it is too large, damaged, or written in a way that is not read.
pub fn read(kind: Kind, file: impl BufRead + Seek) -> Result<Pixels, Unreadable> {
    match kind {
        Kind::Tiff => read_tiff(file),
        Kind::DeepPng => read_png(file),
        Kind::Png | Kind::Jpeg => Err(Unreadable::Unusual),
    }
}

impl Pixels {
    /// The largest value.
    pub fn full(&self) -> u16 {
        match self.values {
            Values::Bytes(_) => 255,
            Values::Words(_) => u16::MAX,
        }
    }

    /// The light of an area.
    ///
    /// # Errors
    ///
    /// If the area gives none.
    pub fn light(&self, area: Area, writing: Writing) -> Result<Light, Refusal> {
        let mut sampler = Sampler::new(area.width as usize, area.height as usize, writing)?;
        for row in 0..area.height as usize {
            let start = ((area.top as usize + row) * self.width as usize + area.left as usize) * self.channels;
            let values = start..start + area.width as usize * self.channels;
            match &self.values {
                Values::Bytes(bytes) => sampler.row(row, &bytes[values], self.channels),
                Values::Words(words) => sampler.row(row, &words[values], self.channels),
            }
        }
        sampler.light()
    }

    /// A smaller picture to look at: red, green, blue and opacity, each a byte.
    pub fn smaller(&self, width: u32, height: u32) -> Vec<u8> {
        let mut bytes = Vec::with_capacity(width as usize * height as usize * 4);
        let place =
            |at: u32, of: u32, all: u32| ((u64::from(at) * 2 + 1) * u64::from(all) / (u64::from(of) * 2)) as usize;
        for row in 0..height {
            for column in 0..width {
                let (column, row) = (place(column, width, self.width), place(row, height, self.height));
                let pixel = (row * self.width as usize + column) * self.channels;
                let byte = |channel: usize| match &self.values {
                    Values::Bytes(bytes) => bytes[pixel + channel],
                    Values::Words(words) => (words[pixel + channel] >> 8) as u8,
                };
                let three = if self.channels >= 3 { [0, 1, 2] } else { [0, 0, 0] };
                bytes.extend(three.map(byte));
                bytes.push(255);
            }
        }
        bytes
    }
}

fn read_tiff(file: impl BufRead + Seek) -> Result<Pixels, Unreadable> {
    let mut limits = Limits::default();
    limits.decoding_buffer_size = Head::MOST_BYTES as usize;
    limits.intermediate_buffer_size = Head::MOST_BYTES as usize;
    let mut decoder = Decoder::new(file).map_err(why)?.with_limits(limits);
    let (width, height) = decoder.dimensions().map_err(why)?;
    let (channels, bits) = match decoder.colortype().map_err(why)? {
        ColorType::Gray(bits @ (8 | 16)) => (1, bits),
        ColorType::GrayA(bits @ (8 | 16)) => (2, bits),
        ColorType::RGB(bits @ (8 | 16)) => (3, bits),
        ColorType::RGBA(bits @ (8 | 16)) => (4, bits),
        ColorType::Gray(1..=7) | ColorType::Palette(_) => return Err(Unreadable::TooFewShades),
        _ => return Err(Unreadable::Unusual),
    };
    fits(width, height, channels as u64 * u64::from(bits / 8))?;
    // Channels one after the other, each a whole picture.
    if channels > 1 && decoder.image_buffer_layout().map_err(why)?.planes > 1 {
        return Err(Unreadable::Unusual);
    }
    let values = match decoder.read_image().map_err(why)? {
        DecodingResult::U8(bytes) => Values::Bytes(bytes),
        DecodingResult::U16(words) => Values::Words(words),
        _ => return Err(Unreadable::Unusual),
    };
    whole(Pixels {
        width,
        height,
        channels,
        values,
    })
}

fn read_png(file: impl BufRead + Seek) -> Result<Pixels, Unreadable> {
    let limits = png::Limits {
        bytes: Head::MOST_BYTES as usize,
    };
    let decoder = png::Decoder::new_with_limits(file, limits);
    let mut reader = decoder.read_info().map_err(|_| Unreadable::Broken)?;
    let (width, height) = reader.info().size();
    let channels = reader.info().color_type.samples();
    fits(width, height, channels as u64 * 2)?;
    let mut bytes = vec![0; reader.output_buffer_size().ok_or(Unreadable::TooLarge)?];
    reader.next_frame(&mut bytes).map_err(|_| Unreadable::Broken)?;
    let words = bytes.chunks_exact(2).map(|word| u16::from_be_bytes([word[0], word[1]]));
    whole(Pixels {
        width,
        height,
        channels,
        values: Values::Words(words.collect()),
    })
}

/// As many values as its size says.
fn whole(pixels: Pixels) -> Result<Pixels, Unreadable> {
    let count = match &pixels.values {
        Values::Bytes(bytes) => bytes.len(),
        Values::Words(words) => words.len(),
    };
    let wanted = pixels.width as usize * pixels.height as usize * pixels.channels;
    (count == wanted).then_some(pixels).ok_or(Unreadable::Broken)
}

fn why(error: tiff::TiffError) -> Unreadable {
    match error {
        tiff::TiffError::UnsupportedError(_) => Unreadable::Unusual,
        tiff::TiffError::LimitsExceeded => Unreadable::TooLarge,
        _ => Unreadable::Broken,
    }
}

#[cfg(test)]
mod tests {
    use std::io::Cursor;

    use tiff::encoder::{Compression, DeflateLevel, TiffEncoder, colortype};

    use super::*;
    use crate::proof::sampling::Coding;

    const WIDTH: u32 = 90;
    const HEIGHT: u32 = 50;

    /// A step in the middle: bright on the left, half of it on the right; the three channels differ by 2, and add up to that.
    fn values() -> Vec<u16> {
        let pixel = |at: u32| {
            let value: u16 = if at % WIDTH < WIDTH / 2 { 40_000 } else { 20_000 };
            [value - 2, value, value + 2]
        };
        (0..WIDTH * HEIGHT).flat_map(pixel).collect()
    }

    #[track_caller]
    fn check(kind: Kind, bytes: &[u8]) {
        let pixels = read(kind, Cursor::new(bytes)).expect("it can be read");
        assert_eq!((pixels.width, pixels.height, pixels.full()), (WIDTH, HEIGHT, u16::MAX));
        let writing = Writing {
            coding: Coding::Linear,
            inverted: false,
            full: pixels.full(),
        };
        for (left, wanted) in [(0, 40_000.0), (45, 20_000.0)] {
            let area = Area {
                left,
                top: 9,
                width: 45,
                height: 41,
            };
            let light = pixels.light(area, writing).expect("a light");
            assert!((light.mean() - wanted / 65_535.0).abs() < 1e-9, "{light:?}");
            assert!(light.scatter() < 1e-9, "{light:?}");
        }
        // 40000 / 256 = 156.25 and 20000 / 256 = 78.125.
        assert_eq!(pixels.smaller(2, 1), [156, 156, 156, 255, 78, 78, 78, 255]);
        for end in [9, bytes.len() / 2, bytes.len() - bytes.len() / 8] {
            let early = read(kind, Cursor::new(&bytes[..end])).map(drop);
            assert_eq!(early, Err(Unreadable::Broken), "up to {end}");
        }
    }

    /// Written by the encoder of the same crate; its own tests hold files of others against it.
    #[test]
    fn tiff_of_16_bits_is_read_whole() {
        for compression in [
            Compression::Uncompressed,
            Compression::Lzw,
            Compression::Deflate(DeflateLevel::Balanced),
            Compression::Packbits,
        ] {
            let mut bytes = Vec::new();
            let encoder = TiffEncoder::new(Cursor::new(&mut bytes)).expect("memory");
            let mut encoder = encoder.with_compression(compression);
            encoder
                .write_image::<colortype::RGB16>(WIDTH, HEIGHT, &values())
                .expect("memory");
            // The directory comes last, so that an early end loses it.
            check(Kind::Tiff, &bytes);
        }
    }

    #[test]
    fn png_of_16_bits_is_read_whole() {
        let mut bytes = Vec::new();
        let mut encoder = png::Encoder::new(&mut bytes, WIDTH, HEIGHT);
        encoder.set_color(png::ColorType::Rgb);
        encoder.set_depth(png::BitDepth::Sixteen);
        let words: Vec<u8> = values().into_iter().flat_map(u16::to_be_bytes).collect();
        let mut writer = encoder.write_header().expect("memory");
        writer.write_image_data(&words).expect("memory");
        drop(writer);
        check(Kind::DeepPng, &bytes);
    }
}
