// Every text of the page in English. A section is a part of the page; a text with values in it is a function.
// The other languages have the same shape: `Catalogue` is the type of this object.

export const en = {
  yard: {},
  visit: {},
  bands: {},
  verdict: {},
  next: {},
  lessons: {},
  evidence: {},
  print: {},
}

export type Catalogue = typeof en
