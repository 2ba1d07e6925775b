//! The parting of a small module.

use super::*;

/// A module whose exported function 0 calls 1, which calls 2.
fn chain() -> Vec<u8> {
    let mut module = Module::default();
    let table = module
        .tables
        .add_local(false, 1, Some(1), walrus::RefType::FUNCREF);
    module.exports.add("table", table);
    let ty = module.types.add(&[], &[]);
    module.add_import_func("./glue.js", "__combcastBringRest_1", ty);
    let mut called = None;
    // The last of them first; each is longer than what is kept in both parts.
    for _ in 0..3 {
        let mut function = FunctionBuilder::new(&mut module.types, &[ValType::I32], &[]);
        let argument = module.locals.add(ValType::I32);
        let mut body = function.func_body();
        for _ in 0..SMALL {
            body.local_get(argument).drop();
        }
        if let Some(called) = called {
            body.local_get(argument).call(called);
        }
        called = Some(function.finish(vec![argument], &mut module.funcs));
    }
    module
        .exports
        .add("begin", called.expect("there are three"));
    module.emit_wasm()
}

/// The numbers of those that are exported, called by them, and called by those.
fn numbers(module: &[u8]) -> [usize; 3] {
    let module = read(module).unwrap();
    let locals = locals(&module);
    let place = |id| locals.iter().position(|&one| one == id).unwrap();
    let begin = module.exports.get_func("begin").unwrap();
    let mut found = [place(begin); 3];
    for k in 1..3 {
        let caller = module.funcs.get(locals[found[k - 1]]).kind.unwrap_local();
        let calls = caller.block(caller.entry_block()).instrs.iter();
        let mut called = calls.filter_map(|(instruction, _)| match instruction {
            walrus::ir::Instr::Call(call) => Some(place(call.func)),
            _ => None,
        });
        found[k] = called.next().unwrap();
    }
    found
}

#[test]
fn the_rest_links_to_the_first_and_nothing_long_is_in_both() {
    let whole = chain();
    let [begin, middle, end] = numbers(&whole);
    let parts = parted(&whole, &BTreeSet::from([begin, end])).unwrap();
    let (first, rest) = (
        read(&parts.first).unwrap(),
        Module::from_buffer(&parts.rest).unwrap(),
    );
    for import in rest.imports.iter() {
        assert_eq!(import.module, FIRST);
        assert!(
            first
                .exports
                .iter()
                .any(|export| export.name == import.name)
        );
    }
    assert!(rest.exports.iter().next().is_none());
    // The middle one, and the start that says that it is here.
    assert_eq!(locals(&rest).len(), 2);
    let long = |module: &Module| {
        let sizes = module
            .funcs
            .iter_local()
            .map(|(_, function)| function.size());
        sizes.filter(|&size| size > SMALL).count()
    };
    assert_eq!((long(&first), long(&rest)), (2, 1));
    // All of them used: nothing is left.
    let none = parted(&whole, &BTreeSet::from([begin, middle, end])).unwrap();
    assert_eq!(long(&Module::from_buffer(&none.rest).unwrap()), 0);
}

#[test]
fn every_function_is_watched() {
    let watched = Module::from_buffer(&watched(&chain()).unwrap()).unwrap();
    for number in 0..3 {
        assert!(
            watched
                .exports
                .iter()
                .any(|export| export.name == mark(number))
        );
    }
}
