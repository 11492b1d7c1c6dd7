//! Keys and the roles they stand for.

use std::fmt;

/// What a request may do.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Role {
    /// Look things up and download.
    Look,
    /// Import and undo besides.
    Import,
}

/// A secret that stands for a role.
#[derive(Clone, PartialEq, Eq)]
pub struct Key(String);

impl fmt::Debug for Key {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Key(..)")
    }
}

impl Key {
    /// A new key.
    ///
    /// # Errors
    /// The operating system's error where it has no random numbers.
    pub fn random() -> Result<Self, getrandom::Error> {
        let mut bytes = [0_u8; 16];
        getrandom::fill(&mut bytes)?;
        Ok(Self(
            bytes.iter().map(|byte| format!("{byte:02x}")).collect(),
        ))
    }

    /// The key as it stands in an address.
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// Compares without telling by the time taken how far two texts agree.
    fn is(&self, text: &str) -> bool {
        let (own, other) = (self.0.as_bytes(), text.as_bytes());
        own.len() == other.len()
            && own
                .iter()
                .zip(other)
                .fold(0, |differs, (a, b)| differs | (a ^ b))
                == 0
    }
}

/// The keys of a server that others reach; a server on the loopback address has none.
#[derive(Debug, Clone)]
pub struct Keys {
    /// For looking only.
    pub look: Key,
    /// For importing too.
    pub import: Key,
}

impl Keys {
    /// Two new keys.
    ///
    /// # Errors
    /// As [`Key::random`].
    pub fn random() -> Result<Self, getrandom::Error> {
        Ok(Self {
            look: Key::random()?,
            import: Key::random()?,
        })
    }

    pub(super) fn role(&self, text: &str) -> Option<Role> {
        if self.import.is(text) {
            Some(Role::Import)
        } else {
            self.look.is(text).then_some(Role::Look)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_differ_and_stand_for_their_roles() {
        let keys = Keys::random().unwrap();
        assert_ne!(keys.look, keys.import);
        assert_eq!(keys.role(keys.look.as_str()), Some(Role::Look));
        assert_eq!(keys.role(keys.import.as_str()), Some(Role::Import));
        assert_eq!(keys.role(""), None);
        assert_eq!(keys.role(&keys.look.as_str()[1..]), None);
    }

    #[test]
    fn a_key_is_never_printed_by_accident() {
        let keys = Keys::random().unwrap();
        assert!(!format!("{keys:?}").contains(keys.look.as_str()));
    }

    #[test]
    fn a_key_is_128_bits_in_letters_that_an_address_takes_as_they_are() {
        // 128 bits: NIST SP 800-63B asks for at least 64 bits of a session secret.
        for _ in 0..32 {
            let key = Key::random().unwrap();
            assert_eq!(key.as_str().len(), 32);
            assert!(key.as_str().bytes().all(|byte| byte.is_ascii_hexdigit()));
        }
    }

    #[test]
    fn one_letter_more_less_or_other_is_another_key() {
        let key = Key("00112233445566778899aabbccddeeff".to_owned());
        assert!(key.is("00112233445566778899aabbccddeeff"));
        for other in [
            "",
            "0",
            "00112233445566778899aabbccddeef",
            "00112233445566778899aabbccddeeff0",
            "10112233445566778899aabbccddeeff",
            "00112233445566778899aabbccddeefe",
            "00112233445566778899AABBCCDDEEFF",
        ] {
            assert!(!key.is(other), "{other}");
        }
    }

    #[test]
    fn who_imports_may_also_look() {
        assert!(Role::Import > Role::Look);
    }
}
