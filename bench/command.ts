/** A command of ours as a process of its own. */
import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { check } from './check.js';

/** A command by the clock and by the processor, seconds, and its largest memory, MB. */
export function command(
  root: string,
  cwd: string,
  ...args: readonly string[]
): { seconds: number; cpu_s: number; peak_mb: number } {
  const before = performance.now();
  // The launcher's own process tells what it used.
  const tell = `process.on('exit', () => { const u = process.resourceUsage(); require('node:fs').writeSync(2, '\\n@' + JSON.stringify([(u.userCPUTime + u.systemCPUTime) / 1e6, u.maxRSS / 1024])); })`;
  writeFileSync(join(cwd, 'tell.cjs'), tell);
  const { status, stderr } = spawnSync(
    process.execPath,
    ['--require', join(cwd, 'tell.cjs'), join(root, 'bin/jambeam.js'), ...args],
    {
      cwd,
      encoding: 'utf8',
    },
  );
  check(status === 0, `exit code ${status}: ${stderr}`);
  // Threads tell, too; the process is the last to end.
  const [cpu_s, peak_mb] = JSON.parse(stderr.slice(stderr.lastIndexOf('\n@') + 2)) as [number, number];
  return { seconds: (performance.now() - before) / 1000, cpu_s, peak_mb };
}
