//! Bytes as text that a page can carry: gzipped as small as can be, then five letters for four bytes.
//!
//! Base 85 is a fifteenth smaller than base 64. The letters run on from `#` and leave out `<`, so that
//! nothing in them can end the element that they stand in; `www/src/boot.ts` reads them back.
//!
//! Must not know what the bytes are.

use anyhow::{Context, Result};

/// The first letter; stands for 0.
const FIRST: u8 = b'#';
/// The letter that is left out.
const LEFT_OUT: u8 = b'<';

/// `bytes`, gzipped, as text. No date and no name go in: same bytes, same text.
///
/// # Errors
/// When they cannot be gzipped.
pub fn packed(bytes: &[u8]) -> Result<String> {
    let mut gzipped = Vec::new();
    zopfli::compress(zopfli::Options::default(), zopfli::Format::Gzip, bytes, &mut gzipped)
        .context("the core could not be packed")?;
    Ok(base85(&gzipped))
}

/// Four bytes as five letters, the highest first; a rest of n bytes as n + 1 letters.
fn base85(bytes: &[u8]) -> String {
    let mut text = String::with_capacity(bytes.len().div_ceil(4) * 5);
    for chunk in bytes.chunks(4) {
        let mut four = [0; 4];
        four[..chunk.len()].copy_from_slice(chunk);
        let number = u32::from_be_bytes(four);
        for power in (0..5).rev().take(chunk.len() + 1) {
            text.push(letter((number / 85_u32.pow(power) % 85) as u8));
        }
    }
    text
}

fn letter(digit: u8) -> char {
    let letter = FIRST + digit;
    char::from(if letter < LEFT_OUT { letter } else { letter + 1 })
}

#[cfg(test)]
mod tests {
    use super::*;
    use flate2::read::GzDecoder;
    use std::io::Read;

    /// As `www/src/boot.ts` does it.
    fn unpacked(text: &str) -> Vec<u8> {
        let mut gzipped = Vec::new();
        for group in text.as_bytes().chunks(5) {
            let digit = |l: &u8| u32::from(l - FIRST) - u32::from(*l > LEFT_OUT);
            let mut digits: Vec<u32> = group.iter().map(digit).collect();
            digits.resize(5, 84);
            let number = digits.iter().fold(0_u32, |n, d| n.wrapping_mul(85).wrapping_add(*d));
            gzipped.extend(&number.to_be_bytes()[..group.len() - 1]);
        }
        let mut bytes = Vec::new();
        GzDecoder::new(&*gzipped).read_to_end(&mut bytes).unwrap();
        bytes
    }

    #[test]
    fn what_is_packed_comes_back() {
        for length in 0..40 {
            let bytes: Vec<u8> = (0..length).map(|i: u8| i.wrapping_mul(151) ^ 0xa5).collect();
            assert_eq!(unpacked(&packed(&bytes).unwrap()), bytes);
        }
    }

    #[test]
    fn no_letter_ends_an_element() {
        let all: String = (0..85).map(letter).collect();
        assert!(!all.contains('<') && all.is_ascii() && all.starts_with('#') && all.ends_with('x'));
    }
}
