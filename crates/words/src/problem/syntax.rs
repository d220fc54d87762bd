//! Slips in the TOML text itself.
//!
//! Must not know: the keys of the format.

use super::place::Spot;
use super::quoted;
use crate::lang::Lang;
use layout::SyntaxFault;

/// What the slip is and how it is put right.
pub(super) fn syntax(lang: Lang, spot: &Spot<'_>, fault: SyntaxFault, parser_says: &str) -> String {
    let says = match fault {
        SyntaxFault::RepeatedKey => {
            return match lang {
                Lang::En => format!("{} is there already; it may be there once only.", spot.key()),
                Lang::De => {
                    format!("{} steht schon da; es darf nur einmal vorkommen.", spot.key())
                }
            };
        }
        SyntaxFault::MissingEquals => lang.pick(
            "Behind this key an equals sign and a value are missing.",
            "Hinter diesem Schlüssel fehlen ein Gleichheitszeichen und ein Wert.",
        ),
        SyntaxFault::MissingValue => lang.pick(
            "Behind the equals sign or the comma there is no value.",
            "Hinter dem Gleichheitszeichen oder dem Komma steht kein Wert.",
        ),
        SyntaxFault::MissingComma => lang.pick(
            "Between two entries a comma is missing.",
            "Zwischen zwei Einträgen fehlt ein Komma.",
        ),
        SyntaxFault::ExtraSeparator => lang.pick(
            "There is a comma or an equals sign too many.",
            "Hier ist ein Komma oder ein Gleichheitszeichen zu viel.",
        ),
        SyntaxFault::ExtraText => lang.pick(
            "Something more stands behind the value. The next key goes on a line of its own, a comment behind #.",
            "Hinter dem Wert steht noch etwas. Der nächste Schlüssel gehört in eine eigene Zeile, eine Bemerkung hinter #.",
        ),
        SyntaxFault::DecimalComma => lang.pick(
            "This number has a comma. In the file a number has a point: 9.525.",
            "Diese Zahl hat ein Komma. In der Datei hat eine Zahl einen Punkt: 9.525.",
        ),
        SyntaxFault::Unclosed => lang.pick(
            "A quotation mark, bracket or brace is opened here and not closed.",
            "Ein Anführungszeichen oder eine Klammer wird hier geöffnet und nicht geschlossen.",
        ),
        SyntaxFault::Unquoted => lang.pick(
            "This word needs quotation marks: \"crank\".",
            "Dieses Wort braucht Anführungszeichen: \"crank\".",
        ),
        SyntaxFault::BadNumber => lang.pick(
            "This cannot be read as a number or a date. Write the number alone; its unit stands in the key: pitch_mm = 9.525.",
            "Das lässt sich nicht als Zahl oder Datum lesen. Nur die Zahl schreiben; die Einheit steht im Schlüssel: pitch_mm = 9.525.",
        ),
        SyntaxFault::BadFlag => lang.pick(
            "Write true or false in small letters.",
            "true oder false klein schreiben.",
        ),
        SyntaxFault::BadKey => lang.pick(
            "This cannot be a key. A key has letters from a to z, digits and _.",
            "Das kann kein Schlüssel sein. Ein Schlüssel hat Buchstaben von a bis z, Ziffern und _.",
        ),
        SyntaxFault::BadCharacter => lang.pick(
            "A backslash or a character that may not stand here. In text a backslash is written twice: \\\\.",
            "Ein Rückstrich oder ein Zeichen, das hier nicht stehen darf. Im Text wird ein Rückstrich doppelt geschrieben: \\\\.",
        ),
        SyntaxFault::NotATable => lang.pick(
            "This key is used as a table and as something else.",
            "Dieser Schlüssel wird als Tabelle und als etwas anderes gebraucht.",
        ),
        SyntaxFault::TooDeep => lang.pick(
            "Too many brackets stand within one another.",
            "Zu viele Klammern stehen ineinander.",
        ),
        SyntaxFault::Other => {
            let says = quoted(lang, parser_says);
            return match lang {
                Lang::En => spot.here(&format!("This is not TOML: {says}.")),
                Lang::De => spot.here(&format!("Das ist kein TOML. Auf Englisch: {says}.")),
            };
        }
    };
    spot.here(says)
}
