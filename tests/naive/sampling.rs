//! Densities from a scan, pixel by pixel: the transfer function as the standard writes it, means over lists of pixels, and the
//! scatter of densities that were drawn again and again.

use std::f64::consts::{LN_10, LOG10_2};

use meniscus::proof::sampling::{Area, Coding, Density, Light, Refusal, Sampler, Writing, densities};

use super::near;

const SIDE: usize = 64;

fn sample<V: Copy + Into<u16>>(
    values: &[V],
    width: usize,
    channels: usize,
    writing: Writing,
) -> Result<Light, Refusal> {
    let height = values.len() / width / channels;
    let mut sampler = Sampler::new(width, height, writing)?;
    for (row, values) in values.chunks_exact(width * channels).enumerate() {
        sampler.row(row, values, channels);
    }
    sampler.light()
}

fn eight(coding: Coding) -> Writing {
    Writing {
        coding,
        inverted: false,
        full: 255,
    }
}

fn sixteen(coding: Coding) -> Writing {
    Writing {
        full: 65_535,
        ..eight(coding)
    }
}

/// A generator of its own: a shift register (Marsaglia, Xorshift RNGs, J. Stat. Software 8, 2003, from memory).
struct Register(u64);

impl Register {
    /// Even between 0 and 1.
    fn share(&mut self) -> f64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) as f64 / (1u64 << 53) as f64
    }

    /// Nearly normal, with a standard deviation of 1: twelve shares less six.
    fn normal(&mut self) -> f64 {
        (0..12).map(|_| self.share()).sum::<f64>() - 6.0
    }
}

/// IEC 61966-2-1:1999, 5.2, the linear values worked out by hand with another program; 0.04045 is where its two parts meet.
#[test]
fn the_transfer_function_of_the_standard() {
    for (value, light) in [
        (0.0, 0.0),
        (0.02, 0.001_547_988),
        (10.0 / 255.0, 0.003_035_270),
        (0.04045, 0.003_130_805),
        (11.0 / 255.0, 0.003_346_536),
        (0.5, 0.214_041_140),
        (128.0 / 255.0, 0.215_860_500),
        (188.0 / 255.0, 0.502_886_458),
        (1.0, 1.0),
    ] {
        near(&format!("light of {value}"), Coding::Srgb.light(value), light, 5e-10);
    }
}

/// D = log10(1 / T) is the definition (ISO 5-2, from memory); half the light is log10(2) = 0.30103, a tenth is 1.
#[test]
fn known_patches_have_known_densities() {
    for (coding, base, patch) in [
        (Coding::Linear, 60_000_u16, 30_000_u16),
        (Coding::gamma(2.0).expect("a power"), 60_000, 42_426),
        // 0.8 is 0.603827 of the light; half of that, 0.301914, is the value 0.585526.
        (Coding::Srgb, 52_428, 38_372),
    ] {
        let light = |value| sample(&[value; SIDE * SIDE], SIDE, 1, sixteen(coding)).expect("a light");
        let density = Density::between(&light(base), &light(patch)).expect("a density");
        near("half the light", density.value, LOG10_2, 2e-5);
    }
    let light = |value| sample(&[value; SIDE * SIDE], SIDE, 1, eight(Coding::Linear)).expect("a light");
    for (patch, wanted) in [(20, 1.0), (2, 2.0), (100, LOG10_2)] {
        let density = Density::between(&light(200), &light(patch as u8)).expect("a density");
        near("against 200", density.value, wanted, 5e-6);
        // One step of the code is 1 of the value: 1 / √12 of it, relative to both values, over ln 10.
        let by_hand = 0.288_675 * (1.0 / 200f64.powi(2) + 1.0 / f64::from(patch).powi(2)).sqrt() / LN_10;
        near("its uncertainty", density.standard_uncertainty, by_hand, 1e-6);
    }
}

/// The mean of linear light, the channels together and the fourth left out; a mean of code would be another.
#[test]
fn light_is_averaged_and_not_code() {
    let mut register = Register(7);
    let values: Vec<u8> = (0..SIDE * SIDE * 4)
        .map(|_| 40 + (register.share() * 160.0) as u8)
        .collect();
    let linear = |value: u8| ((f64::from(value) / 255.0 + 0.055) / 1.055).powf(2.4);
    let mut sum = 0.0;
    for pixel in values.chunks_exact(4) {
        sum += (linear(pixel[0]) + linear(pixel[1]) + linear(pixel[2])) / 3.0;
    }
    let found = sample(&values, SIDE, 4, eight(Coding::Srgb)).expect("a light");
    near("the mean", found.mean(), sum / (SIDE * SIDE) as f64, 1e-12);
    let code: f64 = values.iter().map(|value| f64::from(*value)).sum::<f64>() / values.len() as f64;
    assert!((found.mean() - linear(code as u8)).abs() > 0.01);
    // What is inverted is turned back first.
    let turned: Vec<u8> = values.iter().map(|value| 255 - value).collect();
    let inverted = Writing {
        inverted: true,
        ..eight(Coding::Srgb)
    };
    assert_eq!(sample(&turned, SIDE, 4, inverted), Ok(found));
}

