/** What a comparison looks like beyond the run's report: names of runs as columns, and lists of what not to conclude. */
import { STYLE } from '../style.js';

export const COMPARE_STYLE = `${STYLE}
.runs{list-style:none;margin:0 0 1rem;padding:0;display:grid;gap:.4rem 1.5rem;grid-template-columns:repeat(auto-fit,minmax(min(100%,16rem),1fr))}
.runs li{border-left:3px solid var(--line);padding-left:.7rem;overflow-wrap:anywhere}
table.compare thead th{min-width:6.5rem;max-width:14rem;overflow-wrap:anywhere}
table.compare tbody th{min-width:9rem;max-width:22rem;overflow-wrap:anywhere}
table.compare td{max-width:22rem;overflow-wrap:anywhere}
table.compare td.num small{white-space:normal;min-width:6rem}
table.big td b{font:600 1.5rem/1.2 var(--serif)}
table.compare.big thead th,table.compare.big tbody th,table.compare.big td.num small{min-width:0}.seen table.big th,.seen table.big td{padding:.35rem .5rem .35rem 0}.seen table.big td b{font-size:1.3rem}.seen table.big{min-width:0}
td.better b{color:var(--good)}td.worse b{color:var(--bad)}
td code{overflow-wrap:anywhere}
@media print{.scroll:has(.compare){break-inside:auto}table.compare{font-size:7.5pt}table.compare small{font-size:6.5pt}
table.compare th,table.compare td{padding:.15rem .25rem}table.compare thead th,table.compare tbody th,table.compare td.num small{min-width:0}table.big td b{font-size:11pt}}
`;
