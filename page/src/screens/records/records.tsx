import type { ComponentType } from "preact";
import type { Kind } from "../../api/types";
import { ChangePage, DocumentPage, NewPage } from "../../kept/page";
import { Empty, Heading } from "../../parts";
import { asked } from "../../shell/navigation";
import type { ScreenProps } from "../../shell/routes";
import { t, type PlainWord } from "../../words";
import { CasePage } from "./case_page";
import { DeviationPage, NewDeviation } from "./deviation_page";
import { KindList } from "./kind_list";
import { LotPage } from "./lot_page";
import { NewBenchStep } from "./new_bench_step";
import { PiecePage } from "./piece_page";
import { Questions } from "./questions";
import { Shelves } from "./shelves";
import { Trail } from "./trail";

/** How a kind of document is called and looked at in the records. */
interface Shelf {
  many: PlainWord;
  new: PlainWord | null;
  page?: ComponentType<{ name: string }>;
  fresh?: ComponentType;
}

const SHELVES: Partial<Record<Kind, Shelf>> = {
  case: { many: "records.kinds.case", new: "records.new.case", page: CasePage },
  piece: { many: "records.kinds.piece", new: "records.new.piece", page: PiecePage },
  lot: { many: "records.kinds.lot", new: "records.new.lot", page: LotPage },
  check: { many: "records.kinds.check", new: "records.new.check" },
  reference: { many: "records.kinds.reference", new: "records.new.reference" },
  deviation: { many: "records.kinds.deviation", new: "records.new.deviation", page: DeviationPage, fresh: NewDeviation },
  "bench-step": { many: "records.kinds.bench_step", new: "records.new.bench_step", fresh: NewBenchStep },
  instruction: { many: "records.kinds.instruction", new: "records.new.instruction" },
  material: { many: "records.kinds.material", new: "records.new.material" },
  liquid: { many: "records.kinds.liquid", new: "records.new.liquid" },
  alloy: { many: "records.kinds.alloy", new: "records.new.alloy" },
  tray: { many: "records.kinds.tray", new: "records.new.tray" },
  support: { many: "records.kinds.support", new: "records.new.support" },
};

/** Cases and all that is kept about them, and the questions an inspector asks. */
export default function Records({ rest }: ScreenProps) {
  const [kind = "case", name] = rest;
  if (kind === "questions") return <Questions />;
  if (kind === "trail") return <Trail />;
  const shelf = Object.hasOwn(SHELVES, kind) ? SHELVES[kind as Kind] : undefined;
  if (!shelf) return <><Heading>{t("records.title")}</Heading><Shelves at="" /><Empty title={t("records.no_such_kind", { kind })} /></>;
  if (name !== undefined) return <Kept kind={kind as Kind} name={name} shelf={shelf} />;
  if (!asked.value.has("new") || shelf.new === null) return <KindList kind={kind as Kind} title={t(shelf.many)} add={shelf.new === null ? null : t(shelf.new)} />;
  return shelf.fresh ? <shelf.fresh /> : <NewPage kind={kind as Kind} title={t(shelf.new)} />;
}

function Kept({ kind, name, shelf }: { kind: Kind; name: string; shelf: Shelf }) {
  if (asked.value.has("change")) return <ChangePage kind={kind} name={name} />;
  return shelf.page ? <shelf.page name={name} /> : <DocumentPage kind={kind} name={name} />;
}
