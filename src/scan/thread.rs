//! wasm only: the thread of a picture. It holds one picture, and answers with the densities of its areas.
//!
//! A message that it gets is a file, or a list: `round, coding, gamma, inverted, places`, with four numbers for each area, in
//! hundredths of the picture, not a number where an area is not drawn. It answers `here, width, height, bits, picture to look at`,
//! or `not, sentence`, or `round, areas`, each of these null or `whether it is fine, text`.

use std::cell::RefCell;
use std::io::{self, BufReader, Read, Seek, SeekFrom};

use js_sys::{Array, ArrayBuffer, Float64Array, Function, Object, Promise, Reflect, Uint8Array};
use wasm_bindgen::prelude::*;
use wasm_bindgen::{Clamped, JsCast};
use web_sys::{
    Blob, DedicatedWorkerGlobalScope, FileReaderSync, ImageBitmap, ImageData, OffscreenCanvas,
    OffscreenCanvasRenderingContext2d,
};

use super::head::{Head, Kind, Unreadable, fits, is_whole};
use super::pixels::{self, Pixels};
use crate::fields::sentence;
use crate::proof::sampling::{Area, Coding, Density, Light, Refusal, Sampler, Writing, densities};

/// Most pixels of the picture to look at, each way: a phone's screen has not many more.
const LOOK: (u32, u32) = (1200, 1600);

/// Pixels that are read at once: four megabytes.
const TILE: u32 = 1 << 20;

/// The end of a file in which its last mark is looked for: some programs write something behind it.
const END: f64 = 65_536.0;

enum Picture {
    OfBrowser(ImageBitmap),
    Own(Pixels),
}

type Measured = ((Area, Writing), Result<Light, Refusal>);

thread_local! {
    static PICTURE: RefCell<Option<Picture>> = const { RefCell::new(None) };
    /// What was measured already.
    static MEASURED: RefCell<Vec<Measured>> = const { RefCell::new(Vec::new()) };
}

#[wasm_bindgen]
extern "C" {
    #[wasm_bindgen(js_name = createImageBitmap, catch)]
    fn create_image_bitmap(file: &Blob, options: &JsValue) -> Result<Promise, JsValue>;

    /// A promise with a function for either end.
    type Either;

    #[wasm_bindgen(method)]
    fn then(this: &Either, kept: &Function, broken: &Function) -> Promise;
}

/// Takes a message in the thread of a picture.
#[wasm_bindgen]
pub fn take(message: JsValue) {
    if let Some(file) = message.dyn_ref::<Blob>() {
        if let Err(why) = open(file) {
            refuse(why);
        }
    } else if let Ok(asked) = message.dyn_into::<Array>() {
        answer(&measure(&asked), None);
    }
}

fn open(file: &Blob) -> Result<(), Unreadable> {
    let beginning = bytes(file, 0.0, Head::BYTES as f64).map_err(|_| Unreadable::Broken)?;
    let kind = Head::read(&beginning)?.kind;
    let end = bytes(file, (file.size() - END).max(0.0), file.size()).map_err(|_| Unreadable::Broken)?;
    if !is_whole(kind, &end) {
        return Err(Unreadable::Broken);
    }
    match kind {
        Kind::DeepPng | Kind::Tiff => {
            let file = BufReader::with_capacity(1 << 18, Reading { file, at: 0 });
            show(Picture::Own(pixels::read(kind, file)?))
        }
        Kind::Png | Kind::Jpeg => {
            // The values as they stand in the file: neither a profile nor transparency is worked into them.
            let options = Object::new();
            for (name, value) in [("colorSpaceConversion", "none"), ("premultiplyAlpha", "none")] {
                Reflect::set(&options, &name.into(), &value.into()).map_err(|_| Unreadable::Broken)?;
            }
            let promise = create_image_bitmap(file, &options).map_err(|_| Unreadable::Broken)?;
            let kept = Closure::once_into_js(|bitmap: JsValue| {
                let shown = bitmap.dyn_into().map_err(|_| Unreadable::Broken);
                if let Err(why) = shown.and_then(|bitmap| show(Picture::OfBrowser(bitmap))) {
                    refuse(why);
                }
            });
            let broken = Closure::once_into_js(|_: JsValue| refuse(Unreadable::Broken));
            let promise: &Either = promise.unchecked_ref();
            drop(promise.then(kept.unchecked_ref(), broken.unchecked_ref()));
            Ok(())
        }
    }
}

