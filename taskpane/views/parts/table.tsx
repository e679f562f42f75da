/** A table under its caption; the first cell of a row is its heading where the columns have headings. */
export interface TableCell {
  readonly text: string;
  /** Every digit of a number. */
  readonly full?: string | undefined;
}

export interface TableProps {
  readonly caption: string;
  readonly headings?: readonly string[] | undefined;
  readonly rows: readonly (readonly TableCell[])[];
}

export function Table({ caption, headings, rows }: TableProps) {
  return (
    <table class="feed-table">
      <caption>{caption}</caption>
      {headings && (
        <thead>
          <tr>
            {headings.map((heading, index) => (
              <th scope="col" key={index}>
                {heading}
              </th>
            ))}
          </tr>
        </thead>
      )}
      <tbody>
        {rows.map((cells, row) => (
          <tr key={row}>
            {cells.map(({ text, full }, index) =>
              headings && index === 0 ? (
                <th scope="row" key={index}>
                  {text}
                </th>
              ) : (
                <td title={full} key={index}>
                  {text}
                </td>
              ),
            )}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
