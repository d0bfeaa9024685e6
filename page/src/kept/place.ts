// Where a document is looked at, changed, and begun anew: the places behind the links of all screens.
import type { Kind } from "../api/types";
import { pathOf } from "../shell/routes";

export function changeOf(kind: Kind, name: string): string {
  return `${pathOf(kind, name)}?change=1`;
}

/** A new one, from nothing, from one that is kept, or with some values begun. */
export function newOf(kind: Kind, begin: Readonly<Record<string, string>> = {}): string {
  const place: Partial<Record<Kind, string>> = { program: "/programs", furnace: "/furnaces" };
  return `${place[kind] ?? `/records/${kind}`}?${new URLSearchParams({ new: "1", ...begin }).toString()}`;
}

export function listOf(kind: Kind): string {
  const place: Partial<Record<Kind, string>> = { program: "/programs", furnace: "/furnaces", tray: "/furnaces", support: "/furnaces" };
  return place[kind] ?? `/records/${kind}`;
}
