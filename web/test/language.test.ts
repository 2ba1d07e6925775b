import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'svelte/compiler';
import { parseSync } from 'vite';
import { describe, expect, it } from 'vitest';
import { BELOW } from '../src/text/below';
import { de } from '../src/text/de';
import { lessons as lektionen } from '../src/text/de/lessons';
import { search as suche } from '../src/text/de/search';
import { en } from '../src/text/en';
import { lessons } from '../src/text/en/lessons';
import { search } from '../src/text/en/search';

/** Every text of a catalogue by its path; of a text with values in it, all that it can say. */
function texts(node: unknown, path: string, all: Map<string, string[]>): Map<string, string[]> {
  if (typeof node === 'string') all.set(path, [node]);
  else if (typeof node === 'function') all.set(path, pieces(parseSync('text.js', `(${String(node)})`).program, []));
  else if (Array.isArray(node)) node.forEach((one, i) => texts(one, `${path}.${i}`, all));
  else if (node && typeof node === 'object') for (const [key, one] of Object.entries(node)) texts(one, path ? `${path}.${key}` : key, all);
  return all;
}

/** The literals of a function, those inside of templates too; what it compares with, and the names of fields, are not said. */
function pieces(node: unknown, found: string[]): string[] {
  if (Array.isArray(node)) for (const one of node) pieces(one, found);
  else if (node && typeof node === 'object') {
    const { type, value, operator } = node as Node;
    if (type === 'BinaryExpression' && operator !== '+') return found;
    if (type === 'Literal' && typeof value === 'string') found.push(value);
    if (type === 'TemplateElement') found.push((value as { cooked: string }).cooked);
    for (const [key, one] of Object.entries(node)) if (key !== 'property') pieces(one, found);
  }
  return found;
}

/** Names of what a scenario holds, by which a text looks up its word; and a word that both languages have. */
const KEY = /^(foundation|deep|medium|[ ,]*[Ii]n *)$/;

/** The same in both languages: names, units, numbers, words that both have. */
const ALIKE = /^(moves\.group\.winter$|page\.row\.|change\.startComb|calendar\.(locale|weekdays|months|short|weekday)|moves\.option\.\d|moves\.unit\.h$|visit\.(weightUnit|boxTab)|evidence\.(parameters|parameter)$|lessons\.paper\.name$|strip\.brakes\.pollen$|(hive\.kind|visit\.word|visit\.inText|strip\.layer)\.pollen(_kg)?$)/;

describe('the German texts', () => {
  const [english, german] = [texts({ ...en, ...BELOW.en, lessons, search }, '', new Map<string, string[]>()), texts({ ...de, ...BELOW.de, lessons: lektionen, search: suche }, '', new Map<string, string[]>())];

  it('are there for every English one', () => {
    expect([...german.keys()].toSorted()).toEqual([...english.keys()].toSorted());
    expect(german.size).toBeGreaterThan(400);
    expect([...german.keys()]).toContain('yard.fault.expected');
  });

  it('differ from it, piece by piece', () => {
    const same = [...english].flatMap(([path, words]) => {
      const alike = words.filter((one) => /\p{L}{2}/u.test(one) && german.get(path)?.includes(one) && !KEY.test(one));
      return alike.length > 0 && !ALIKE.test(path) ? [`${path}: ${alike.join(' | ')}`] : [];
    });
    expect(same).toEqual([]);
  });

  it('have a name for every plan that comes with the page', () => {
    const plans = ['../../scenarios/', '../src/lessons/scenarios/'].flatMap((where) => {
      const folder = new URL(where, import.meta.url).pathname;
      const files = readdirSync(folder).filter((name) => name.endsWith('.toml'));
      return files.map((name) => /^name = "(.+)"$/m.exec(readFileSync(join(folder, name), 'utf8'))?.[1] ?? name);
    });
    expect(plans.length).toBeGreaterThan(20);
    for (const name of plans) {
      expect(de.plans.called(name)).not.toBe(name);
      expect(de.plans.called(`${name} (2)`)).toBe(`${de.plans.called(name)} (2)`);
      expect(en.plans.called(name)).toBe(name);
    }
    expect(new Set(plans.map((name) => de.plans.called(name))).size).toBe(new Set(plans).size);
    expect(de.plans.called('Every hive of mine (3)')).toBe('Every hive of mine (3)');
  });
});

