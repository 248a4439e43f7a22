// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// How a page looks. Colours have a contrast of 4.5 or more in both schemes. A border and its colour
// are two declarations: WeasyPrint accepts no variable within a shorthand.
namespace areo::document {

inline constexpr const char* page_style = R"(
:root { color-scheme: light dark; --ink: #1a1a1a; --paper: #ffffff; --soft: #4d4d4d;
  --line: #c8c8c8; --tint: #f2f5f7; --mark: #8a4b00; --mark-tint: #fff6e8; }
@media (prefers-color-scheme: dark) { :root { --ink: #ececec; --paper: #16181a; --soft: #b8bcc0;
  --line: #474c50; --tint: #22272a; --mark: #ffc46b; --mark-tint: #2e2716; } }
* { box-sizing: border-box; }
body { margin: 0 auto; padding: 1rem; max-width: 60rem; background: var(--paper);
  color: var(--ink); font: 1rem/1.5 system-ui, "DejaVu Sans", sans-serif;
  overflow-wrap: anywhere; }
h1 { font-size: 1.7rem; line-height: 1.2; margin: 0.5rem 0; }
h2 { font-size: 1.25rem; margin: 2rem 0 0.5rem; border-bottom: 2px solid;
  border-color: var(--line); }
h3 { font-size: 1.05rem; margin: 1.25rem 0 0.25rem; }
p { margin: 0.5rem 0; max-width: 44rem; }
.headline { background: var(--tint); border-left: 0.4rem solid; border-color: var(--line);
  padding: 0.75rem 1rem; margin: 1rem 0; }
.headline strong { font-size: 1.5rem; line-height: 1.3; display: block; }
.caution { background: var(--mark-tint); border-left: 0.4rem solid; border-color: var(--mark);
  padding: 0.5rem 1rem; }
.caution::before { content: "Caution: "; font-weight: bold; color: var(--mark); }
figure { margin: 1rem 0; }
svg { display: block; width: 100%; max-width: 34rem; height: auto; }
figcaption, caption, footer { color: var(--soft); font-size: 0.9rem; text-align: left; }
table { border-collapse: collapse; width: 100%; margin: 1rem 0; font-size: 0.9rem;
  font-variant-numeric: tabular-nums; }
caption { padding-bottom: 0.25rem; }
th, td { text-align: left; vertical-align: top; padding: 0.25rem 0.5rem;
  border-bottom: 1px solid; border-color: var(--line); }
.short { white-space: nowrap; }
th { overflow-wrap: normal; }
.numbers th, .numbers td { text-align: right; }
.many { font-size: 0.8rem; }
.many th, .many td { padding: 0.2rem 0.3rem; }
.long { overflow-wrap: anywhere; }
footer { margin-top: 2.5rem; border-top: 1px solid; border-color: var(--line);
  padding-top: 0.5rem; }
.half { display: inline-block; width: 49%; vertical-align: top; }
@media screen and (max-width: 54rem) {
  .half { display: block; width: auto; }
  thead { position: absolute; left: 0; width: 1px; height: 1px; overflow: hidden;
    clip-path: inset(50%); }
  tr, td { display: block; }
  tbody tr { border: 1px solid; border-color: var(--line); margin-bottom: 0.5rem; }
  td { border: 0; padding-left: 45%; position: relative; min-height: 1.9rem; }
  td::before { content: attr(data-column); position: absolute; left: 0.5rem; width: 40%;
    color: var(--soft); }
  td:empty { display: none; }
}
@page { margin: 15mm; font: 8pt "DejaVu Sans", sans-serif;
  @bottom-right { content: "sheet " counter(page) " of " counter(pages); } }
@media print {
  :root { --ink: #000000; --paper: #ffffff; --soft: #333333; --tint: #ffffff;
    --mark-tint: #ffffff; --mark: #000000; }
  html { font-size: 9.5pt; }
  body { max-width: none; padding: 0; line-height: 1.35; overflow-wrap: break-word; }
  p { max-width: none; }
  h2 { margin-top: 1rem; }
  .headline { padding: 0.25rem 0.75rem; margin: 0.5rem 0; }
  .headline p { margin: 0.1rem 0; }
  .headline strong { font-size: 1.3rem; }
  .caution { padding: 0.25rem 0.75rem; }
  svg { max-width: 100mm; }
  figure { margin: 0.5rem 0; }
  ul { margin: 0.25rem 0; }
  footer { margin-top: 1rem; }
  h2, h3 { break-after: avoid; }
  figure, tr, .headline, .caution { break-inside: avoid; }
  thead { display: table-header-group; }
  caption, thead { break-after: avoid; }
  table:not(:has(tr:nth-child(13))) { break-inside: avoid; }
}
)";

// A picture alone, as wide as the paper lets it be.
inline constexpr const char* picture_style = R"(
@page { size: A4 landscape; margin: 20mm; }
body { margin: 0; color: #000000; }
svg { display: block; width: 100%; max-height: 165mm; }
)";

// To be read from a step away, and wiped: black on white, nothing grey, a line under each row.
inline constexpr const char* wall_style = R"(
@media print {
  @page { margin: 10mm 12mm; @top-right { content: none; } @bottom-right { content: none; } }
  :root { --soft: #000000; --line: #000000; }
  body { line-height: 1.2; }
  h1 { font-size: 2.2rem; line-height: 1; margin: 0 0 0.5rem; }
  .headline { border: 3pt solid #000000; padding: 0.6rem 0.8rem; margin: 0 0 0.8rem; }
  .headline strong { font-size: 1.9rem; line-height: 1.15; }
  .headline p { margin: 0.3rem 0 0; }
  caption { font-size: 1rem; padding-bottom: 0.5rem; }
  table { font-size: 1.5rem; margin: 0 0 0.7rem; }
  th, td { border-bottom: 0.75pt solid #000000; }
  thead th { font-size: 1.1rem; vertical-align: bottom; padding: 0 0.25rem 0.2rem;
    border-bottom: 2.5pt solid #000000; }
  td:first-child { font-weight: bold; border-right: 1.5pt solid #000000; }
  tbody tr:last-child td { border-bottom: 2.5pt solid #000000; }
  main > p { margin: 0.3rem 0; }
  .caution { border: 1.5pt solid #000000; padding: 0.3rem 0.6rem; }
  footer { border: 0; margin-top: 0.5rem; padding: 0; font-size: 0.62rem; }
  footer p { display: inline; }
  footer p:not(:last-child)::after { content: "; "; }
}
)";

// To be filled in with a pen: boxes 9 mm high.
inline constexpr const char* pen_style = R"(
@media print {
  @page { margin: 10mm; @top-right { content: none; }
    @bottom-right { vertical-align: top; padding-top: 1mm; } }
  :root { --soft: #000000; --line: #000000; }
  h1 { font-size: 1.5rem; margin: 0 0 0.3rem; }
  .headline { border: 0; padding: 0; margin: 0 0 0.4rem; line-height: 1.6; }
  table { table-layout: fixed; margin: 0 0 0.3rem; }
  th, td { border: 0.75pt solid #000000; padding: 0.1rem 0.3rem; text-align: left; }
  th { font-size: 0.85rem; vertical-align: bottom; border-bottom-width: 2pt; }
  .numbers th, .numbers td { text-align: left; }
  td { height: 9mm; }
  main > p { margin: 0.2rem 0; }
  footer { border: 0; margin-top: 0.2rem; padding: 0; font-size: 0.75rem; }
  footer p { display: inline; }
}
)";

}  // namespace areo::document
