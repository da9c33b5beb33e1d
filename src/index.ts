/** The library: everything a program needs to simulate, without files or a terminal. */
export type { Direction, Level, Logic, LogicInput, LogicStep } from './counter/logic.js';
export type { Visit } from './agents/visit.js';
export { editorSchema, listKeys } from './scenario/keys.js';
export { formatIssue } from './scenario/explain.js';
export type { Issue, Place } from './scenario/issue.js';
export { parseScenario } from './scenario/parse.js';
export type { Design, ScenarioInput } from './scenario/schema.js';
export type { Figures } from './score/figures.js';
export type { Estimate, Metrics } from './score/metrics-schema.js';
export type { DoorFacts, FactCaution } from './simulate/fact-types.js';
export { deriveFacts } from './simulate/facts.js';
export type { LadderRow } from './simulate/ladder.js';
export { heightLadder } from './simulate/ladder.js';
export type { EdgeRow, Outcome, Sinks, TallyRow } from './simulate/outcome.js';
export type { PassageChoice, PassageTrace } from './simulate/passage-trace.js';
export { NoSuchPassage, tracePassage } from './simulate/passage-trace.js';
export { simulate } from './simulate/simulate.js';
export { VERSION } from './simulate/version.js';
