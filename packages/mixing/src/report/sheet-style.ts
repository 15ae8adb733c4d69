/** The sheet's looks: one A4 column that prints in black, with boxes to tick by pen. No script, no outside file. */
export const SHEET_STYLE = `
  @page { size: A4; margin: 14mm 15mm }
  .sheet { --ink: #1c2426; --soft: #5b6668; --rule: #b9c0bf; --wash: #f3f1ea; --warn: #7a2e00 }
  .sheet, .sheet * { box-sizing: border-box }
  body { margin: 0; background: #fff }
  .sheet { display: block; margin: 0 auto; max-width: 190mm; padding: 8mm 6mm; color: var(--ink); background: #fff;
    font: 10.5pt/1.45 "Archivo", "Segoe UI", "Noto Sans", "DejaVu Sans", Arial, sans-serif }
  header { display: flex; justify-content: space-between; align-items: end; gap: 8mm; border-bottom: 2px solid var(--ink); padding-bottom: 3mm }
  h1 { font-size: 20pt; line-height: 1.1; margin: 0 }
  h2 { font-size: 12.5pt; margin: 7mm 0 2mm; break-after: avoid }
  p { margin: 0 0 2mm }
  .soft { color: var(--soft) }
  .pen { display: inline-block; min-width: 42mm; border-bottom: 1px solid var(--ink); height: 1.3em }
  .cautions { border: 2px solid var(--warn); border-radius: 2mm; padding: 3mm 4mm; margin: 5mm 0 0; break-inside: avoid }
  .cautions h2 { margin: 0 0 1mm; color: var(--warn) }
  ul { margin: 0; padding-left: 5mm }
  ul.boxes { list-style: none; padding: 0 }
  ul.boxes li { padding-left: 7mm; position: relative; margin: 0 0 1.6mm; break-inside: avoid }
  ul.boxes li::before { content: ""; position: absolute; left: 0; top: .15em; width: 3.6mm; height: 3.6mm; border: 1.2px solid var(--ink); border-radius: .6mm }
  table { border-collapse: collapse; width: 100%; margin: 0 0 2mm }
  th, td { text-align: left; padding: 1mm 2mm 1mm 0; border-bottom: 1px solid var(--rule); vertical-align: top }
  th { font-weight: 600; color: var(--soft); font-size: 9pt }
  td.n, th.n { text-align: right; font-variant-numeric: tabular-nums; white-space: nowrap }
  tr { break-inside: avoid }
  .verdict { background: var(--wash); padding: 2.5mm 3mm; border-radius: 1.5mm; break-inside: avoid }
  @media print { .sheet { padding: 0; max-width: none } }
`;
