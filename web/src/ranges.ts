/**
 * The limits of each entry, from the schema of the scenario file: they are written nowhere else.
 */
import schema from '../../scenarios/scenario.schema.json?raw';

export interface Range {
  min: number;
  max: number;
}

interface Node {
  $ref?: string;
  $defs?: Record<string, Node>;
  properties?: Record<string, Node>;
  items?: Node;
  anyOf?: Node[];
  allOf?: Node[];
  minimum?: number;
  maximum?: number;
}

export class Ranges {
  #root: Node;

  constructor(schema: string) {
    this.#root = JSON.parse(schema) as Node;
  }

  /** The limits of a place such as `start.package.pounds` or `feed.litres`; lists are passed through. */
  of(place: string): Range {
    let node: Node | undefined = this.#root;
    for (const name of place.split('.')) node = this.#resolve(node)?.properties?.[name];
    const end = this.#resolve(node);
    return { min: end?.minimum ?? Number.NEGATIVE_INFINITY, max: end?.maximum ?? Number.POSITIVE_INFINITY };
  }

  #resolve(node: Node | undefined): Node | undefined {
    if (!node) return undefined;
    if (node.$ref) return this.#resolve(this.#root.$defs?.[node.$ref.replace('#/$defs/', '')]);
    if (node.items) return this.#resolve(node.items);
    const inner = node.allOf?.[0] ?? node.anyOf?.find((option) => option.$ref);
    return inner ? this.#resolve(inner) : node;
  }
}

/** The limits of the scenario file. */
export const ranges = new Ranges(schema);