/// Keeps the picture, and answers with a smaller one to look at.
fn show(picture: Picture) -> Result<(), Unreadable> {
    let (width, height, bits) = match &picture {
        Picture::OfBrowser(bitmap) => (bitmap.width(), bitmap.height(), 8),
        Picture::Own(pixels) => (pixels.width, pixels.height, if pixels.full() > 255 { 16 } else { 8 }),
    };
    fits(width, height, 1)?;
    let scale = [(LOOK.0, width), (LOOK.1, height)]
        .map(|(most, is)| f64::from(most) / f64::from(is))
        .into_iter()
        .fold(1.0, f64::min);
    let [wide, high] = [width, height].map(|pixels| ((f64::from(pixels) * scale).round() as u32).max(1));
    let small = smaller(&picture, wide, high).map_err(|_| Unreadable::TooLarge)?;
    PICTURE.set(Some(picture));
    let reply: [JsValue; 5] = ["here".into(), width.into(), height.into(), bits.into(), (&small).into()];
    answer(&reply.iter().collect(), Some(&small));
    Ok(())
}

fn smaller(picture: &Picture, width: u32, height: u32) -> Result<ImageBitmap, JsValue> {
    let canvas = OffscreenCanvas::new(width, height)?;
    let context = context(&canvas)?;
    match picture {
        Picture::OfBrowser(bitmap) => {
            context.set_image_smoothing_enabled(true);
            context.draw_image_with_image_bitmap_and_dw_and_dh(bitmap, 0.0, 0.0, width.into(), height.into())?;
        }
        Picture::Own(pixels) => {
            let bytes = pixels.smaller(width, height);
            let data = ImageData::new_with_u8_clamped_array_and_sh(Clamped(&bytes), width, height)?;
            context.put_image_data(&data, 0.0, 0.0)?;
        }
    }
    canvas.transfer_to_image_bitmap()
}

/// What the areas say.
fn measure(asked: &Array) -> Array {
    let number = |at: u32| asked.get(at).as_f64().unwrap_or_default();
    let coding = match number(1) as u32 {
        0 => Coding::Srgb,
        1 => Coding::Linear,
        _ => Coding::gamma(number(2)).unwrap_or(Coding::Srgb),
    };
    let places = Float64Array::from(asked.get(4)).to_vec();
    let found = PICTURE.with_borrow(|picture| {
        let picture = picture.as_ref()?;
        let (size, full) = match picture {
            Picture::OfBrowser(bitmap) => ((bitmap.width(), bitmap.height()), 255),
            Picture::Own(pixels) => ((pixels.width, pixels.height), pixels.full()),
        };
        let writing = Writing {
            coding,
            inverted: asked.get(3).is_truthy(),
            full,
        };
        let area = |four: &[f64]| {
            let four: [f64; 4] = four.try_into().ok()?;
            let is_drawn = four.iter().all(|number| number.is_finite());
            is_drawn.then(|| Area::of_percent(four, size))
        };
        let areas: Vec<Option<Area>> = places.chunks_exact(4).map(area).collect();
        Some(densities(&areas, |area| remembered(picture, area, writing)))
    });
    let found = found.unwrap_or_default();
    let said = found
        .iter()
        .enumerate()
        .map(|(area, found)| said(area == 0, found.as_ref()));
    [asked.get(0), said.collect::<Array>().into()].iter().collect()
}

fn said(is_base: bool, found: Option<&Result<Density, Refusal>>) -> JsValue {
    let Some(found) = found else { return JsValue::NULL };
    let text = match found {
        Ok(_) if is_base => "measured".to_owned(),
        Ok(density) => density.to_string(),
        Err(refusal) => sentence(&refusal.to_string()),
    };
    [JsValue::from(found.is_ok()), text.into()]
        .iter()
        .collect::<Array>()
        .into()
}

