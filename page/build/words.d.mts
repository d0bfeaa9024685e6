export const folder: string;
export type Entry = string | { one: string; other: string };
export function flattened(table: Record<string, unknown>, before: string): Record<string, Entry>;
export function gaps(entry: Entry): string[];
export function differences(first: Record<string, Entry>, second: Record<string, Entry>, names?: string[]): string[];
export function makeCatalogue(): number;
