import { printFont } from '../charts/printFont.ts';

/** The page's own font, and what stands in for it where the page does not bring it or lacks a letter. */
export const reportFont = printFont;
export const reportFonts = `"${reportFont}", system-ui, "Segoe UI", "Helvetica Neue", "DejaVu Sans", sans-serif`;

/** The page's look: readable on a screen and on paper. */
export const reportStyle = `
body { font: 16px/1.5 ${reportFonts}; color: #2b2b2b; background: #fff; margin: 0; }
main { max-width: 58rem; margin: 2rem auto; padding: 0 1rem; }
h1, h2, h3 { line-height: 1.25; }
a { color: #0b5394; }
pre, code { font-family: ui-monospace, "DejaVu Sans Mono", monospace; font-size: 0.875rem; }
.prose { max-width: 46rem; }
pre.source { background: #f5f5f3; border-left: 3px solid #c9c9c4; padding: 0.6rem 0.9rem; overflow-x: auto; white-space: pre-wrap; }
figure { margin: 1rem 0; }
figure svg { max-width: 100%; height: auto; }
figcaption { color: #5f5f5f; font-size: 0.875rem; }
summary { cursor: pointer; }
.text { max-width: 46rem; margin: 0.75rem 0; }
.text p { margin: 0 0 0.25rem; }
.lead { font-size: 1.06rem; font-weight: 600; }
.aside, .reach { color: #5f5f5f; font-size: 0.875rem; }
.name { font-size: 0.875rem; font-weight: 600; margin: 0.75rem 0 0.3rem; }
/* A shade at the side on which there is more: the covers move with the table, the shades stay. */
.wide { overflow-x: auto; background: linear-gradient(to right, #fff 30%, transparent) left / 36px 100%, linear-gradient(to left, #fff 30%, transparent) right / 36px 100%, linear-gradient(to right, rgb(0 0 0 / 28%), transparent) left / 12px 100%, linear-gradient(to left, rgb(0 0 0 / 28%), transparent) right / 12px 100%; background-repeat: no-repeat; background-attachment: local, local, scroll, scroll; }
table { border-collapse: collapse; font-size: 0.875rem; font-variant-numeric: tabular-nums; margin: 0.75rem 0; }
caption { text-align: left; font-weight: 600; padding-bottom: 0.3rem; }
td { white-space: nowrap; }
td.long { white-space: normal; min-width: 16rem; }
th, td { padding: 0.2rem 0.6rem; border-bottom: 1px solid #dcdcd8; text-align: left; vertical-align: top; }
th.right, td.right { text-align: right; }
thead th { border-bottom: 2px solid #8a8a85; vertical-align: bottom; max-width: 9rem; }
.unit { font-weight: 400; white-space: nowrap; color: #5f5f5f; }
.message { border-left: 3px solid #b8860b; padding-left: 0.7rem; margin: 0.5rem 0; font-size: 0.875rem; max-width: 52rem; }
.message.error { border-color: #b00020; }
.message.note { border-color: #6b7a90; }
.sources code { word-break: break-all; }
img { max-width: 100%; }
thead .caption th { display: none; }
.on-paper { display: none; }
@page { margin: 16mm 15mm 18mm; @bottom-right { content: counter(page) " / " counter(pages); font: 8pt ${reportFonts}; } }
@media print {
  html { font-size: 9.5pt; }
  body { font-size: 9.5pt; }
  main { max-width: none; margin: 0; padding: 0; }
  .cell { break-inside: auto; }
  figure, tr, pre.source, .wide.short, .prose table { break-inside: avoid; }
  h1, h2, h3, pre.source, .name, .lead { break-after: avoid; }
  p, li { orphans: 3; widows: 3; }
  .prose, .text, .message { max-width: none; }
  .wide { overflow: visible; background: none; }
  .on-screen { display: none; }
  .on-paper { display: block; }
  .broad .unit { white-space: normal; }
  caption { display: none; }
  thead { display: table-header-group; }
  thead .caption { display: table-row; }
  thead .caption th { display: table-cell; max-width: none; border-bottom: none; text-align: left; }
  table { font-size: 8pt; max-width: 100%; }
  .broad table { font-size: 7pt; }
  .broad th, .broad td { padding: 0.15rem 0.3rem; }
  td, td.long { white-space: normal; overflow-wrap: break-word; min-width: 0; }
  td.right, td.whole { white-space: nowrap; }
  figure svg { max-width: 100%; max-height: 230mm; height: auto; }
  figcaption { display: none; }
}
`;