/// The light of an area, measured once.
fn remembered(picture: &Picture, area: Area, writing: Writing) -> Result<Light, Refusal> {
    let known = |measured: &Vec<Measured>| {
        measured
            .iter()
            .find(|(of, _)| *of == (area, writing))
            .map(|known| known.1)
    };
    if let Some(light) = MEASURED.with_borrow(known) {
        return light;
    }
    let light = match picture {
        // What cannot be read has no pixels that could be told from transparent ones.
        Picture::OfBrowser(bitmap) => of_browser(bitmap, area, writing).unwrap_or(Err(Refusal::Transparent)),
        Picture::Own(pixels) => pixels.light(area, writing),
    };
    MEASURED.with_borrow_mut(|measured| {
        // Areas that were moved about.
        if measured.len() >= 64 {
            measured.clear();
        }
        measured.push(((area, writing), light));
    });
    light
}

fn of_browser(bitmap: &ImageBitmap, area: Area, writing: Writing) -> Result<Result<Light, Refusal>, JsValue> {
    let mut sampler = match Sampler::new(area.width as usize, area.height as usize, writing) {
        Ok(sampler) => sampler,
        Err(refusal) => return Ok(Err(refusal)),
    };
    let rows = (TILE / area.width).max(1).min(area.height);
    let canvas = OffscreenCanvas::new(area.width, rows)?;
    let context = context(&canvas)?;
    let (wide, high) = (f64::from(area.width), f64::from(rows));
    for start in (0..area.height).step_by(rows as usize) {
        let (left, top) = (f64::from(area.left), f64::from(area.top + start));
        // What lies below the area is not read.
        context.draw_image_with_image_bitmap_and_sw_and_sh_and_dx_and_dy_and_dw_and_dh(
            bitmap, left, top, wide, high, 0.0, 0.0, wide, high,
        )?;
        let here = rows.min(area.height - start);
        let Clamped(bytes) = context.get_image_data(0.0, 0.0, wide, here.into())?.data();
        if bytes.chunks_exact(4).any(|pixel| pixel[3] < 255) {
            return Ok(Err(Refusal::Transparent));
        }
        for (row, bytes) in bytes.chunks_exact(area.width as usize * 4).enumerate() {
            sampler.row(start as usize + row, bytes, 4);
        }
    }
    Ok(sampler.light())
}

/// What draws on a canvas that is read back: pixel on pixel, whatever stood there.
fn context(canvas: &OffscreenCanvas) -> Result<OffscreenCanvasRenderingContext2d, JsValue> {
    let options = Object::new();
    Reflect::set(&options, &"willReadFrequently".into(), &true.into())?;
    let context = canvas.get_context_with_context_options("2d", &options)?;
    let context: OffscreenCanvasRenderingContext2d = context.ok_or(JsValue::NULL)?.dyn_into()?;
    context.set_image_smoothing_enabled(false);
    context.set_global_composite_operation("copy")?;
    Ok(context)
}

fn refuse(why: Unreadable) {
    let reply: [JsValue; 2] = ["not".into(), JsValue::from(sentence(&why.to_string()))];
    answer(&reply.iter().collect(), None);
}

fn answer(reply: &Array, given_away: Option<&ImageBitmap>) {
    let scope: DedicatedWorkerGlobalScope = js_sys::global().unchecked_into();
    let given_away: Array = given_away.into_iter().collect();
    let sent = scope.post_message_with_transfer(reply, &given_away);
    debug_assert!(sent.is_ok());
}

fn bytes(file: &Blob, from: f64, to: f64) -> Result<Vec<u8>, JsValue> {
    let part = file.slice_with_f64_and_f64(from, to)?;
    let buffer: ArrayBuffer = FileReaderSync::new()?.read_as_array_buffer(&part)?;
    Ok(Uint8Array::new(&buffer).to_vec())
}

/// A file that is read piece by piece, and never held whole.
struct Reading<'a> {
    file: &'a Blob,
    at: u64,
}

impl Read for Reading<'_> {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        let to = (self.at + buffer.len() as u64) as f64;
        let read = bytes(self.file, self.at as f64, to).map_err(|_| io::ErrorKind::Other)?;
        buffer[..read.len()].copy_from_slice(&read);
        self.at += read.len() as u64;
        Ok(read.len())
    }
}

impl Seek for Reading<'_> {
    fn seek(&mut self, to: SeekFrom) -> io::Result<u64> {
        let (from, by) = match to {
            SeekFrom::Start(at) => (at, 0),
            SeekFrom::End(by) => (self.file.size() as u64, by),
            SeekFrom::Current(by) => (self.at, by),
        };
        self.at = from.checked_add_signed(by).ok_or(io::ErrorKind::InvalidInput)?;
        Ok(self.at)
    }
}
