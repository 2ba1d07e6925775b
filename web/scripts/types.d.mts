/** The schema of the scenario file as text. */
export function schemaText(): string;

/** The schema of the visits file as text. */
export function visitsSchemaText(): string;

/** The TypeScript types of a scenario file. */
export function scenarioTypes(): Promise<string>;

/** The TypeScript types of a file of visits. */
export function visitsTypes(): Promise<string>;
