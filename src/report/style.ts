import { PRINT } from './style-print.js';

/**
 * How the report looks: a sheet of drawing paper with ruled lines and a title block, letters of the reader's own system.
 *
 * Colours: blue and orange differ in lightness and hue for every common kind of colour blindness, and nothing is told
 * by colour alone: dashes, shapes, hatching and words say it too.
 */
export const STYLE = `
:root{color-scheme:light dark;
--paper:#f8f6f0;--card:#fffdf8;--ink:#1c2a30;--soft:#53636a;--rule:#d9d4c7;--line:#8f958f;
--a:#175f8c;--b:#a84a00;--bad:#9c2146;--good:#1e6b4f;--skin:#8798a0;--skin2:#b9a98c;--pet:#6f5f4a;
--serif:ui-serif,"Iowan Old Style",Charter,Georgia,"Times New Roman",serif;
--sans:system-ui,-apple-system,"Segoe UI",Roboto,"Helvetica Neue",Arial,sans-serif;
--mono:ui-monospace,"SF Mono",Menlo,Consolas,"Liberation Mono",monospace}
@media (prefers-color-scheme:dark){:root{
--paper:#12191c;--card:#182125;--ink:#e6e3da;--soft:#a3b0b4;--rule:#2e3a3f;--line:#6d7b80;
--a:#6db4e0;--b:#f0a060;--bad:#f28aa6;--good:#74c9a4;--skin:#5d7079;--skin2:#8b7d62;--pet:#c2b291}}
*{box-sizing:border-box}
html{-webkit-text-size-adjust:100%;text-size-adjust:100%}
body{margin:0 auto;max-width:80rem;padding:1rem clamp(1rem,4vw,3.5rem) 4rem;background:var(--paper);color:var(--ink);
font:1rem/1.55 var(--sans);overflow-wrap:break-word}
h1,h2,h3,h4{font-family:var(--serif);font-weight:600;line-height:1.2;text-wrap:balance;break-after:avoid;break-inside:avoid}
h1{font-size:clamp(1.6rem,4vw,2rem);margin:0 0 .2em;letter-spacing:-.01em}
h2{font-size:1.6rem;margin:0 0 .6em}
h3{font-size:1.15rem;margin:1.6em 0 .5em}
h4{font-size:1rem;margin:0 0 .4em}
p,ul,dl{margin:0 0 .8em}
p,li,dd{max-width:68ch}
ul{padding-left:1.2em}
small{font-size:.8125rem;color:var(--soft);font-weight:400}
code,pre{font-family:var(--mono);font-size:.875rem}
pre{background:var(--card);border:1px solid var(--rule);padding:.8em 1em;overflow-x:auto;max-height:32rem;tab-size:2}
section{border-top:2px solid var(--ink);padding-top:1rem;margin-top:3rem}
article+article{border-top:1px solid var(--rule);margin-top:2rem}
:focus-visible{outline:3px solid var(--a);outline-offset:2px}
.hidden{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%);white-space:nowrap}
.over{color:var(--soft);margin:0;font-size:.9375rem}
.key{color:var(--soft);font-size:.875rem;margin:.5em 0 1em}
.block{display:flex;flex-wrap:wrap;border:1px solid var(--line);margin:1.2rem 0 0;gap:1px;background:var(--rule);font-size:.875rem}
.block div{flex:1 1 8rem;padding:.3rem .6rem;background:var(--card)}
.block dt{font-size:.75rem;color:var(--soft)}
.block dd{margin:0;overflow-wrap:anywhere}
.hash{overflow-wrap:anywhere}
.first{display:grid;gap:1.25rem 2.5rem;align-items:start}
.first>*{min-width:0}
.first section{border:0;margin:0;padding:0}
.asked{margin:0 0 .7rem;font-size:.9375rem;line-height:1.45;max-width:none;color:var(--soft)}
.verdict p,.unwise li{max-width:none}.verdict p{font-size:.9375rem;line-height:1.45;margin:0}
.first .verdict{border:2px solid var(--ink);border-left-width:.6rem;background:var(--card);padding:.6rem clamp(.8rem,2.5vw,1.3rem)}
.seen h2,.unwise h2{font:600 1rem/1.3 var(--sans);margin:0 0 .4em}
.seen figure{margin:0}.seen figure+figure{margin-top:.8rem}
.first .unwise{margin-top:1rem;padding-left:1rem;border-left:.6rem double var(--line)}
.unwise ul{list-style:none;padding:0;margin:0;font-size:.9375rem;line-height:1.4}
.unwise li+li{margin-top:.2rem}
.unwise a{font-weight:600;color:inherit}
a{color:var(--a)}
nav{margin-top:2rem;padding:.7rem 0;border:solid var(--rule);border-width:1px 0}
nav ol{margin:0;padding:0;list-style:none;display:flex;flex-wrap:wrap;gap:.15rem 1.4rem;font-size:.9375rem}
.defs{position:absolute;width:0;height:0}
@media (min-width:40rem) and (max-width:62rem){.seen{display:grid;grid-template-columns:1fr 1fr;gap:0 1.5rem}.seen h2{grid-column:1/-1}.seen figure+figure{margin:0}}
@media (min-width:62rem){.first{grid-template-columns:minmax(0,1fr) minmax(22rem,28rem)}}
.first .no{border-color:var(--bad)}.first .yes{border-color:var(--good)}.first .undecided{border-color:var(--b)}
.verdict h2{font-size:clamp(1.5rem,4vw,2rem);display:flex;gap:.4em;align-items:baseline;margin-bottom:.3em}
.verdict.no .mark{color:var(--bad)}.verdict.yes .mark{color:var(--good)}.verdict.undecided .mark{color:var(--b)}
.mark{font-family:var(--sans);font-weight:700}
.three{list-style:none;padding:0;margin:.6rem 0 0;display:grid;gap:.6rem 1.2rem;grid-template-columns:repeat(auto-fit,minmax(min(100%,10rem),1fr))}
.three li{border-top:1px solid var(--line);padding-top:.4rem}
.three h3{margin:0;font:600 .875rem/1.3 var(--sans)}
.three p{margin:0;font-size:.8125rem;line-height:1.4;color:var(--soft)}
.three p.big{font:600 2.25rem/1.15 var(--serif);color:var(--ink);font-variant-numeric:lining-nums}
.three .range{color:var(--ink)}
.scroll{position:relative;overflow-x:auto;margin:0 0 .8em}
table{border-collapse:collapse;font-size:.9375rem;font-variant-numeric:tabular-nums lining-nums;min-width:min(100%,30rem)}
caption{text-align:left;font-weight:600;padding:.3em 0}
caption.hidden{position:absolute}
th,td{padding:.4rem .7rem;text-align:left;vertical-align:top;border-bottom:1px solid var(--rule)}
thead th{border-bottom:1.5px solid var(--ink);font-weight:600;font-size:.875rem;vertical-align:bottom}
tbody th{font-weight:400;min-width:6.5rem}
.doorway tbody th{min-width:3.5rem}
.causes tbody th{min-width:11rem}
th:first-child,td:first-child{padding-left:0}
th.group{font-weight:600;padding-top:1em;border-bottom:1px solid var(--line)}
td.num b{font-weight:600}
td small,th small{display:block;white-space:normal}
td.num small{white-space:nowrap}
td.none,td.none small{color:var(--soft);white-space:normal}
.outcome.missed{color:var(--bad);font-weight:600}.outcome.met{color:var(--good);font-weight:600}.outcome.undecided{color:var(--b);font-weight:600}
.confusion td{border:1px solid var(--rule);padding:.45rem .7rem;min-width:6.5rem}
.confusion td.right{outline:2px solid var(--good);outline-offset:-3px;background:color-mix(in srgb,var(--good) calc(var(--shade)*.22),var(--card))}
.confusion td.wrong{background:repeating-linear-gradient(45deg,color-mix(in srgb,var(--bad) 20%,transparent) 0 1px,transparent 1px 7px),color-mix(in srgb,var(--bad) calc(var(--shade)*.25),var(--card))}
.confusion td small{color:var(--ink)}
.confusion td.zero b{font-weight:400;color:var(--soft)}
figure{margin:0 0 1.5rem}
figcaption{font-size:.875rem;color:var(--soft);margin:.4rem 0}
figcaption h3,figcaption h4{color:var(--ink)}
.charts{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,26rem),1fr));gap:1.25rem 2.5rem;align-items:start}
.chart{container-type:inline-size;min-width:0;break-inside:avoid;margin:1rem 0 .5rem}
.chart figcaption{margin:0}.chart h3{font-size:1rem;margin:0 0 .4em}
svg{display:block;width:100%;height:auto;font-family:var(--sans);font-variant-numeric:tabular-nums lining-nums}
svg.still{max-width:500px}.still text:not([font-size]){font-size:12px}.still text:not([fill]){fill:var(--ink)}.still line:not([stroke]){stroke:var(--rule)}
.pictures{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,19rem),1fr));gap:1.25rem 2rem;align-items:start}
.pictures svg{max-width:26rem}.pictures h3{min-height:2.4em}.pictures p{font-size:.9375rem;margin-bottom:.3em}
.side{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,22rem),1fr));gap:1rem 2.5rem;align-items:start}
.side>*{min-width:0}
.drawing text{fill:var(--ink);font-size:13px;paint-order:stroke;stroke:var(--paper);stroke-width:3px;stroke-linejoin:round}
.drawing .note{fill:var(--soft);font-size:12px}
.drawing path{fill:none}
.drawing .tick{stroke:var(--soft);stroke-width:1}
.drawing .hatch{stroke:var(--line);stroke-width:1.2}
.drawing .wood{stroke:var(--ink);stroke-width:1.5}
.drawing path.wood,.drawing rect.wood{fill:revert-layer}
.drawing .ground{stroke:var(--ink);stroke-width:3}
.drawing .plane{stroke:var(--line);stroke-dasharray:2 4}
.drawing .arrow{stroke:var(--line);stroke-width:1.2}
.rim{stroke:var(--card)}
.body-0{stroke:var(--skin)}.body-1{stroke:var(--skin2)}.body-2{stroke:var(--pet)}
.beam{stroke-width:2.5}
.beam-0{stroke:var(--a)}.beam-1{stroke:var(--b);stroke-dasharray:9 7}
.beam-2{stroke:var(--good);stroke-dasharray:2 4}.beam-3{stroke:var(--bad);stroke-dasharray:12 4 2 4}
.beam.axis{stroke-width:1.75}
.drawing .sight{stroke-width:.75;fill-opacity:.14;stroke-opacity:.6}
.drawing .sight-0{fill:var(--a);stroke:var(--a)}.drawing .sight-1{fill:var(--b);stroke:var(--b)}
.drawing .sight-2{fill:var(--good);stroke:var(--good)}.drawing .sight-3{fill:var(--bad);stroke:var(--bad)}
.drawing .emitter{fill:var(--ink);stroke:var(--card);stroke-width:1}
.drawing .wave{stroke:var(--ink);stroke-width:1.2}
.drawing .receiver{stroke:var(--ink);stroke-width:4}
.house .room{fill:var(--card);stroke:var(--ink);stroke-width:2.5}
.house .gap{stroke:var(--card);stroke-width:4.5}
.house .post{stroke:var(--ink);stroke-width:2.5}
.house .leaf{stroke:var(--ink);stroke-width:1.5}.house .arc{stroke:var(--line);stroke-width:1}
.house .tread{stroke:var(--line);stroke-width:1.2}
.house .thin{stroke-width:1.75}
.house .cable{stroke:var(--good);stroke-width:2;stroke-dasharray:5 3}
.house .riser{fill:var(--card);stroke:var(--good);stroke-width:2}
.house .number{fill:var(--card);stroke:var(--ink);stroke-width:1}
.house .controller{fill:var(--card);stroke:var(--good);stroke-width:2}
.drawing .in{font-size:12px;stroke:none}
.picture .plot{fill:var(--card);stroke:var(--rule);stroke-width:1}
.picture .grid{stroke:var(--rule);stroke-width:1}
.drawing path.band{fill-opacity:.75;stroke:var(--ink);stroke-width:.6;stroke-opacity:.5}
.drawing path.trunk{fill:var(--skin)}.drawing path.arm{fill:var(--b)}.drawing path.leg{fill:var(--good)}.drawing path.load{fill:var(--skin2)}
.drawing .other path.band{fill-opacity:.22;stroke-dasharray:2 3}
.picture .seen{stroke-width:6;stroke-opacity:.85}
.read-0{stroke:var(--a)}.read-1{stroke:var(--b)}.read-2{stroke:var(--good)}.read-3{stroke:var(--bad)}
.picture circle{stroke-width:1.2;fill:var(--card)}
.picture .near.read-0{fill:var(--a)}.picture .near.read-1{fill:var(--b)}.picture .near.read-2{fill:var(--good)}.picture .near.read-3{fill:var(--bad)}
.drawing path.bar-0{fill:var(--a)}.drawing path.bar-1{fill:var(--b)}.drawing path.bar-2{fill:var(--good)}.drawing path.bar-3{fill:var(--bad)}
.drawing path.state-0{fill:var(--card)}.drawing path.state-1{fill:var(--rule)}
.picture .state{stroke:var(--line);stroke-width:1}
.drawing .tally{stroke:var(--ink);stroke-width:2}.drawing .tallied{font-weight:600}
.drawing .part{font-size:12px}
.swatch::before{content:"";display:inline-block;width:.8em;height:.8em;margin-right:.3em;border:1px solid var(--ink)}
.swatch.trunk::before{background:var(--skin)}.swatch.arm::before{background:var(--b)}.swatch.leg::before{background:var(--good)}.swatch.load::before{background:var(--skin2)}
.heads{font-size:.875rem;color:var(--soft)}
.words div,.cautions div{display:grid;grid-template-columns:minmax(7rem,13rem) 1fr;gap:0 1.25rem;padding:.45rem 0;border-bottom:1px solid var(--rule)}
.words dt,.cautions dt{font-weight:600}
.words dd,.cautions dd{margin:0}
.cautions{border:2px solid var(--b);background:var(--card);padding:.5rem 1rem}
.cautions div:last-child,.words div:last-child{border:0}
details{margin:.6em 0 1em}
summary{cursor:pointer;padding:.35em 0;font-weight:600}
.settings td,.settings th{font-size:.875rem}
.sources{columns:2 24rem;column-gap:2.5rem;font-size:.875rem;line-height:1.45;margin:.4em 0}
.sources div{margin:0 0 .8em}
.sources dt{font-style:italic;break-after:avoid;overflow-wrap:anywhere}
.sources dd{margin:.1em 0 0 .8em;break-inside:avoid}.sources b{font-weight:600;overflow-wrap:anywhere}
.matrices{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,30rem),1fr));gap:1.5rem 2.5rem}
.matrices article{border:0;margin:0;min-width:0}.matrices h3{margin-top:0}
.diagram svg{width:auto;max-width:none}
footer{margin-top:4rem;border-top:1px solid var(--line);padding-top:.6rem;color:var(--soft);font-size:.875rem}
@media (max-width:40rem){.words div,.cautions div{grid-template-columns:1fr}section{margin-top:2.25rem}
th,td{padding:.4rem .5rem}}
${PRINT}`;
