import type { ComponentChildren } from "preact";
import type { DocumentValue, FormField, Kind } from "../api/types";
import { pathOf } from "../shell/routes";
import { several, Table, type Column } from "../parts";
import { day, momentInFull, t } from "../words";
import { quantityText } from "./quantity";
import { sections, type Section, type ShownValue } from "./shown";

export interface ValuesProps {
  fields: readonly FormField[];
  values: readonly DocumentValue[];
  leaveOut?: ReadonlySet<string>;
}

/** Everything a document says, in plain tables with units, in the order of its form. */
export function Values({ fields, values, leaveOut }: ValuesProps) {
  const shown = sections(fields, values, leaveOut);
  if (shown.length === 0) return <p>{t("kept.nothing_said")}</p>;
  return (
    <div class="values">
      {shown.map((section) => (
        <div key={section.title ?? ""} class={`values-section values-${section.kind}`}>
          <SectionView section={section} />
        </div>
      ))}
    </div>
  );
}

function SectionView({ section }: { section: Section }) {
  if (section.kind === "rows") return <Rows title={section.title} fields={section.fields} rows={section.rows} />;
  return (
    <table class="pairs">
      <caption class={section.title === null ? "read-out" : ""}>{section.title ?? t("kept.values")}</caption>
      <tbody>
        {section.values.map(({ field, value }) => (
          <tr key={value.key}>
            <th scope="row">{field.label}</th>
            <td>
              <ValueText field={field} value={value} />
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

type Numbered = { number: number; cells: (ShownValue | null)[] };

function Rows({ title, fields, rows }: { title: string; fields: FormField[]; rows: (ShownValue | null)[][] }) {
  const columns: Column<Numbered>[] = [
    { key: "#", head: t("kept.order"), names: true, cell: (row) => String(row.number) },
    ...fields.map((field, at): Column<Numbered> => {
      return { key: field.key, head: field.label, cell: (row) => (row.cells[at] ? <ValueText {...row.cells[at]} /> : "–") };
    }),
  ];
  return <Table caption={title} columns={columns} rows={rows.map((cells, at) => ({ number: at + 1, cells }))} keyOf={(row) => String(row.number)} />;
}

/** One value as people read it: choices and truths in words, days and moments as written here, names as links to what they name. */
export function ValueText({ field, value }: ShownValue): ComponentChildren {
  const chosen = field.choices?.find((choice) => choice.value === value.typed);
  if (chosen) return chosen.label;
  if (field.type === "truth") return value.typed === "true" ? t("parts.yes") : t("parts.no");
  if (field.refers_to) return <Names kind={field.refers_to as Kind} names={several(value.typed)} />;
  if (field.kind === "a date") return day(value.typed);
  if (field.kind === "a time in UTC") return momentInFull(value.typed);
  return quantityText(value, field.kind);
}

export function Names({ kind, names }: { kind: Kind; names: readonly string[] }) {
  return (
    <span class="names">
      {names.map((name, at) => (
        <span key={name}>
          {at > 0 ? ", " : ""}
          <a class="name-link" href={pathOf(kind, name)}>
            {name}
          </a>
        </span>
      ))}
    </span>
  );
}
