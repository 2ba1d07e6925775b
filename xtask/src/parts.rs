//! The page's module in two parts: what the first season and its story need, and the rest, which comes after.
//!
//! A compiler knows what a function may call, not what a first season does call: nearly everything may be called from
//! nearly everywhere. So the opening is played once on a copy of the module that notes which functions are entered
//! ([`watched`]), and the module is parted by that ([`parted`]). Where the note is wrong, nothing is lost but time: a function of
//! the first part that calls one of the rest brings the rest, and goes on.

use std::collections::BTreeSet;

use anyhow::{Context, Result, bail};
use walrus::ir::{UnaryOp, Value};
use walrus::{
    ConstExpr, ElementItems, ElementKind, ExportItem, FunctionBuilder, FunctionId, FunctionKind,
    GlobalId, GlobalKind, ImportKind, ImportedFunction, LocalFunction, LocalId, Module,
    ModuleConfig, TableId, ValType, passes,
};

/// What the rest calls the module that it takes everything shared from.
const FIRST: &str = "first";
/// The global that says whether the rest is here.
const HERE: &str = "restIsHere";
/// Part of the name of the JavaScript function that brings the rest; wasm-bindgen adds a number to it.
const BRING: &str = "combcastBringRest";
/// Functions of the first part of up to so many instructions are in the rest again: a call from one module
/// into another takes longer than they do.
const SMALL: u64 = 60;

/// The two modules.
#[derive(Debug)]
pub struct Parts {
    /// Complete by itself, but for functions that stand for those of the rest.
    pub first: Vec<u8>,
    /// Linked to the exports of the first, under the name `first`, it puts its functions where the first looks for them.
    pub rest: Vec<u8>,
}

/// What the exported global is called that says whether a function was entered, by its number in [`parted`]'s sense.
fn mark(number: usize) -> String {
    format!("entered{number}")
}

/// A copy that notes in exported globals, `entered` and the function's number, which of its functions are entered.
pub fn watched(module: &[u8]) -> Result<Vec<u8>> {
    let mut module = read(module)?;
    for (number, id) in locals(&module).into_iter().enumerate() {
        let entered = switch(&mut module);
        module.exports.add(&mark(number), entered);
        let function = module.funcs.get_mut(id).kind.unwrap_local_mut();
        let mut body = function.builder_mut().func_body();
        body.global_set_at(0, entered).const_at(0, Value::I32(1));
    }
    Ok(module.emit_wasm())
}

/// Parts a module in two; `used`: the numbers of the functions that the first part should have, counted in their order in the module.
pub fn parted(module: &[u8], used: &BTreeSet<usize>) -> Result<Parts> {
    let stubs = needed_stubs(module, used)?;
    let (rest, taken) = rest(module, used, &stubs)?;
    Ok(Parts {
        first: first(module, &stubs, &taken)?,
        rest,
    })
}

/// Which functions of the rest the first part refers to, by number; their places in this list are their slots in the table.
fn needed_stubs(module: &[u8], used: &BTreeSet<usize>) -> Result<Vec<usize>> {
    let mut module = read(module)?;
    let locals = locals(&module);
    for (_, &id) in unused(&locals, used) {
        let (mut stub, arguments) = empty(&mut module, id);
        stub.func_body().unreachable();
        module.funcs.get_mut(id).kind = FunctionKind::Local(stub.local_func(arguments));
    }
    passes::gc::run(&mut module);
    let left: BTreeSet<FunctionId> = module.funcs.iter().map(walrus::Function::id).collect();
    Ok(unused(&locals, used)
        .filter(|(_, id)| left.contains(id))
        .map(|(number, _)| number)
        .collect())
}

