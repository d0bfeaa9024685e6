// Every screen there is, where it is found, and what its one job is. A screen that is entered here is looked at in every way.
// `when`: "demo" where the screen needs what only the demo lab has. `most`: sheets its print may take.
export const SCREENS = [
  { name: "today", path: "/today" },
  { name: "firing", path: "/firing" },
  { name: "firing-known", path: "/firing/metal-ceramic-firing", when: "demo", most: 3 },
  { name: "firing-new", path: "/firing/new", most: 2 },
  { name: "programs", path: "/programs" },
  { name: "program", path: "/programs/dentine-on-zirconia", when: "demo", most: 3 },
  { name: "program-change", path: "/programs/dentine-on-zirconia?change=1", when: "demo" },
  { name: "program-new", path: "/programs?new=1" },
  { name: "program-begin", path: "/programs?new=1&begin=1" },
  { name: "furnaces", path: "/furnaces" },
  { name: "furnace", path: "/furnaces/corner", when: "demo", most: 4 },
  { name: "furnace-check", path: "/furnaces/corner/check", when: "demo" },
  { name: "furnace-check-vacuum", path: "/furnaces/corner/check/vacuum", when: "demo" },
  { name: "furnace-new", path: "/furnaces?new=1" },
  { name: "cases", path: "/records" },
  { name: "case", path: "/records/case/k-0417", when: "demo", most: 3 },
  { name: "case-new", path: "/records/case?new=1" },
  { name: "piece", path: "/records/piece/crown-16", when: "demo", most: 3 },
  { name: "piece-new", path: "/records/piece?new=1" },
  { name: "lots", path: "/records/lot" },
  { name: "lot", path: "/records/lot/veneer-31-7", when: "demo", most: 2 },
  { name: "lot-new", path: "/records/lot?new=1" },
  { name: "checks", path: "/records/check" },
  { name: "deviations", path: "/records/deviation" },
  { name: "deviation-new", path: "/records/deviation?new=1" },
  { name: "bench-step-new", path: "/records/bench-step?new=1" },
  { name: "questions", path: "/records/questions", most: 2 },
  { name: "lot-pieces", path: "/records/questions?question=lot&of=veneer-31-7", when: "demo", most: 1 },
  { name: "trail", path: "/records/trail" },
  { name: "setup", path: "/setup" },
  { name: "search", path: "/search?word=crown" },
];

/** Screens looked at in short runs too; the others are held in full counts. */
export const LABS = ["demo", "empty"];
