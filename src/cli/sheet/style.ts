/** How a sheet looks: black on white, 10 pt or more, on Letter and A4 alike. */

/** Papers that a sheet may be made for; without one it takes what the printer has. */
export const PAPERS = ['letter', 'a4'] as const;
export type PaperName = (typeof PAPERS)[number];

/** Text stands, drawings lie: each is made to fit both papers within margins of 10 mm. */
export function styleFor(paper: PaperName | undefined): string {
  const standing = paper === undefined ? '' : `size: ${paper} portrait; `;
  const lying = paper === undefined ? 'size: landscape; ' : `size: ${paper} landscape; `;
  return `
  @page { ${standing}margin: 10mm }
  @page lying { ${lying}margin: 10mm }
  * { box-sizing: border-box }
  body { font: 10.5pt/1.3 Arial, Helvetica, 'Liberation Sans', sans-serif; color: #000; background: #fff; margin: 0 }
  h1 { font-size: 17pt; line-height: 1.15; margin: 0 0 1mm; overflow-wrap: anywhere }
  h2 { font-size: 12.5pt; margin: 5mm 0 1.5mm; padding-top: 1mm; border-top: 0.5mm solid #000; break-after: avoid }
  h3 { font-size: 10.5pt; margin: 2.5mm 0 0.5mm; break-after: avoid; overflow-wrap: anywhere }
  p { margin: 0 0 1.5mm; overflow-wrap: anywhere }
  .verdict { border: 0.7mm solid #000; padding: 2mm 3mm; font-size: 13pt; font-weight: bold; margin: 2mm 0 }
  .caution { border: 0.4mm solid #000; padding: 2mm 3mm; margin: 3mm 0; break-inside: avoid }
  table { border-collapse: collapse; width: 100% }
  thead { display: table-header-group }
  tr { break-inside: avoid }
  th { text-align: left; vertical-align: bottom; font-weight: bold; white-space: nowrap }
  td, th { padding: 0.7mm 1.2mm; overflow-wrap: anywhere }
  td { border-top: 0.2mm solid #777; vertical-align: top }
  .told th { width: 27mm; vertical-align: top; border-top: 0.2mm solid #777 }
  .blank { border-bottom: 0.4mm solid #000; min-width: 22mm; height: 7mm }
  .card .blank, .rules .blank { width: 27mm }
  .adjusters .blank, .driveline .blank, .asbuilt .blank { width: 24mm }
  pre { font: 10pt/1.25 'Liberation Mono', monospace; border: 0.2mm solid #777; padding: 2mm; margin: 0 0 1.5mm; white-space: pre-wrap }
  .adjusters td, .driveline td { white-space: nowrap }
  .adjusters td:first-child { white-space: normal; font-weight: bold }
  .mounts .blank { width: 24mm }
  .mounts td:first-child { font-weight: bold }
  .pattern { break-inside: avoid; margin: 0 0 3mm }
  .pattern svg { display: block }
  .order { break-inside: avoid }
  ol { margin: 0 0 1.5mm; padding-left: 8mm }
  .card td:first-child { font-weight: bold }
  .card td { font-size: 12pt; padding: 1.3mm 1.2mm }
  .rules td:nth-child(n+5), .rest td:nth-child(n+2) { white-space: nowrap }
  .trims td:nth-child(-n+5), .trims th, .options td, .binds td:nth-child(n+2) { white-space: nowrap }
  .trims td:first-child { white-space: normal }
  .rest { columns: 2; column-gap: 6mm }
  .rest table { font-size: 10pt }
  .rest td { padding: 0.4mm 0.8mm }
  .rest .blank { width: 17mm; min-width: 17mm; height: 5.6mm }
  .drawing { page: lying; break-before: page; break-after: page; break-inside: avoid; width: 257mm }
  .drawing svg { display: block }
  .drawing + .drawing { break-before: auto }
  @media screen { body { padding: 6mm 4mm; margin: 0 auto; width: 265mm } .drawing { margin: 6mm 0 } }
`;
}