/// The scatter of cells by lists of their pixels, with sides that are no multiples of eight.
#[test]
fn the_scatter_of_cells_by_lists() {
    let (width, height) = (83, 45);
    let mut register = Register(11);
    let value = |_| 20_000 + (register.share() * 9_000.0) as u16;
    let values: Vec<u16> = (0..width * height).map(value).collect();
    let of_cells = |count: usize| {
        let mut cells = vec![Vec::new(); count * count];
        for (index, value) in values.iter().enumerate() {
            // The small cells are the eighths; larger ones are made of them.
            let (column, row) = (index % width * 8 / width, index / width * 8 / height);
            cells[row * count / 8 * count + column * count / 8].push(f64::from(*value) / 65_535.0);
        }
        let means: Vec<f64> = cells
            .iter()
            .map(|cell| cell.iter().sum::<f64>() / cell.len() as f64)
            .collect();
        let number = means.len() as f64;
        // The variance as half the mean square of all differences of two.
        let mut squares = 0.0;
        for one in &means {
            for other in &means {
                squares += (one - other).powi(2);
            }
        }
        (squares / (2.0 * number * (number - 1.0)) / number).sqrt()
    };
    let found = sample(&values, width, 1, sixteen(Coding::Linear)).expect("a light");
    near("the scatter", found.scatter(), of_cells(8).max(of_cells(4)), 1e-12);
}

/// A strip drawn 400 times: base and patch with grain that reaches over three pixels. The densities scatter as they say they do.
#[test]
fn densities_scatter_as_they_say() {
    let mut register = Register(23);
    let grainy = |mean: f64, register: &mut Register| {
        let wide = SIDE + 2;
        let noise: Vec<f64> = (0..wide * wide).map(|_| register.normal()).collect();
        let mut values = Vec::new();
        for row in 0..SIDE {
            for column in 0..SIDE {
                let block = (0..9).map(|at| noise[(row + at / 3) * wide + column + at % 3]);
                values.push((mean * (1.0 + 0.1 * block.sum::<f64>() / 3.0)) as u16);
            }
        }
        sample(&values, SIDE, 1, sixteen(Coding::Linear)).expect("a light")
    };
    let mut found = Vec::new();
    let mut said = 0.0;
    for _ in 0..400 {
        let density = Density::between(&grainy(50_000.0, &mut register), &grainy(12_000.0, &mut register));
        let density = density.expect("a density");
        said += density.standard_uncertainty / 400.0;
        found.push(density.value);
    }
    let mean = found.iter().sum::<f64>() / 400.0;
    let scatter = (found.iter().map(|one| (one - mean).powi(2)).sum::<f64>() / 399.0).sqrt();
    near("the mean", mean, (50_000f64 / 12_000.0).log10(), 4.0 * scatter / 20.0);
    // 400 draws know their scatter to 3.5 %; what is said is some 7 % more, less what blur still carries between cells.
    near("said against found", said / scatter, 1.03, 0.13);
    // With every pixel taken as independent it would be said to be a third: the blur is over nine.
    let naive = 0.1 * 2f64.sqrt() / SIDE as f64 / 10f64.ln();
    assert!(scatter > 2.0 * naive, "{scatter} against {naive}");
}

/// What gives no density, each with its reason; no outside source: these are our own rules.
#[test]
fn what_is_refused() {
    let writing = eight(Coding::Srgb);
    let flat = |value: u8, other: usize, end: u8| {
        let mut values = vec![value; 100 * 100];
        values[..other].fill(end);
        sample(&values, 100, 1, writing)
    };
    assert_eq!(sample(&[9u8; 31 * 64], 31, 1, writing), Err(Refusal::TooSmall));
    assert_eq!(sample(&[9u8; 31 * 64], 64, 1, writing), Err(Refusal::TooSmall));
    assert_eq!(flat(90, 51, 255), Err(Refusal::White));
    assert_eq!(flat(90, 51, 0), Err(Refusal::Black));
    assert!(flat(90, 50, 255).is_ok() && flat(90, 50, 0).is_ok());

    let area = |left| Area {
        left,
        top: 0,
        width: 40,
        height: 40,
    };
    let light = |area: Area| match area.left {
        0 => flat(200, 0, 0),
        80 => Err(Refusal::Black),
        120 => flat(230, 0, 0),
        left => flat(200 - left as u8, 0, 0),
    };
    let said = |areas: &[Option<u32>]| {
        let areas: Vec<Option<Area>> = areas.iter().map(|left| left.map(area)).collect();
        let said = densities(&areas, light).into_iter();
        said.map(|one| one.map(|one| one.err())).collect::<Vec<_>>()
    };
    let fine = Some(None);
    let no = |refusal| Some(Some(refusal));
    assert_eq!(said(&[]), []);
    assert_eq!(said(&[Some(0), Some(40), None, Some(60)]), [fine, fine, None, fine]);
    assert_eq!(
        said(&[Some(0), Some(0), Some(40), Some(40), Some(80), Some(120)]),
        [
            fine,
            no(Refusal::SameAsBase),
            fine,
            no(Refusal::SameAsAnother),
            no(Refusal::Black),
            no(Refusal::Brighter)
        ]
    );
    assert_eq!(said(&[None, Some(40)]), [None, no(Refusal::NoBase)]);
    assert_eq!(said(&[Some(80), Some(40)]), [no(Refusal::Black), no(Refusal::NoBase)]);
}
