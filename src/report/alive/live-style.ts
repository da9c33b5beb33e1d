/** How the parts look that scripts add. On paper the page is as it was made: their parts are left out. */
export const LIVE_STYLE = `
html{scroll-padding-top:4.5rem}
button,select,input{font:inherit;color:inherit;accent-color:var(--a)}
button,select,input[type=number]{background:var(--card);border:1px solid var(--line);padding:.2rem .55rem;min-height:1.75rem;border-radius:0}
button{cursor:pointer}button:hover:not(:disabled){border-color:var(--ink)}button:disabled{color:var(--soft);cursor:default}
.live .still{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
.live{position:relative}
.plot{position:relative;max-width:580px;touch-action:pan-y;user-select:none}
.plot svg{width:auto;height:auto}
.plot .at{position:absolute;pointer-events:none;border:0 solid var(--ink)}
.plot .along{border-left-width:1px}.plot .across{border-top-width:1px}
.plot .at.both{border-width:2px;width:16px;height:16px;margin:-8px;border-radius:50%}
.plot .brush{position:absolute;pointer-events:none;background:color-mix(in srgb,var(--a) 22%,transparent);border:0 solid var(--a);border-width:0 1px}
.readout{position:absolute;z-index:2;pointer-events:none;max-width:min(100%,19rem);background:var(--card);border:1px solid var(--ink);padding:.35rem .55rem;font-size:.8125rem;line-height:1.35;font-variant-numeric:tabular-nums}
.tools,.legend{display:flex;flex-wrap:wrap;gap:.35rem;margin:.3rem 0;padding:0;list-style:none}
.tools button,.legend button{font-size:.8125rem}
.legend button{display:flex;align-items:center;gap:.45em}
.legend svg{width:26px;height:12px}
.legend [aria-pressed=false]{color:var(--soft);text-decoration:line-through}.legend [aria-pressed=false] svg{opacity:.3}
.behind{font-size:.8125rem;min-width:0}.chart .scroll{max-height:20rem;overflow:auto}
.picks{position:sticky;top:0;z-index:3;display:flex;flex-wrap:wrap;gap:.4rem 1.5rem;align-items:center;margin:2rem 0 -1rem;padding:.5rem 0;background:var(--paper);border-bottom:1px solid var(--line)}
.picks label,.picks .hours{display:flex;gap:.5em;align-items:center;font-size:.875rem}
.picks select{max-width:14rem}.picks input{width:5rem}
.not-door,.not-room{display:none!important}
.ask{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,17rem),1fr));gap:.9rem 2rem;align-items:end;border:1px dashed var(--ink);padding:1rem;margin:1rem 0}
.ask label,.ask .field{display:grid;grid-template-columns:1fr auto;gap:.3rem .6rem;align-items:center;font-size:.9375rem}
.ask label span,.ask .field span{grid-column:1/-1;font-weight:600}
.ask label select{grid-column:1/-1;width:100%}
.ask input[type=range]{width:100%;min-height:1.75rem}.ask input[type=number]{width:5.5rem}
.ask [hidden]{display:none}
.found{border-left:.75rem solid var(--line);padding-left:1rem;min-height:3rem}
.found[aria-busy]{border-left-style:dotted}
.found .said{font-size:1.125rem}.refused{color:var(--bad);font-weight:600}
@media (max-width:40rem){.picks{position:static}html{scroll-padding-top:0}}
@media print{.off-paper,.picks,.plot,.tools,.legend,.asking,.live .scroll{display:none!important}
.live .still{position:static;width:100%;height:auto;clip-path:none}
.not-door,.not-room{display:revert!important}}
`;
