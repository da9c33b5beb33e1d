/**
 * How the report looks on paper, A4 or Letter: dense, two or three columns, nothing torn that belongs together. Long tables
 * that are folded on the screen stay folded and say so.
 */
export const PRINT = `@page{margin:12mm 13mm}
@media print{
:root{color-scheme:light;--paper:#fff;--card:#fff;--ink:#111;--soft:#444;--rule:#ccc;--line:#888;--a:#175f8c;--b:#a84a00;--bad:#9c2146;--good:#1e6b4f;--skin:#8798a0;--skin2:#b9a98c;--pet:#6f5f4a}
*{-webkit-print-color-adjust:exact;print-color-adjust:exact}
html{font-size:8.6pt}
body{max-width:none;padding:0;line-height:1.34}
h1{font-size:18pt}h2{font-size:12.5pt;margin-bottom:.3em}h3{font-size:10pt;margin:.7em 0 .25em}
p,ul,dl{margin-bottom:.5em}p,li,dd{max-width:none;orphans:3;widows:3}
a{color:inherit;text-decoration:none}
section{margin-top:4mm;padding-top:1.5mm;border-top-width:1.2pt}
article+article{margin-top:3mm}
.first{grid-template-columns:minmax(0,1fr) 66mm;gap:0 6mm}.seen{display:block}.seen figure+figure{margin-top:3mm}
.first section{margin-top:0}.first .unwise{margin-top:3mm}
.verdict p,.unwise ul,.asked{font-size:8.6pt}.verdict h2{font-size:15pt}
.three{grid-template-columns:repeat(3,1fr)}.three p.big{font-size:17pt}
nav{margin-top:4mm;padding:1.5mm 0}nav ol{font-size:8pt}
.scroll{overflow:visible;margin-bottom:2mm}
table{font-size:7.6pt;min-width:0;line-height:1.22}small,.key{font-size:6.8pt}.key{line-height:1.25}figcaption,.heads{font-size:7.2pt}
th,td{padding:.12rem .4rem}thead th{font-size:inherit}tbody th,.causes tbody th,.confusion td{min-width:0}
.confusion td{padding:.12rem .4rem}.confusion td small,td.num small{display:inline}
thead{display:table-header-group}
tr,figure,.three,.cautions div,.words div,.verdict,.unwise,.block{break-inside:avoid}
.scroll{break-inside:avoid}.scroll:has(.settings,tr:nth-child(14),tbody:nth-of-type(5)){break-inside:auto}
h2,h3,h4,summary,caption,tbody th.group,section>h2+p{break-after:avoid}
.key{margin:.2em 0 .6em}.key,p{break-inside:avoid}
figure{margin-bottom:3mm}
.charts{grid-template-columns:repeat(3,1fr);gap:2mm 4mm}.chart{margin:1mm 0}.chart h3,.chart h4{font-size:8.5pt}
.pictures{grid-template-columns:repeat(3,1fr);gap:2mm 4mm}.pictures .chart{margin:0}.pictures svg{max-height:54mm}#pictures~p{font-size:8pt}.pictures h3{min-height:0}.why .chart{margin:0}#why-chart svg{max-height:56mm}.pictures h3{font-size:8.5pt}.pictures .chart:nth-child(n+7){display:none}.pictures:has(>:nth-child(7))::after{content:"Six are printed; the others are left to the screen.";grid-column:1/-1;font:italic 7.5pt var(--sans)}
.charts p,.pictures p{font-size:7.5pt;margin-bottom:.3em}
#whom~.charts svg{max-height:104mm}#whom~.charts [id^=stature] svg{max-height:66mm}section:has(>#whom)>p{break-after:avoid}
.charts:has(>:nth-child(4):last-child)>:nth-child(4){display:none}.charts:has(>:nth-child(4):last-child)::after{content:"One more is left to the screen.";grid-column:1/-1;font:italic 7.2pt var(--sans)}
.doorway .side{grid-template-columns:64mm minmax(0,1fr)}.doorway svg{max-height:66mm}.doorway .side>div svg{max-height:36mm}
.words:not(.answer){break-inside:avoid}.words:not(.answer){columns:3;column-gap:4mm}.words:not(.answer) div{grid-template-columns:16mm 1fr;padding:.3mm 0;font-size:7.2pt;line-height:1.22}
.rooms{font-size:7.2pt}.rooms td.num small{font-size:6.3pt}
.matrices td.num small{font-size:6.5pt}
.side{grid-template-columns:1fr 1fr;gap:2mm 6mm}
.matrices{grid-template-columns:1fr 1fr;gap:2mm 6mm}.matrices.alone{grid-template-columns:1fr}
.words{columns:2;column-gap:6mm}.words div{grid-template-columns:20mm 1fr;gap:0 2mm;padding:.6mm 0;font-size:8pt}
.words.answer{columns:1}.words.answer div{padding:.8mm 0}
.why{grid-template-columns:64mm minmax(0,1fr)}
.cautions{padding:.5mm 3mm}.cautions div{grid-template-columns:32mm 1fr;padding:.8mm 0;font-size:8pt}
#limits~ul{columns:2;column-gap:6mm;font-size:8pt}#limits~ul li{break-inside:avoid}
.sources{columns:3;column-gap:4mm;font-size:5.8pt;line-height:1.25;overflow-wrap:anywhere}.sources div{margin-bottom:.8mm}.sources dt,.sources dd{display:inline;margin:0}.sources dd::before{content:"· "}.sources small{font-size:inherit}
.settings td,.settings th{font-size:7.5pt}
pre{white-space:pre-wrap;max-height:none;overflow:visible;font-size:5.4pt;line-height:1.18;padding:1.5mm}details>pre{columns:4;column-gap:3mm}
.diagram{max-width:90mm}.diagram svg{max-width:100%}
details{margin:.3em 0}details:not(.long)::details-content{content-visibility:visible;block-size:auto;display:block}
details.long>summary{list-style:none;font-weight:400;font-style:italic;font-size:7.5pt}details.long>summary::after{content:" (left to the screen)"}
footer{margin-top:4mm;font-size:7.5pt}
}
`;
