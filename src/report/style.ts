import { cssVariables, inks } from '../look/tokens.ts';

/** The style sheet of the report: paper by day and in print, dark where the system asks for it on a screen. */
export function styleSheet(): string {
  return `:root {
  color-scheme: light dark;
  ${cssVariables('paper')}
  --measure: 42rem;
}
@media screen and (prefers-color-scheme: dark) { :root { ${cssVariables('dark')} } }
${rules}
${Object.keys(inks)
  .map((ink) => `.ink-${ink} { stroke: var(--ink-${ink}); }`)
  .join('\n')}
${print}`;
}

const rules = `* { box-sizing: border-box; }
html { font-size: 100%; -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
body {
  margin: 0; background: var(--ground); color: var(--text);
  font: 1.0625rem/1.55 var(--font); font-variant-numeric: tabular-nums; overflow-wrap: anywhere;
}
.sheet { max-width: 62rem; margin: 0 auto; padding: var(--s5) var(--s4) 4rem; }
h1, h2, h3, h4, p, ul, ol, dl, figure, table { margin: 0; }
h1, h2, h3 { line-height: 1.2; text-wrap: balance; }
h1 { font-size: clamp(1.8rem, 1.3rem + 2.4vw, 2.75rem); font-weight: 700; letter-spacing: -0.015em; }
h2 { font-size: 1.45rem; font-weight: 650; margin-bottom: var(--s4); }
h3 { font-size: 1.125rem; font-weight: 650; }
p + p { margin-top: 0.7em; }
section, .cover { margin-top: 2.75rem; }
.cover { margin-top: 0; padding-bottom: var(--s5); border-bottom: 3px solid var(--pine); }
.overline { color: var(--pine); font-weight: 650; display: flex; gap: var(--s2); align-items: center; }
.overline svg { flex: none; }
.team { font-size: 1.2rem; margin-top: var(--s2); }
.about { color: var(--text-soft); margin-top: var(--s1); }
.prose { max-width: var(--measure); }
.soft { color: var(--text-soft); }
.small { font-size: 0.9375rem; }
.fig, .frame { white-space: nowrap; }
.pm { color: var(--text-soft); font-size: 0.9em; }
strong .pm, .big .pm { font-weight: 400; }

.well { background: var(--pine-soft); border-radius: var(--radius); padding: var(--s5); border-left: 6px solid var(--pine); }
.well h2 { color: var(--pine); margin-bottom: var(--s2); }
.well p, .well li { max-width: var(--measure); font-size: 1.125rem; }
.well ul { padding: 0; list-style: none; }
.well li { padding: 0.3em 0 0.3em 1.7rem; position: relative; }
.well li span { color: var(--text); }
.well li svg { position: absolute; left: 0; top: 0.72em; }

.stats { display: grid; grid-template-columns: repeat(auto-fit, minmax(12rem, 1fr)); gap: var(--s4) var(--s5); }
.stats div { display: flex; flex-direction: column; }
.stats dt { color: var(--text-soft); font-size: 0.9375rem; }
.stats dd { margin: 0; font-size: 1.125rem; }
.stats .wide { grid-column: 1 / -1; }
.stats .big { font-size: clamp(2rem, 1.6rem + 2vw, 2.75rem); font-weight: 650; line-height: 1.15; letter-spacing: -0.01em; }
.stats .big .pm { font-size: 0.5em; letter-spacing: 0; }
.stats .by { color: var(--text-soft); font-size: 0.9375rem; }

.band { margin-top: var(--s5); line-height: 0; }
.band svg { overflow: visible; margin-top: var(--s2); vertical-align: top; }
.band .run { stroke: var(--pine); stroke-width: 5; }
.band .lead-in { stroke-dasharray: 2 4; }
.band .post { stroke: var(--line-strong); stroke-width: 1.5; }
.band .plate { fill: var(--raised); stroke: var(--line-strong); stroke-width: 1.5; }
.band text { font: 600 13px/1 var(--font); fill: var(--text); }
.band g { fill: currentColor; stroke: currentColor; }
.band .seen { fill: var(--accent); }
figcaption, caption { text-align: left; color: var(--text-soft); font-size: 0.9375rem; line-height: 1.45; }
.band + figcaption { margin-top: var(--s3); max-width: var(--measure); }
.band + figcaption svg { vertical-align: -1px; margin: 0 3px 0 var(--s2); fill: currentColor; stroke: currentColor; }
.key { white-space: nowrap; }

.map { margin-top: var(--s5); }
.map svg { display: block; width: 100%; height: auto; background: var(--raised); border-radius: var(--radius); }
.map { max-width: 40rem; }
.map.tall { max-width: 24rem; }
.beside { container-type: inline-size; display: grid; gap: var(--s5) var(--s6); align-items: start; }
.beside .map { margin-top: 0; }
.map figcaption { margin-top: var(--s2); }
.m-ring { fill: none; stroke: var(--line); }
.m-order { fill: none; stroke: var(--line-strong); stroke-dasharray: 0.2 0.5; stroke-linecap: round; }
.m-start, .m-finish { fill: none; stroke: var(--text-soft); }
.m-bar { stroke: var(--accent); }
.m-wing, .m-plank { stroke: var(--text); }
.m-plank { stroke: var(--text-soft); }
.m-contact { stroke: var(--data-orange); }
.m-tube { fill: none; stroke: var(--data-blue); stroke-linejoin: round; opacity: 0.75; }
.m-mouth { fill: var(--raised); stroke: var(--data-blue); }
.m-pole { fill: var(--accent); }
.m-spot { fill: var(--raised); stroke: var(--line-strong); }
.l-real, .l-wanted, .map .casing { fill: none; stroke-linecap: round; stroke-linejoin: round; }
.map .casing { stroke: var(--raised); opacity: 0.75; }
.l-real { stroke: var(--pine); }
.l-wanted { stroke: var(--accent); }
.map text { paint-order: stroke; stroke: var(--raised); stroke-width: 0.25em; stroke-linejoin: round; font-family: var(--font); font-weight: 650; fill: var(--text); text-anchor: middle; dominant-baseline: central; font-size: 1em; }

table { border-collapse: collapse; width: 100%; }
caption { padding-bottom: var(--s3); }
th, td { text-align: left; vertical-align: baseline; padding: var(--s2) var(--s3) var(--s2) 0; border-top: 1px solid var(--line); font-weight: 400; }
thead td { border: 0; }
thead th { color: var(--text-soft); font-size: 0.875rem; border-top: 0; padding-top: 0; }
tbody tr:last-child > * { border-bottom: 1px solid var(--line); }
.num { text-align: right; white-space: nowrap; }
th .no { display: inline-block; width: 2.1em; margin-left: -2.1em; font-weight: 650; }
.splits tbody th { padding-left: 2.1em; min-width: 8.5em; }
.share { display: block; width: 100%; height: 5px; margin-top: 3px; }
.share rect { fill: var(--pine); }
.splits .bar { width: 34%; padding-right: 0; }

.card { background: var(--raised); border: 1px solid var(--line); border-radius: var(--radius); padding: var(--s4) var(--s5) var(--s5); }
.card + .card { margin-top: var(--s4); }
.card-head { display: flex; flex-wrap: wrap; gap: var(--s2) var(--s4); align-items: center; justify-content: space-between; }
.verdict { display: inline-flex; align-items: center; gap: var(--s2); font-weight: 650; }
.v-inTime, .v-kept { color: var(--in-time); }
.v-tight { color: var(--tight); }
.v-late, .v-tooEarly, .v-broken { color: var(--late); }
.v-cannotTell, .v-notMarked, .v-standing { color: var(--open); }
.verdict svg, .well li svg { fill: currentColor; stroke: currentColor; }
.said { margin-top: var(--s3); max-width: var(--measure); font-size: 1.125rem; }
.card .soft, .card .note { margin-top: var(--s2); max-width: var(--measure); }
.note { border-left: 3px solid var(--line); padding-left: var(--s3); }

.strip { display: block; width: 100%; height: 62px; margin-top: var(--s4); overflow: visible; }
.strip .axis { stroke: var(--line-strong); }
.strip .air { fill: var(--data-sky); opacity: 0.28; }
.strip .span { fill: var(--text-soft); }
.strip .stem { stroke: var(--line-strong); }
.dot { fill: var(--raised); stroke: var(--text); stroke-width: 1.5; }
.p-cueBegins .dot, .dot.p-cueBegins { fill: var(--accent); stroke: var(--accent); }
.strip text, .n text { font: 650 13px/1 var(--font); text-anchor: middle; dominant-baseline: central; fill: var(--text); }
.strip .p-cueBegins text, .n .p-cueBegins text { fill: var(--on-accent); }

.moments { list-style: none; padding: 0; margin-top: var(--s4); display: grid; gap: var(--s4); grid-template-columns: repeat(auto-fill, minmax(19rem, 1fr)); }
.moments.plain { grid-template-columns: repeat(auto-fill, minmax(15rem, 1fr)); gap: var(--s3) var(--s4); }
.moment { display: flex; flex-direction: column; gap: var(--s2); min-width: 0; }
.pic { display: grid; background: var(--stage-surround); border-radius: var(--radius); overflow: hidden; justify-items: center; }
.pic img, .pic svg { grid-area: 1 / 1; width: 100%; height: auto; display: block; }
.pic.tall img, .pic.tall svg { width: auto; max-width: 100%; height: 22rem; }
.pic.close { position: relative; display: block; width: 100%; }
.pic.close.tall { width: auto; max-width: 100%; height: 22rem; margin-inline: auto; }
.pic .whole { position: absolute; display: grid; }
.pic.close img, .pic.close svg { width: 100%; max-width: none; height: auto; }
.pic svg { fill: none; stroke-linecap: round; stroke-linejoin: round; }
.casing { stroke: var(--data-black); opacity: 0.45; }
.legend { display: grid; grid-template-columns: 24px 1fr; gap: 0 var(--s2); line-height: 1.4; }
.legend > svg { grid-row: 1 / span 4; }
.card .legend p { grid-column: 2; margin: 0; }
.legend .soft, .legend .note { font-size: 0.9375rem; }

.facts { display: grid; grid-template-columns: repeat(auto-fill, minmax(14rem, 1fr)); gap: var(--s3) var(--s5); margin-top: var(--s5); padding-top: var(--s3); border-top: 1px solid var(--line); font-size: 0.9375rem; }
.facts dt { color: var(--text-soft); }
.facts dd { margin: 0; }

.train { border: 2px solid var(--accent); border-radius: var(--radius); padding: var(--s5); background: var(--raised); }
.train h2 { color: var(--accent); }
.cautions { margin-top: var(--s5); background: var(--sunken); border-radius: var(--radius); padding: var(--s4) var(--s5); }
.cautions h2, .cautions h3 { font-size: 1.0625rem; margin-bottom: var(--s2); }
.cautions ul { padding-left: 1.2rem; max-width: var(--measure); }
.items { padding-left: 1.2rem; }
.items li + li { margin-top: var(--s3); }
.for-coach { border: 1px dashed var(--line-strong); border-radius: var(--radius); padding: var(--s4) var(--s5); }
.rows { list-style: none; padding: 0; }
.rows li { padding: var(--s2) 0; border-top: 1px solid var(--line); }
.short section { margin-top: 1.5rem; }
.short h2 { font-size: 1.2rem; margin-bottom: var(--s2); }
.short .well p, .short .well li { font-size: 1.0625rem; }
.short .cautions { margin-top: var(--s3); }
.written { white-space: pre-line; }
.print-small { border-top: 1px solid var(--line); padding-top: var(--s5); }
.print-small, .print-small td, .print-small th { font-size: 0.9375rem; }
.print-small h2 { font-size: 1.2rem; }
.print-small h3 { font-size: 1rem; margin: var(--s5) 0 var(--s2); }
.scroll { overflow-x: auto; }
.planned { padding-left: 1.2rem; }
.after-cards { margin-top: var(--s4); }

@media (max-width: 40rem) {
  .sheet { padding: var(--s4) var(--s4) 3rem; }
  section { margin-top: 2.25rem; }
  .well, .card, .train { padding: var(--s4); }
  .splits .bar, .splits .bar-head { display: none; }
  .moments, .moments.plain { grid-template-columns: 1fr; }
  th, td { padding-right: var(--s2); }
  .num .pm { display: block; }
  thead .num { white-space: normal; }
  .splits tbody th { min-width: 6em; }
}
@container (max-width: 20rem) {
  .splits th, .splits td { padding-right: var(--s1); font-size: 0.875rem; }
  .splits tbody th { min-width: 4em; }
  .way, .way .fig { white-space: normal; }
}
@media (min-width: 40rem) {
  .map.wide text { font-size: 0.62em; }
}
@media (min-width: 58rem) {
  .beside.with-map { grid-template-columns: minmax(0, 1fr) 22rem; }
  .beside.with-map .map { order: 2; }
  .beside.with-map .bar { width: 22%; }
}`;

