import { createContext } from "preact";
import { useContext } from "preact/hooks";
import type { FiringDesk } from "./desk";

export const DeskContext = createContext<FiringDesk | null>(null);

/** The desk of the firing on the screen. */
export function useDesk(): FiringDesk {
  const desk = useContext(DeskContext);
  if (!desk) throw new Error("There is no desk here.");
  return desk;
}
