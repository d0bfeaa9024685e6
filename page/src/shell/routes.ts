// The screens there are. A screen says where it is found, what it is called, and how its file is loaded; it enters itself here, in one line.
import type { ComponentType } from "preact";
import type { Kind } from "../api/types";
import type { PlainWord } from "../words";

export interface ScreenProps {
  /** What follows the screen's own part of the path: /firing/crown-16 gives ["crown-16"]. */
  rest: readonly string[];
}

export interface Screen {
  path: string;
  word: PlainWord;
  /** Where a link to it stands: along the top (at the bottom on a small screen), in the menu of the person, or nowhere. */
  shown: "always" | "menu" | "never";
  load: () => Promise<{ default: ComponentType<ScreenProps> }>;
}

export const screens: readonly Screen[] = [
  { path: "today", word: "shell.screen.today", shown: "always", load: () => import("../screens/today/today") },
  { path: "firing", word: "shell.screen.firing", shown: "always", load: () => import("../screens/firing/firing") },
  { path: "programs", word: "shell.screen.programs", shown: "always", load: () => import("../screens/programs/programs") },
  { path: "furnaces", word: "shell.screen.furnaces", shown: "always", load: () => import("../screens/furnaces/furnaces") },
  { path: "records", word: "shell.screen.records", shown: "always", load: () => import("../screens/records/records") },
  { path: "setup", word: "shell.screen.setup", shown: "menu", load: () => import("../screens/setup/setup") },
  { path: "search", word: "shell.screen.search", shown: "never", load: () => import("../screens/search/search") },
];

export const FIRST = "today";

/** Where a kept document is looked at. */
export function pathOf(kind: Kind, name: string): string {
  const place: Partial<Record<Kind, string>> = { program: "/programs", furnace: "/furnaces", firing: "/firing" };
  return `${place[kind] ?? `/records/${kind}`}/${encodeURIComponent(name)}`;
}
