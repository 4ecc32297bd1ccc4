//! Vehicle sheets: what is known of one vehicle, and from where.
