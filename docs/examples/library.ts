import { readFileSync, writeFileSync } from 'node:fs';
import { type Design, defineLogic, formatIssue, parseScenario, simulate, withOwnLogics } from 'jambeam';
import { reportOf } from 'jambeam/report';

// Text in, a design out. What is wrong comes as data, all at once, each with its place.
const text = readFileSync('scenarios/starter.yaml', 'utf8');
function designWith(...sets: string[]): Design {
  const { design, issues } = parseScenario(text, 'starter.yaml', {
    sets: ['replicates=4', 'hours=2', ...sets],
    readFile: (file) => readFileSync(`scenarios/${file}`, 'utf8'), // tables and profiles that it names
  });
  if (design === null) throw new Error(issues.map(formatIssue).join('\n'));
  return design;
}

// A few designs, one after the other. The seed stays, so each meets the very same people.
for (const height_m of [0.3, 0.65, 1]) {
  const { value, low, high } = simulate(designWith(`doors.*.pair.height_m=${height_m}`)).metrics.house.wrong_per_100;
  console.log(`${height_m} m: ${value?.toFixed(1)} wrong per 100 crossings (${low?.toFixed(1)} to ${high?.toFixed(1)})`);
}

// A logic of one's own: whoever clears a beam last, decides. It is judged beside those of the scenario.
const lastCleared = defineLogic<readonly number[]>({
  beams: 2,
  defeated_by: 'Whoever turns back after both beams is counted as through.',
  initial: () => [0, 0],
  step([a, b], { levels: [nowA, nowB] }) {
    const free = nowA === 0 && nowB === 0;
    const direction = a === 1 ? 'backward' : 'forward';
    return { state: [nowA!, nowB!], tallies: free && a !== b ? [direction] : [] };
  },
});
const { design, outside } = withOwnLogics(designWith(), { 'last-cleared': lastCleared });
const outcome = simulate(design, {}, outside);
for (const { logic, wrong_per_100 } of outcome.metrics.doors) console.log(`${logic}: ${wrong_per_100.value?.toFixed(1)}`);

// And the page that `jambeam run --static` would write.
writeFileSync('report.html', await reportOf(design, outcome));
