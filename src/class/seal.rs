//! Keys, signatures, and the chain that ties the lines of a file together.
//!
//! A signature says that a file is as the program wrote it that holds the key. It does not say who sat at the keyboard, and
//! whoever owns the machine can read the key on it: what it shows is edits, mix-ups and copies, not honesty.

use super::text::{bytes, hex};
use crate::drill::Seed;
use ed25519_dalek::{Signature, Signer, SigningKey, VerifyingKey};
use serde::{Deserialize, Serialize};
use thiserror::Error;

/// What is signed, so that a signature of one thing is never one of another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Signed {
    /// A job card.
    Card,
    /// Returned work.
    Returned,
}

impl Signed {
    const fn context(self) -> &'static str {
        match self {
            Self::Card => "linefall job card 1",
            Self::Returned => "linefall returned work 1",
        }
    }
}

/// A key to sign with.
pub struct Secret(SigningKey);

/// Why a text is no key.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
#[error("it holds no key: 64 hexadecimal digits in one line are wanted")]
pub struct NoKey;

impl Secret {
    /// The key of 32 bytes drawn by chance.
    pub fn new(drawn: [u8; 32]) -> Self {
        Self(SigningKey::from_bytes(&drawn))
    }

    /// As it is kept in a file.
    pub fn to_file(&self) -> String {
        format!("{}\n", hex(&self.0.to_bytes()))
    }

    /// The key that a file holds.
    pub fn from_file(text: &str) -> Result<Self, NoKey> {
        bytes(text.trim_end()).map(Self::new).ok_or(NoKey)
    }

    /// The key that its signatures are known by.
    pub fn public(&self) -> Public {
        Public(hex(&self.0.verifying_key().to_bytes()))
    }

    /// The signature of these bytes, in hexadecimal digits.
    pub fn sign(&self, what: Signed, body: &[u8]) -> String {
        hex(&self.0.sign(&digest(what, body)).to_bytes())
    }
}

/// Not even a fault may show it.
impl std::fmt::Debug for Secret {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Secret of {}", self.public().0)
    }
}

/// A key that signatures are known by, in hexadecimal digits.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct Public(String);

impl Public {
    /// The key that these digits are; none where they are none.
    pub fn of(text: &str) -> Option<Self> {
        VerifyingKey::from_bytes(&bytes(text)?).ok().map(|_| Self(text.to_owned()))
    }

    /// In hexadecimal digits.
    pub fn hex(&self) -> &str {
        &self.0
    }

    /// Five groups of four digits, to be read aloud and compared.
    pub fn fingerprint(&self) -> String {
        let hash = blake3::derive_key("linefall fingerprint 1", self.0.as_bytes());
        let group = |pair: &[u8]| {
            let number = pair.iter().fold(0, |number, byte| number << 8 | u64::from(*byte));
            format!("{:04}", number % 10_000)
        };
        hash.chunks(6).take(5).map(group).collect::<Vec<_>>().join(" ")
    }

    /// Whether a signature in hexadecimal digits is this key's, of these bytes.
    pub fn signed(&self, what: Signed, body: &[u8], signature: &str) -> bool {
        let key = bytes(&self.0).and_then(|key| VerifyingKey::from_bytes(&key).ok());
        let signature = bytes(signature).map(|signature| Signature::from_bytes(&signature));
        let (Some(key), Some(signature)) = (key, signature) else { return false };
        key.verify_strict(&digest(what, body), &signature).is_ok()
    }
}

fn digest(what: Signed, body: &[u8]) -> [u8; 32] {
    blake3::derive_key(what.context(), body)
}

/// The hash of a line, which the next one carries.
pub fn link(line: &[u8]) -> String {
    blake3::hash(line).to_hex().to_string()
}

/// The seed of a paper. It follows from the card, the learner and which try it is, so that the instructor can deal the same
/// paper and nobody chooses an easy one; without a card, from the sitting's own number. Those of cards are beyond all that can
/// be typed. It stands in no file.
pub fn paper_seed(card: Option<&str>, learner: &str, nth: u32, sitting: &str) -> Seed {
    let parts = match card {
        Some(card) => format!("card {card} learner {learner} try {nth}"),
        None => format!("sitting {sitting}"),
    };
    let key = blake3::derive_key("linefall paper seed 1", parts.as_bytes());
    let seed = Seed(key.iter().take(8).fold(0, |seed, byte| seed << 8 | u64::from(*byte)));
    if card.is_some() { seed.of_card() } else { seed.open() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn signed_and_known() {
        let secret = Secret::new([7; 32]);
        let public = secret.public();
        let signature = secret.sign(Signed::Card, b"whole");
        assert!(public.signed(Signed::Card, b"whole", &signature));
        assert!(!public.signed(Signed::Returned, b"whole", &signature), "of something else");
        assert!(!public.signed(Signed::Card, b"hole", &signature));
        assert!(!public.signed(Signed::Card, b"whole", &signature.to_uppercase()));
        assert!(!public.signed(Signed::Card, b"whole", ""));
        assert!(!Secret::new([8; 32]).public().signed(Signed::Card, b"whole", &signature));
        assert_eq!(Public::of(public.hex()), Some(public.clone()));
        assert_eq!(Public::of("12"), None);
        assert_eq!(Secret::from_file(&secret.to_file()).map(|key| key.public()), Ok(public));
        assert_eq!(Secret::from_file("no key").map(|key| key.public()), Err(NoKey));
        assert!(!format!("{secret:?}").contains("0707"));
    }

    /// RFC 8032, 7.1, test 1: the public key of a secret one.
    #[test]
    fn the_published_key() {
        let secret =
            bytes("9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60").expect("32 bytes");
        let public = "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a";
        assert_eq!(Secret::new(secret).public().hex(), public);
    }

    #[test]
    fn fingerprints_are_read_aloud() {
        let of = |drawn| Secret::new([drawn; 32]).public().fingerprint();
        assert_ne!(of(1), of(2));
        let said = of(1);
        assert_eq!((said.len(), said.split(' ').count()), (24, 5), "{said}");
        assert!(said.chars().all(|c| c.is_ascii_digit() || c == ' '));
    }

    #[test]
    fn a_paper_is_anothers_for_each_learner_and_try() {
        let seed = |card, learner, nth| paper_seed(card, learner, nth, "0123456789abcdef");
        let card = Some("00000000000000aa");
        assert_eq!(seed(card, "k7", 1), seed(card, "k7", 1));
        assert_ne!(seed(card, "k7", 1), seed(card, "k8", 1));
        assert_ne!(seed(card, "k7", 1), seed(card, "k7", 2));
        assert_eq!(seed(None, "k7", 1), seed(None, "k8", 2));
        assert_eq!(
            paper_seed(card, "k7", 1, "0123456789abcdef"),
            paper_seed(card, "k7", 1, "f"),
            "no choosing"
        );
        assert!(seed(card, "k7", 1).is_of_card() && !seed(None, "k7", 1).is_of_card());
    }
}
