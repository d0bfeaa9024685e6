import type { FiringToday } from "../../api/client";

/** Which work on which firing is under way in a dialog. */
export interface Opened {
  work: "start" | "end" | "interrupt" | "call off";
  firing: FiringToday;
}

export interface DialogOfFiring {
  firing: FiringToday;
  onClose: () => void;
  /** It is kept: the lists are asked anew. */
  onDone: () => void;
}
