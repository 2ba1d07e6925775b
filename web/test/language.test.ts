import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'svelte/compiler';
import { parseSync } from 'vite';
import { describe, expect, it } from 'vitest';
import { de } from '../src/text/de';
import { en } from '../src/text/en';

/** Every text of a catalogue by its path; of a text with values in it, the pattern. */
function texts(node: unknown, path: string, all: Map<string, string>): Map<string, string> {
  if (typeof node === 'string') all.set(path, node);
  else if (typeof node === 'function') all.set(path, patterns(String(node)));
  else if (Array.isArray(node)) node.forEach((one, i) => texts(one, `${path}.${i}`, all));
  else if (node && typeof node === 'object') for (const [key, one] of Object.entries(node)) texts(one, path ? `${path}.${key}` : key, all);
  return all;
}

/** What a function says, without what it does: the words between its quotes. */
function patterns(code: string): string {
  return [...code.matchAll(/`([^`]*)`|'([^']*)'|"([^"]*)"/g)].map(([, ...one]) => one.find((words) => words !== undefined)?.replaceAll(/\$\{[^}]*\}/g, '')).join(' ');
}

/** The same in both languages: names, units, numbers, words that both have. */
const ALIKE = /^(next\.sure$|moves\.group\.winter$|page\.row\.|change\.startComb|calendar\.(locale|weekdays|months|short|weekday)|moves\.option\.\d|moves\.unit\.h$|visit\.(weightUnit|boxTab)|evidence\.(parameters|parameter)$|lessons\.paper\.name$|strip\.brakes\.pollen$|(hive\.kind|visit\.word|visit\.inText|strip\.layer)\.pollen(_kg)?$|moves\.pin)/;

describe('the German texts', () => {
  const [english, german] = [texts(en, '', new Map<string, string>()), texts(de, '', new Map<string, string>())];

  it('are there for every English one', () => {
    expect([...german.keys()].toSorted()).toEqual([...english.keys()].toSorted());
    expect(german.size).toBeGreaterThan(400);
    expect([...german.keys()]).toContain('yard.fault.expected');
  });

  it('differ from it', () => {
    const same = [...english].filter(([path, words]) => /[a-z]{2}/i.test(words) && german.get(path) === words && !ALIKE.test(path));
    expect(same).toEqual([]);
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
    for (const one of Object.values(node)) own(one, found);
  }
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
    expect([...sentences(tree.instance, []), ...sentences(tree.module, [])]).toEqual([]);
  });
});