/** Where a text gives both systems, or a name in which a unit stands. */
const UNITS_OF_BOTH = /^visit\.weightUnit/;

describe.each([['English', { ...en, ...BELOW.en }], ['German', { ...de, ...BELOW.de }]])('the %s texts', (_, catalogue) => {
  it('leave units to the page, which knows whether they are metric or US', () => {
    const unit = /(^|[\d\s])(kg|lb|lbs|°[CF]|mm|pounds?|Pfund|Kilo(gramm)?|kilograms?|inch(es)?|Zoll)\b/;
    const named = [...texts(catalogue, '', new Map<string, string[]>())].flatMap(([path, words]) => words.filter((one) => unit.test(one) && !UNITS_OF_BOTH.test(path)).map((one) => `${path}: ${one}`));
    expect(named).toEqual([]);
  });
});

/** Words in a component that no catalogue has: a name, a licence, a unit. */
const OWN = /^(Combcast|Combcast ·|Literata|Commissioner|kg, °C|lb, °F)$/;
/** Names of storage, marks of time, messages between scripts, and what is thrown at programmers. */
const MARKS = /^(combcast|take over$|The page has no element|The model has no column)/;
/** What a reader sees or hears. */
const SPOKEN = ['aria-label', 'aria-valuetext', 'title', 'placeholder', 'alt', 'label'];

type Node = { type?: string; name?: string; data?: string; value?: unknown; [key: string]: unknown };

function own(node: unknown, found: string[]): string[] {
  if (Array.isArray(node)) for (const one of node) own(one, found);
  else if (node && typeof node === 'object') {
    const { type, name, data, value } = node as Node;
    if (type === 'Text' && typeof data === 'string' && /\p{L}{2}/u.test(data) && !OWN.test(data.trim())) found.push(data.trim());
    if (type === 'Attribute') {
      if (typeof name === 'string' && SPOKEN.includes(name)) own(value, found);
      return found;
    }
    if (type === 'StyleDirective' || type === 'Comment') return found;
    if (type === 'ExpressionTag') return shown((node as Node).expression, found);
    for (const one of Object.values(node)) own(one, found);
  }
  return found;
}

/** The literals of an expression in the markup that come onto the page as they stand. */
function shown(node: unknown, found: string[]): string[] {
  const { type, value, quasis, expressions, left, right, operator, consequent, alternate } = (node ?? {}) as Node;
  const say = (words: unknown) => typeof words === 'string' && /\p{L}{2}/u.test(words) && !OWN.test(words.trim()) && found.push(words.trim());
  if (type === 'Literal') say(value);
  for (const quasi of (quasis ?? []) as { value: { cooked: string } }[]) say(quasi.value.cooked);
  const parts = type === 'LogicalExpression' || (type === 'BinaryExpression' && operator === '+') ? [left, right] : [];
  for (const part of [...parts, ...((expressions ?? []) as unknown[]), ...(type === 'ConditionalExpression' ? [consequent, alternate] : [])]) shown(part, found);
  return found;
}

/** Sentences in a script. */
function sentences(node: unknown, found: string[]): string[] {
  if (Array.isArray(node)) for (const one of node) sentences(one, found);
  else if (node && typeof node === 'object') {
    const { type, value } = node as Node;
    if (type === 'ImportDeclaration') return found;
    const words = type === 'Literal' ? value : type === 'TemplateElement' ? (value as { cooked: string }).cooked : '';
    if (typeof words === 'string' && /\p{L}{3,} \p{L}{2,}/u.test(words)) found.push(words);
    for (const one of Object.values(node)) sentences(one, found);
  }
  return found;
}

describe('components', () => {
  const folder = new URL('../src/', import.meta.url).pathname;
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) => name.endsWith('.svelte'));

  const modules = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) => name.endsWith('.ts') && !/^(text|wasm)\//.test(name));

  it.each(modules)('%s says nothing that a catalogue should', (name) => {
    const { program } = parseSync(name, readFileSync(join(folder, name), 'utf8'));
    expect(sentences(program, []).filter((words) => !MARKS.test(words))).toEqual([]);
  });

  it.each(files)('%s has no text of its own', (name) => {
    const tree = parse(readFileSync(join(folder, name), 'utf8'), { modern: true });
    expect(own(tree.fragment, [])).toEqual([]);
    expect([...sentences(tree.instance, []), ...sentences(tree.module, []), ...sentences(tree.fragment, [])]).toEqual([]);
  });
});