/// The rest, and the names of what it takes from the first part.
fn rest(
    module: &[u8],
    used: &BTreeSet<usize>,
    stubs: &[usize],
) -> Result<(Vec<u8>, BTreeSet<String>)> {
    let mut module = read(module)?;
    let locals = locals(&module);
    let table = function_table(&module)?;

    // What stands in memory and table when the rest comes was put there by the first part.
    for id in ids(module.exports.iter().map(walrus::Export::id)) {
        module.exports.delete(id);
    }
    for id in ids(module.data.iter().map(walrus::Data::id)) {
        module.data.delete(id);
    }
    for id in ids(module.elements.iter().map(walrus::Element::id)) {
        module.elements.delete(id);
    }
    module.start = None;

    for (name, shared) in shareable(&module, |number, function| {
        used.contains(&number) && function.size() > SMALL
    }) {
        take_from_first(&mut module, name, shared);
    }

    let slots = slots(&mut module, table, stubs.len())?;
    let functions = stubs.iter().map(|&number| locals[number]).collect();
    let element = module.elements.add(
        ElementKind::Active {
            table,
            offset: ConstExpr::Value(Value::I32(slots)),
        },
        ElementItems::Functions(functions),
    );
    module.tables.get_mut(table).elem_segments.insert(element);

    let (here, _) = module.add_import_global(FIRST, HERE, ValType::I32, true, false);
    let mut start = FunctionBuilder::new(&mut module.types, &[], &[]);
    start.func_body().i32_const(1).global_set(here);
    module.start = Some(start.finish(vec![], &mut module.funcs));

    passes::gc::run(&mut module);
    let taken = module.imports.iter().map(|one| one.name.clone()).collect();
    Ok((module.emit_wasm(), taken))
}

/// The first part, which exports what the rest takes from it.
fn first(module: &[u8], stubs: &[usize], taken: &BTreeSet<String>) -> Result<Vec<u8>> {
    let mut module = read(module)?;
    let locals = locals(&module);
    let table = function_table(&module)?;
    let bring = module
        .imports
        .iter()
        .find_map(|import| match import.kind {
            ImportKind::Function(id) if import.name.contains(BRING) => Some(id),
            _ => None,
        })
        .with_context(|| format!("the module does not import {BRING}"))?;

    for (name, shared) in shareable(&module, |_, _| true) {
        if taken.contains(&name) {
            module.exports.add(&name, shared);
        }
    }

    let here = switch(&mut module);
    module.exports.add(HERE, here);
    let slots = slots(&mut module, table, stubs.len())?;
    for (slot, &number) in (slots..).zip(stubs) {
        let id = locals[number];
        stand_in(
            &mut module,
            id,
            Link {
                here,
                bring,
                table,
                slot,
            },
        );
    }
    passes::gc::run(&mut module);
    Ok(module.emit_wasm())
}

/// How a function of the first part reaches the one of the rest that it stands for.
struct Link {
    here: GlobalId,
    bring: FunctionId,
    table: TableId,
    slot: i32,
}

/// Puts a function in the place of `id` that brings the rest where it is not here yet, and calls what the rest has put into the slot.
fn stand_in(module: &mut Module, id: FunctionId, link: Link) {
    let ty = module.funcs.get(id).ty();
    let (mut stub, arguments) = empty(module, id);
    let mut body = stub.func_body();
    body.global_get(link.here).unop(UnaryOp::I32Eqz).if_else(
        None,
        |then| {
            then.call(link.bring);
        },
        |_| {},
    );
    for &argument in &arguments {
        body.local_get(argument);
    }
    body.i32_const(link.slot).call_indirect(ty, link.table);
    module.funcs.get_mut(id).kind = FunctionKind::Local(stub.local_func(arguments));
}

/// The beginning of another function of the type of `id`, and its arguments.
fn empty(module: &mut Module, id: FunctionId) -> (FunctionBuilder, Vec<LocalId>) {
    let ty = module.types.get(module.funcs.get(id).ty());
    let (arguments, results) = (ty.params().to_vec(), ty.results().to_vec());
    let builder = FunctionBuilder::new(&mut module.types, &arguments, &results);
    let arguments = arguments.iter().map(|ty| module.locals.add(*ty)).collect();
    (builder, arguments)
}

