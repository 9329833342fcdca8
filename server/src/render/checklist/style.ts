/** What the checklist adds to the rules that all documents share. Rows leave 10 mm to write in with gloves on. */
export const CHECKLIST_CSS = `.band { position: sticky; top: 0; margin: 0 0 4mm; padding: 2mm 3mm; border: 2pt solid #000; background: #fff; font-weight: 700; text-align: center; }
h2.minor { font-size: 11pt; margin: 5mm 0 1.5mm; padding: 0; border: 0; }
.title-block { display: flex; gap: 6mm; align-items: flex-start; }
.title-block dl { flex: 1; margin: 0; }
.title-block dl div { display: flex; border-bottom: 0.5pt solid #000; padding: 1mm 0; }
.title-block dt { width: 34mm; flex: none; font-size: 9pt; }
.title-block dd { margin: 0; font-weight: 700; }
.pairs { display: grid; grid-template-columns: 1fr 1fr; column-gap: 6mm; font-size: 9.5pt; }
.pairs div { display: flex; justify-content: space-between; gap: 3mm; border-bottom: 0.5pt solid #000; padding: 0.6mm 0; }
.pairs dd { margin: 0; font-weight: 700; }
.code { margin: 0; width: 36mm; flex: none; text-align: center; }
.code svg { display: block; width: 36mm; height: 36mm; }
.fingerprint { margin: 2mm 0 3mm; }
.counts, .figures { margin: 3mm 0; break-inside: avoid; }
.counts td { font-size: 12pt; font-weight: 700; }
.figures th[scope=row] { font-weight: 400; }
.figures td, .figures th { padding: 0.7mm 1.8mm; font-size: 9.5pt; }
.tasks, .settings, .log { margin: 0 0 3mm; }
.tasks .tick, .settings .tick { width: 13mm; padding: 1.2mm 0; text-align: center; }
.box { display: inline-block; width: 6mm; height: 6mm; border: 1pt solid #000; background: #fff; }
.tasks .limit { width: 46mm; }
.tasks .entry { width: 36mm; }
td.entry { padding: 0; }
.settings .value { width: 31mm; }
.settings .limit { width: 31mm; }
.settings .entry { width: 30mm; }
.tasks tbody td, .settings tbody td { height: 10mm; }
.planned { display: block; }
.note { display: block; font-size: 9pt; line-height: 1.3; }
.note code, .hold code { font-size: 7.5pt; }
.write { position: relative; display: flex; justify-content: space-between; align-items: flex-end; min-height: 10mm; padding: 0.5mm 1.5mm; border-bottom: 0.5pt solid #000; }
td > .write:last-child { border-bottom: 0; }
.write .small { align-self: flex-start; font-size: 7.5pt; }
.unit { font-size: 8.5pt; white-space: nowrap; }
.grid { display: grid; grid-template-columns: repeat(auto-fill, minmax(22mm, 1fr)); margin: 1mm 0; border: 0.5pt solid #000; border-width: 0.5pt 0 0 0.5pt; }
.grid .write { border: 0.5pt solid #000; border-width: 0 0.5pt 0.5pt 0; }
.caution td { border: 1.5pt solid #000; border-left-width: 6pt; height: auto; }
.hold td { border-top: 2pt solid #000; border-bottom: 2pt solid #000; }
.signature { display: flex; gap: 4mm; margin: 2mm 0 1mm; }
.line { flex: 1; height: 13mm; border-bottom: 0.75pt solid #000; }
.group th { font-size: 10pt; border-top-width: 1.5pt; break-after: avoid; }
.group { break-after: avoid; }
.log { table-layout: fixed; }
.log th:first-child { width: 34mm; font-size: 9pt; }
.log th[scope=row] { font-weight: 400; }
.log thead th { text-align: center; padding: 1mm; white-space: nowrap; }
.log td { height: 10mm; }
@media print {
  .band { display: none; }
  .stage { break-before: page; }
  .stage > h2 { margin-top: 0; }
  .stage:first-of-type { break-before: auto; }
  .caution { break-after: avoid; }
}`;
