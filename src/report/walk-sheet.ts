/** The sheet of a walk test to print and to fill in by hand: A4, black on white, one row a walk. */
import type { Design, DesignDoor } from '../scenario/schema.js';
import type { WalkRow } from '../score/walk-test/rows.js';
import { cautionsFor } from './cautions.js';
import { type Markup, html } from './html.js';
import { page } from './page.js';
import { addsWords, walkWords, walkerWords } from './walk-words.js';
import { type WhoWords, whoIn } from './who-words.js';
import { named, plain, plural } from './words.js';

const STYLE = `
@page{size:A4;margin:14mm 12mm}
*{box-sizing:border-box}
html{background:#fff;color:#000}
body{margin:0 auto;max-width:186mm;padding:1rem;font:10.5pt/1.4 system-ui,-apple-system,"Segoe UI",Roboto,Arial,sans-serif;overflow-wrap:break-word}
h1{font-size:18pt;line-height:1.2;margin:0 0 .3em}h2{font-size:12pt;margin:1.2em 0 .3em;break-after:avoid}
p,ol,dl{margin:0 0 .6em}ol{padding-left:1.4em}li{margin:.15em 0}
.head{display:flex;gap:6mm;margin:.6em 0}.head span{flex:1;border-bottom:1px solid #000;padding-bottom:1.5mm}
.ask{border:2px solid #000;padding:2mm 3mm}
dl div{break-inside:avoid;margin:.25em 0}dt{font-weight:600;display:inline}dt::after{content:". "}dd{display:inline;margin:0}
.scroll{overflow-x:auto}
table{border-collapse:collapse;width:100%;font-size:9pt;line-height:1.25}
thead{display:table-header-group}tr{break-inside:avoid}
th,td{border:1px solid #000;padding:1mm 1.5mm;text-align:left;vertical-align:top}
th{font-weight:600}th small{display:block;font-weight:400}
td.box{font-size:13pt;line-height:1;text-align:center}td.hand{min-width:15mm;height:9mm}td.number{text-align:right}
.who{font-weight:600}
@media print{body{padding:0}.scroll{overflow:visible}}
`;

export interface WalkSheetInput {
  readonly design: Design;
  readonly door: DesignDoor;
  readonly logic: string;
  readonly rows: readonly WalkRow[];
  /** How long after a walk its tallies may come, whole seconds. */
  readonly wait_s: number;
}

/** One page of HTML; everything a user can name is escaped. */
export function walkSheet({ design, door, logic, rows, wait_s }: WalkSheetInput): string {
  const who = whoIn(design);
  const title = `Walk test of door ${named(door.name)}`;
  return page(
    title,
    html`<main>
<h1>${title}</h1>
<p>${plain(design.name)}. Logic ${named(logic)}. ${plural(rows.length, 'walk')}. Forward is from ${named(door.from)} to ${named(door.to)}.</p>
<p class="head"><span>Date</span><span>Who walked</span></p>
<p class="ask"><b>Tell everybody at home before you begin,</b> and ask them: the counter and this sheet say who went through when. Keep others out of the doorway while you walk.</p>
<h2>How to</h2>
<ol>
<li>Leave the door open. Walk as you always do, and in the order of the sheet: it is drawn, so that being tired falls on all kinds alike.</li>
<li>Read the counter, forward and backward, and write both down. Note the clock time, walk, wait ${plural(wait_s, 'second')}, read it again.</li>
<li>Tick the box. If a walk went otherwise than it says here, leave its box empty and walk it again.</li>
<li>Walks that are not on the sheet do no harm between two that are, if they are over before you read the counter.</li>
<li>Let different people walk: ten walks of one person say how the door counts that person.</li>
<li>“The middle” is half-way between the two rooms, where the beams are. Distances are from there to the middle of your body, along your way. A strip of tape on the floor helps.</li>
<li>Then type what was counted into the CSV sheet. With a log of the controller the clock times are enough.</li>
</ol>
<h2>Mind</h2>
<dl>${cautionsFor(design).map(({ title: dt, text }) => html`<div><dt>${dt}</dt><dd>${text.replace('this report', 'this sheet')}</dd></div>`)}</dl>
<h2>Walks</h2>
<div class="scroll" role="region" tabindex="0" aria-label="Walks">
<table>
<thead><tr><th>No.</th><th>Done</th><th>Clock</th><th>Walk</th><th>Begin in</th><th>A right counter adds</th><th>Before<small>forw. / backw.</small></th><th>After<small>forw. / backw.</small></th></tr></thead>
<tbody>
${rows.map((row) => rowOf(row, door, who))}
</tbody>
</table>
</div>
</main>`,
    { style: STYLE, colours: 'only light' },
  );
}

function rowOf(row: WalkRow, door: DesignDoor, who: WhoWords): Markup {
  const from = row.direction === 'forward' ? door.from : door.to;
  return html`<tr><td class="number">${row.number}</td><td class="box">☐</td><td class="hand"></td><td><span class="who">${walkerWords(who, row)}</span>: ${walkWords(row)}</td><td>${named(from)}</td><td>${addsWords(row)}</td><td class="hand"></td><td class="hand"></td></tr>
`;
}
