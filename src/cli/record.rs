//! `bayhand record`
use super::context::Context; use super::Exit; use super::arguments::Record; use crate::journal::*;
pub(super) fn record(_c:&Context,_r:&Record)->Exit{Exit::Done}
pub(super) struct Sealed; impl Sealed { pub(super) fn text(&self,_w:usize)->String{String::new()} }
pub(super) fn sealed(_c:&Context,_r:&Runs,_i:&RunId)->Result<Sealed,Exit>{Err(Exit::Done)}
