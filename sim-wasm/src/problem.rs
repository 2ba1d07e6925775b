//! Faults on their way to the page.

use std::cell::Cell;

use combcast_core::words::Language;
use combcast_core::{Error, ErrorKind};
use js_sys::Reflect;
use serde::Serialize;
use wasm_bindgen::prelude::*;

use crate::to_js;

thread_local! {
    /// In which language faults are told; a module is one worker's.
    static LANGUAGE: Cell<Language> = Cell::default();
}

/// From now on faults are told in this language.
pub fn speak(language: Language) {
    LANGUAGE.set(language);
}

/// A fault of the model as a JavaScript object to be thrown.
pub fn thrown(error: Error) -> JsValue {
    let language = LANGUAGE.get();
    let english = !error.has_words_in(language);
    let error = error.spoken(language);
    #[derive(Serialize)]
    struct Problem {
        kind: &'static str,
        place: String,
        message: String,
        language: &'static str,
        excerpt: Option<String>,
    }
    to_js(&Problem {
        kind: match error.kind {
            ErrorKind::Scenario => "scenario",
            ErrorKind::Weather => "weather",
            ErrorKind::Parameter => "parameter",
            ErrorKind::Invariant => "invariant",
        },
        place: error.place,
        message: error.message,
        language: if english { Language::English } else { language }.code(),
        excerpt: error.excerpt,
    })
}

/// Keeps the words of a panic: by itself it reaches JavaScript as `unreachable` and nothing else.
#[wasm_bindgen(start)]
pub fn keep_panic_message() {
    std::panic::set_hook(Box::new(|panic| {
        let words = JsValue::from_str(&panic.to_string());
        web_sys::console::error_1(&words);
        // Without a place to put them there is only the console left.
        let _ = Reflect::set(&js_sys::global(), &"combcastPanic".into(), &words);
    }));
}
