//! Lists of choices: an enum whose variants carry the word used in files and what it means.

/// A choice among named options.
pub trait Choice: Copy + Sized + 'static {
    /// Every option: the word used in files, and what it means.
    const OPTIONS: &'static [(&'static str, &'static str)];
    /// The options in the order of [`Self::OPTIONS`].
    const ALL: &'static [Self];

    /// The option's position.
    fn position(self) -> usize;

    /// The word used in files.
    fn word(self) -> &'static str {
        Self::OPTIONS[self.position()].0
    }

    /// The option of that word.
    fn from_word(word: &str) -> Option<Self> {
        let position = Self::OPTIONS.iter().position(|(known, _)| *known == word)?;
        Self::ALL.get(position).copied()
    }
}

/// Declares an enum of options with their words.
macro_rules! choice {
    ($(#[$meta:meta])* pub enum $name:ident {
        $($(#[doc = $doc:literal])+ $variant:ident = $word:literal,)*
    }) => {
        $(#[$meta])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
        pub enum $name {
            $($(#[doc = $doc])+ $variant,)*
        }

        impl $crate::quantity::Choice for $name {
            const OPTIONS: &'static [(&'static str, &'static str)] =
                &[$(($word, concat!($($doc),+).trim_ascii())),*];
            const ALL: &'static [Self] = &[$(Self::$variant),*];
            fn position(self) -> usize {
                self as usize
            }
        }
    };
}
pub(crate) use choice;
