/** The schema of the scenario file as text. */
export function schemaText(): string;

/** The TypeScript types of a scenario file. */
export function scenarioTypes(): Promise<string>;
