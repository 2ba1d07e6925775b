export function scenarioTypes(schemaText: string): Promise<string>;
