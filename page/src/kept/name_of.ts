// A name for files out of what people call a thing: "Crown 16, Ölmüller" gives "crown-16-oelmueller".
const SPELLED: Readonly<Record<string, string>> = { ä: "ae", ö: "oe", ü: "ue", ß: "ss", æ: "ae", ø: "oe", œ: "oe" };
const LONGEST = 60;

export function nameOf(label: string): string {
  return label
    .toLowerCase()
    .replace(/[äöüßæøœ]/g, (letter) => SPELLED[letter] ?? "")
    .normalize("NFD")
    .replace(/[\u0300-\u036f]/g, "")
    .replace(/[^a-z0-9_]+/g, "-")
    .replace(/^-+|-+$/g, "")
    .slice(0, LONGEST)
    .replace(/-+$/, "");
}
