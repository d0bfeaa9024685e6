// What a new firing begins with: its pieces in the middle of the tray, and what the lab has only one of.
import { documents, type Kind } from "../../api/client";
import { entryKey, type Values } from "./values";

async function onlyOne(kind: Kind): Promise<string | null> {
  const found = await documents.list(kind).catch(() => null);
  const one = found?.rows.length === 1 ? found.rows[0] : undefined;
  return one?.name ?? null;
}

export async function newFiringValues(pieces: readonly string[]): Promise<Values> {
  const [furnace, tray] = await Promise.all([onlyOne("furnace"), onlyOne("tray")]);
  const values: Record<string, string> = { "chamber.cold": "false" };
  pieces.forEach((piece, index) => {
    values[`${entryKey("piece", index)}.piece`] = piece;
    values[`${entryKey("piece", index)}.place`] = "middle";
  });
  if (furnace) values["furnace"] = furnace;
  if (tray) values["tray"] = tray;
  return values;
}
