//! Keys, signatures, manifests and lists of signers: refused with a reason, or written again as the same.

use bayhand::signature::{Allowed, Locked, Manifest, PublicKey, Signed, SshSig, agent_signature};
use jiff::tz::TimeZone;

use super::text;

/// A text as each of them; and what is signed by nobody is verified by nobody.
pub fn signature(bytes: &[u8]) {
    let text = &*text(bytes);
    if let Ok(key) = PublicKey::parse(text) {
        assert_eq!(PublicKey::parse(text).as_ref().ok(), Some(&key));
        let _ = agent_signature(key, "bayhand-record-v1", bytes);
    }
    if let Ok(found) = SshSig::parse(text) {
        let again = found.armoured();
        assert_eq!(SshSig::parse(&again).map(|again| again.armoured()).ok(), Some(again));
        assert!(found.verify("bayhand-record-v1", b"nobody has signed this").is_err());
    }
    if let Ok(signed) = Signed::parse(text) {
        let again = signed.text().expect("what was read can be written");
        assert_eq!(Signed::parse(&again).expect("and read again").text().ok(), Some(again));
    }
    if let Ok(manifest) = Manifest::parse(text) {
        let again = manifest.line().expect("what was read can be written");
        assert_eq!(Manifest::parse(&again).ok(), Some(manifest), "{again}");
    }
    if let Err(unfit) = Allowed::parse(text, &TimeZone::UTC) {
        assert!(!unfit.to_string().is_empty());
    }
    if let Ok(locked) = Locked::parse(text)
        && !locked.is_locked()
        && let Ok(key) = locked.open("")
    {
        let made = key.sign("bayhand-record-v1", b"these words");
        assert!(made.verify("bayhand-record-v1", b"these words").is_ok());
        assert!(made.verify("bayhand-record-v1", b"other words").is_err());
    }
}
