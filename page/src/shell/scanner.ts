// A wedge scanner types like a keyboard, only faster than hands can, and ends with Enter: wherever the focus is, that becomes a search.

const FASTEST_HAND_MS = 35;
const SHORTEST = 4;

export interface Key {
  key: string;
  at: number;
  /** Whether a person is typing in a field: then the scanner types there like anybody. */
  inField: boolean;
}

/** Listens to keys one by one; the scanned text where Enter ends a burst, else null. */
export function scanReader(): (key: Key) => string | null {
  let text = "";
  let before = -Infinity;
  return ({ key, at, inField }) => {
    const quick = at - before <= FASTEST_HAND_MS;
    before = at;
    if (key === "Enter") {
      const found = quick && !inField && text.length >= SHORTEST ? text : null;
      text = "";
      return found;
    }
    if (key === "Shift") return null;
    // What goes into a field is that field's; any key but a letter, Tab for one, ends what was typed before it.
    if (key.length !== 1 || inField) text = "";
    else text = quick ? text + key : key;
    return null;
  };
}

function isField(target: EventTarget | null): boolean {
  return target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement || target instanceof HTMLSelectElement;
}

export function listenToScanner(found: (text: string) => void): void {
  const read = scanReader();
  document.addEventListener(
    "keydown",
    (event) => {
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      const text = read({ key: event.key, at: event.timeStamp, inField: isField(event.target) });
      if (text === null) return;
      event.preventDefault();
      event.stopPropagation();
      found(text);
    },
    true,
  );
}
