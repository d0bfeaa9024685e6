import type { ComponentChildren } from "preact";

export interface Column<Row> {
  key: string;
  head: string;
  cell: (row: Row) => ComponentChildren;
  /** The cell that names the row. */
  names?: boolean;
  number?: boolean;
  /** Words somebody wrote, which may be without an end. */
  free?: boolean;
}

export interface TableProps<Row> {
  caption: string;
  /** The caption stands above already: then it is read out only. */
  quiet?: boolean;
  columns: readonly Column<Row>[];
  rows: readonly Row[];
  keyOf: (row: Row) => string;
}

/** Rows under headings; on a small screen each row becomes a block with its headings beside the values. */
export function Table<Row>({ caption, quiet = false, columns, rows, keyOf }: TableProps<Row>) {
  return (
    <table class="table">
      <caption class={quiet ? "read-out" : ""}>{caption}</caption>
      <thead>
        <tr>
          {columns.map((column) => (
            <th key={column.key} scope="col" class={column.number ? "table-number" : ""}>
              {column.head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={keyOf(row)}>
            {columns.map((column) => {
              const inside = (
                <>
                  <span class="table-label">{column.head}</span>
                  <span class="table-value">{column.cell(row)}</span>
                </>
              );
              const look = column.number ? "table-number" : column.free ? "table-free" : "";
              return column.names ? (
                <th key={column.key} scope="row" class={look}>
                  {inside}
                </th>
              ) : (
                <td key={column.key} class={look}>
                  {inside}
                </td>
              );
            })}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
