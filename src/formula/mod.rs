//! Formulas: parsed with spans, dimension-checked before a run, evaluated with a trace.
