/** Black on white for paper, A4 or Letter as the printer has it; wide tables lie across a page of their own. */

/** @param left At the foot of every page. @param right Before the page number. */
export function reportStyle(left: string, right: string): string {
  return `
body { margin: 2rem auto; max-width: 70rem; padding: 0 1rem; color: #111; background: #fff; font: 10.5pt/1.4 "Liberation Sans", Arial, Helvetica, sans-serif; }
h1 { font-size: 22pt; line-height: 1.2; margin: 12mm 0 4mm; } h2 { margin-top: 8mm; font-size: 14pt; break-after: avoid; } h3 { font-size: 11pt; break-after: avoid; }
section { padding-right: 0.5mm; } p { break-inside: avoid; } ul, ol { padding-left: 5mm; } ul { break-inside: avoid; } .notes { font-size: 8pt; margin: -3mm 0 5mm; break-before: avoid; } .notes li { break-inside: avoid; } .whole { white-space: nowrap; }
table { border-collapse: collapse; font-size: 8pt; margin: 2mm 0 5mm; } caption.line { white-space: nowrap; } caption { text-align: left; font-weight: bold; padding: 1mm 0; break-after: avoid; }
th, td { border: 1px solid #999; padding: 0.6mm 1.5mm; text-align: left; vertical-align: top; } th, thead td { background: #eee; } thead { display: table-header-group; break-after: avoid; } tbody tr:nth-child(-n+2), tbody tr:nth-last-child(-n+2) { break-before: avoid; } tr, .short { break-inside: avoid; }
.number { text-align: right; white-space: nowrap; font-variant-numeric: tabular-nums; }
.facts { font-size: 10.5pt; width: 100%; } .facts th, .facts td { padding: 2mm; vertical-align: middle; } .sign td { height: 9mm; }
.across { page: across; } .cover { break-after: page; } figure { margin: 0 0 6mm; break-inside: avoid; }
svg { max-width: 100%; height: auto; max-height: 165mm; }
@page { margin: 15mm 15mm 18mm; @bottom-left { ${margin(cssText(left))} } @bottom-right { ${margin(`${cssText(right)} " · Page " counter(page) " of " counter(pages)`)} } }
@page across { size: landscape; }
@media print { body { margin: 0; max-width: none; padding: 0; } th { print-color-adjust: exact; } }
`;
}

function margin(content: string): string {
  return `font: 8pt sans-serif; color: #444; content: ${content};`;
}

/** Nothing of a title can end the text, or the style. */
function cssText(content: string): string {
  const escaped = content.replaceAll(
    /[^\p{L}\p{N} .,:·]/gu,
    (sign) => `\\${(sign.codePointAt(0) ?? 0).toString(16)} `,
  );
  return `"${escaped}"`;
}
