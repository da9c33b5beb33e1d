/** What a study's report looks like beyond the run's: a table that is a heat map, and a ranking that prints. */
import { STYLE } from '../style.js';

export const STUDY_STYLE = `${STYLE}
.heat td{border:1px solid var(--rule);text-align:right;min-width:4rem}
.heat td.num{background:color-mix(in srgb,var(--bad) calc(var(--shade)*.4),var(--card))}
.heat td.best{outline:2px solid var(--ink);outline-offset:-3px;font-weight:600}
.heat td.none{font-size:.8125rem;background:repeating-linear-gradient(45deg,color-mix(in srgb,var(--line) 35%,transparent) 0 1px,transparent 1px 7px),var(--card)}
.ranking tbody th{min-width:2.5rem}.ranking td.num small{white-space:normal;min-width:5.5rem}.ranking td.levels{min-width:16rem}
.told tbody th,.told td.say{min-width:11rem}.told td.num{white-space:nowrap}
@media print{.scroll:has(.ranking){break-inside:auto}.ranking{font-size:7.5pt}.ranking th,.ranking td{padding:.15rem .25rem}.ranking small{font-size:6.5pt}
.ranking tbody th,.ranking td.num small,.ranking td.levels{min-width:0}.told tbody th,.told td.say{min-width:0}.ranking td:not(.num){overflow-wrap:anywhere}}
`;
