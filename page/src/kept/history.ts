// The versions of a document and what one says otherwise than another, as the server tells them.
export interface Change {
  key: string;
  words: string;
}

export interface Version {
  version: number;
  at: string;
  zone: string;
  person: string;
  known_by: string;
  action: string;
  reason: string;
  changes: (Change | string)[];
}

export interface History {
  format: 1;
  versions: Version[];
}

export interface Difference {
  format: 1;
  before: string;
  after: string;
  changes: (Change | string)[];
}

export function wordsOf(change: Change | string): string {
  return typeof change === "string" ? change : change.words;
}