/// What both parts may use and the first owns, each with a name that is the same from every reading of one module; of
/// the module's own functions, `wanted` by number, those alone.
fn shareable(
    module: &Module,
    wanted: impl Fn(usize, &LocalFunction) -> bool,
) -> Vec<(String, ExportItem)> {
    let own = module.funcs.iter_local().enumerate();
    let own = own
        .filter(|&(number, (_, function))| wanted(number, function))
        .map(|(number, (id, _))| (named(number, 'f'), id.into()));
    let imported = module
        .imports
        .iter()
        .filter_map(|import| match import.kind {
            ImportKind::Function(id) => Some(id.into()),
            _ => None,
        });
    let memories = module.memories.iter().map(|one| one.id().into());
    let tables = module.tables.iter().map(|one| one.id().into());
    let globals = module.globals.iter().map(|one| one.id().into());
    let numbered = |letter| move |(number, item)| (named(number, letter), item);
    own.chain(imported.enumerate().map(numbered('i')))
        .chain(memories.enumerate().map(numbered('m')))
        .chain(tables.enumerate().map(numbered('t')))
        .chain(globals.enumerate().map(numbered('g')))
        .collect()
}

/// No name in JavaScript begins with a digit, so this is none of wasm-bindgen's exports.
fn named(number: usize, letter: char) -> String {
    format!("{number}{letter}")
}

/// Makes an import from the first part of what was the module's own, or JavaScript's.
fn take_from_first(module: &mut Module, name: String, shared: ExportItem) {
    match shared {
        ExportItem::Function(id) => {
            let ty = module.funcs.get(id).ty();
            match &mut module.funcs.get_mut(id).kind {
                FunctionKind::Import(imported) => {
                    let import = module.imports.get_mut(imported.import);
                    import.module = FIRST.to_owned();
                    import.name = name;
                }
                own => {
                    let import = module.imports.add(FIRST, &name, id);
                    *own = FunctionKind::Import(ImportedFunction { import, ty });
                }
            }
        }
        ExportItem::Memory(id) => {
            let memory = module.memories.get_mut(id);
            memory.import = Some(module.imports.add(FIRST, &name, id));
            memory.data_segments.clear();
        }
        ExportItem::Table(id) => {
            let table = module.tables.get_mut(id);
            table.import = Some(module.imports.add(FIRST, &name, id));
            table.elem_segments.clear();
        }
        ExportItem::Global(id) => {
            let import = module.imports.add(FIRST, &name, id);
            module.globals.get_mut(id).kind = GlobalKind::Import(import);
        }
        // Rust's exceptions end the program here: there are no tags.
        ExportItem::Tag(_) => {}
    }
}

/// Makes room for so many functions behind those that a table has; the first new slot.
fn slots(module: &mut Module, table: TableId, count: usize) -> Result<i32> {
    let table = module.tables.get_mut(table);
    let slots = table.initial;
    table.initial += count as u64;
    table.maximum = table.maximum.map(|most| most.max(table.initial));
    i32::try_from(slots).context("too many functions in the table")
}

/// A global of the module's own, 0 until something sets it to 1.
fn switch(module: &mut Module) -> GlobalId {
    let off = ConstExpr::Value(Value::I32(0));
    module.globals.add_local(ValType::I32, true, false, off)
}

fn function_table(module: &Module) -> Result<TableId> {
    let table = module.tables.main_function_table()?;
    table.context("the module has no table of functions")
}

/// The functions that are a module's own, in their order: their numbers are their places here.
fn locals(module: &Module) -> Vec<FunctionId> {
    module.funcs.iter_local().map(|(id, _)| id).collect()
}

fn unused<'a>(
    locals: &'a [FunctionId],
    used: &'a BTreeSet<usize>,
) -> impl Iterator<Item = (usize, &'a FunctionId)> {
    let numbered = locals.iter().enumerate();
    numbered.filter(|(number, _)| !used.contains(number))
}

/// Ends the borrowing, so that what they name can be deleted.
fn ids<T>(ids: impl Iterator<Item = T>) -> Vec<T> {
    ids.collect()
}

/// Reads a module, to be written without names and producers.
fn read(module: &[u8]) -> Result<Module> {
    let module = ModuleConfig::new()
        .generate_name_section(false)
        .generate_producers_section(false)
        .parse(module)?;
    if module.start.is_some() {
        bail!("the module starts by itself, which no part of it may do");
    }
    Ok(module)
}

#[cfg(test)]
mod tests;
