/** Black on white for paper; wide tables shrink rather than lose a column. */
export const REPORT_STYLE = `
body { margin: 2rem auto; max-width: 60rem; padding: 0 1rem; color: #111; background: #fff; font: 11pt/1.4 system-ui, sans-serif; }
h1 { font-size: 1.6rem; } h2 { margin-top: 2rem; font-size: 1.15rem; break-after: avoid; } h3 { font-size: 1rem; overflow-wrap: anywhere; break-after: avoid; }
table { width: 100%; border-collapse: collapse; font-size: 8.5pt; margin: 0.5rem 0 1rem; } caption { text-align: left; color: #444; padding: 0.25rem 0; }
th, td { border: 1px solid #999; padding: 2px 5px; text-align: left; vertical-align: top; overflow-wrap: anywhere; } thead { display: table-header-group; } tr { break-inside: avoid; }
svg { max-width: 100%; height: auto; }
@page { margin: 15mm; }
`;