const print = `@media print {
  @page { margin: 14mm 12mm 16mm; }
  html { font-size: 82%; }
  body { background: none; }
  * { print-color-adjust: exact; -webkit-print-color-adjust: exact; }
  .sheet { max-width: none; padding: 0; }
  section { margin-top: 1.75rem; }
  h1, h2, h3 { break-after: avoid; }
  .card-head, .said, .strip { break-after: avoid; }
  tr, .moment, .well, .cautions, .train, .facts, .map { break-inside: avoid; }
  .moments { grid-template-columns: repeat(4, 1fr); }
  .splits th, .splits td { padding-top: 3px; padding-bottom: 3px; }
  .moments.plain { grid-template-columns: repeat(3, 1fr); }
  .card { break-inside: avoid; }
  .beside.with-map { grid-template-columns: minmax(0, 1fr) 17rem; }
  .beside.with-map .map { order: 2; }
  .beside.with-map .bar, .beside.with-map .bar-head { display: none; }
  .pic.tall img, .pic.tall svg { height: 14rem; }
  .short { font-size: 0.86rem; line-height: 1.35; }
  .short h1 { font-size: 1.5rem; }
  .short section { margin-top: 0.7rem; }
  .short .cover { padding-bottom: var(--s2); }
  .short .well, .short .train, .short .cautions { padding: var(--s3) var(--s4); }
  .short .well p, .short .well li, .short .said { font-size: 0.9rem; }
  .short .beside.with-map { grid-template-columns: minmax(0, 1fr) 20rem; }
  .short .map.tall { max-width: 11rem; }
  .short .stats { gap: var(--s2) var(--s4); }
  .short .stats .big { font-size: 1.5rem; }
  .short .cautions ul { max-width: none; columns: 2; column-gap: 2.4rem; }
  .short .print-small { padding-top: var(--s2); font-size: 0.75rem; }
}`;
