/**
 * Studies over a job queue, with a real Redis server, real joining processes, and real kill -9. Skipped where there is no
 * redis-server.
 */
import { spawn } from 'node:child_process';
import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { Queue, Worker } from 'bullmq';
import { Redis } from 'ioredis';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { LAUNCHER, type Said, jambeam } from '../jambeam.js';
import { cellsIn, folderWithStudy, resultsOf } from './folder.js';
import { RedisServer, hasRedis } from './redis.js';

const PASSWORD = 'never-to-be-seen';
/** Cells of some 80 ms. */
const TEXT = { hours: 4, replicates: '8' };
const CELLS = 24;

let server: RedisServer;
let cwd: string;
const said: string[] = [];

beforeAll(async () => {
  if (!hasRedis) return;
  server = await RedisServer.start(PASSWORD);
  cwd = folderWithStudy(TEXT);
  expect((await jambeam(['study', 'study.yaml', '--out', 'whole', '--quiet'], { cwd })).code).toBe(0);
});
afterAll(async () => {
  for (const kill of running) kill();
  if (hasRedis) await server.stop();
});

const running = new Set<() => void>();

/** A process of jambeam that knows the server by its environment. */
function begin(args: readonly string[]) {
  const child = spawn(process.execPath, [LAUNCHER, ...args], {
    cwd,
    env: { PATH: process.env['PATH'] ?? '', JAMBEAM_REDIS: server.url },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const heard = { out: '', err: '' };
  child.stdout.on('data', (text: Buffer) => (heard.out += text.toString()));
  child.stderr.on('data', (text: Buffer) => (heard.err += text.toString()));
  const kill = (): void => void child.kill('SIGKILL');
  running.add(kill);
  const ended = new Promise<Said>((done) =>
    child.on('close', (code) => {
      running.delete(kill);
      said.push(heard.out, heard.err);
      done({ code, ...heard });
    }),
  );
  return { child, ended, heard };
}
const study = (out: string, ...more: string[]) => begin(['study', 'study.yaml', '--out', out, ...more, '--redis']);
const joining = (...more: string[]) => begin(['join', '--workers', '1', ...more, '--redis']);

async function until(what: () => boolean): Promise<void> {
  for (let i = 0; i < 6000 && !what(); i++) await wait(20);
  expect(what()).toBe(true);
}

describe.skipIf(!hasRedis)('a study over a job queue', () => {
  test('one machine killed among its cells, Redis gone for a while and all forgotten, another machine leaves: the bytes of one machine', async () => {
    const coordinator = study('far');
    const first = joining();
    const second = joining();
    await until(() => cellsIn(join(cwd, 'far')) >= 3);
    second.child.kill('SIGKILL');
    await until(() => cellsIn(join(cwd, 'far')) >= 5);
    await server.stop();
    await until(() => coordinator.heard.err.includes('is gone; waiting for it'));
    const before = cellsIn(join(cwd, 'far'));
    await wait(1000);
    await server.start();
    await until(() => cellsIn(join(cwd, 'far')) > before);
    first.child.kill('SIGINT');
    expect(await first.ended).toMatchObject({
      code: 130,
      err: expect.stringMatching(/left the study; what was under way here is done by others\n$/) as string,
    });
    const third = joining();
    expect(await coordinator.ended).toMatchObject({
      code: 0,
      err: expect.stringMatching(/is gone; waiting for it\n(.*\n)*.*is back\n/) as string,
    });
    expect((await third.ended).code).toBe(0);
    expect(resultsOf(join(cwd, 'far'))).toEqual(resultsOf(join(cwd, 'whole')));
    const lines = readFileSync(join(cwd, 'far', 'journal.jsonl'), 'utf8')
      .trim()
      .split('\n');
    expect(lines).toHaveLength(CELLS);
  });

  test('jobs that are none, results that can not be, and whoever hands out the cells killed: the bytes of one machine', async () => {
    const coordinator = study('lied');
    await until(() => coordinator.heard.err.includes('the study is at'));
    const redis = new Redis(server.url, { maxRetriesPerRequest: null });
    const [digest] = await redis.smembers('jambeam:open');
    const queue = new Queue(`jambeam-${digest}`, { connection: redis });
    const strange = [{ design: 1, key: 'x'.repeat(24), replicate: 1, lesson: null }, { run: 'rm' }, 'text'];
    for (const [i, data] of strange.entries()) await queue.add('cell', data, { jobId: `strange-${i}` });
    let lies = 0;
    const liar = new Worker(
      queue.name,
      async ({ data }: { data: { replicate?: number } }) => {
        const lie = [null, { cell: { v: [1, 2, 3], who: {} } }, { cell: 'x' }, 5][lies++ % 4];
        if (lies >= 4) void liar.close();
        return data.replicate === undefined ? 0 : lie;
      },
      { connection: redis },
    );
    await until(() => lies >= 4);
    await liar.close();
    const honest = joining();
    await until(() => cellsIn(join(cwd, 'lied')) >= 4);
    coordinator.child.kill('SIGKILL');
    const { err } = await coordinator.ended;
    expect(err).toMatch(/a result of design \d was refused \(.*\); it is done again\n/);
    const resumed = study('lied', '--resume');
    expect((await resumed.ended).code).toBe(0);
    expect((await honest.ended).code).toBe(0);
    await queue.close();
    redis.disconnect();
    expect(resultsOf(join(cwd, 'lied'))).toEqual(resultsOf(join(cwd, 'whole')));
  });

  test('another version is refused, and so is what is no study', async () => {
    const redis = new Redis(server.url);
    for (const [text, words] of [
      [JSON.stringify({ format: 1, jambeam: '0.0.7', study: {} }), /the study is of jambeam 0\.0\.7; this is \d/],
      [
        JSON.stringify({ format: 1, jambeam: JSON.parse(readFileSync('package.json', 'utf8')).version, study: {} }),
        /what is on the queue is no study of jambeam/,
      ],
    ] as const) {
      await redis.sadd('jambeam:open', 'strange');
      await redis.set('jambeam:request:strange', text);
      const { code, err } = await joining().ended;
      expect(code).toBe(2);
      expect(err).toMatch(words);
    }
    await redis.del('jambeam:open', 'jambeam:request:strange');
    redis.disconnect();
  });

  test("code is loaded from the joining machine's own disk, by its hash", async () => {
    const logic = (last: string): string => `import { defineLogic } from 'jambeam';
export default defineLogic({ beams: 2, latency_us: 1000, initial: () => 0, step: (state) => ({ state, tallies: [] }) });
${last}`;
    writeFileSync(join(cwd, 'mine.ts'), logic(''));
    const coordinator = study('code', '--logic', 'mine.ts');
    await until(() => coordinator.heard.err.includes('the study is at'));
    const without = await joining().ended;
    expect(without).toMatchObject({
      code: 2,
      err: expect.stringMatching(/is code of your own|and this machine has none of it/) as string,
    });
    writeFileSync(join(cwd, 'mine.ts'), logic('// changed\n'));
    const other = await joining('--logic', 'mine.ts').ended;
    expect(other).toMatchObject({
      code: 2,
      err: expect.stringMatching(/with the SHA-256 [0-9a-f]{64}, and this machine has none of it/) as string,
    });
    writeFileSync(join(cwd, 'mine.ts'), logic(''));
    expect((await joining('--logic', 'mine.ts').ended).code).toBe(0);
    expect((await coordinator.ended).code).toBe(0);
  });

  test('a server that is not there, and a URL that is none, in words', async () => {
    const at = (url: string) => jambeam(['join', '--redis', url], { cwd });
    expect(await at(`redis://:${PASSWORD}@127.0.0.1:1`)).toMatchObject({
      code: 2,
      err: expect.stringMatching(/^error: redis:\/\/127\.0\.0\.1:1 can't be reached: /) as string,
    });
    expect((await at(`http://:${PASSWORD}@127.0.0.1`)).err).toContain(
      '--redis: expected redis://HOST:PORT or rediss://HOST:PORT',
    );
    const wrong = await at(`redis://:${PASSWORD}-not@127.0.0.1:${server.port}`);
    expect(wrong.code).toBe(2);
    said.push(
      (await at(`redis://:${PASSWORD}@127.0.0.1:1`)).err,
      (await at(`http://:${PASSWORD}@127.0.0.1`)).err,
      wrong.err,
    );
  });

  test('the password of the URL is nowhere: in no word that was said, and in no file that was written', () => {
    expect(said.length).toBeGreaterThan(8);
    for (const text of said) expect(text).not.toContain(PASSWORD);
    for (const folder of readdirSync(cwd, { withFileTypes: true }).filter((entry) => entry.isDirectory()))
      for (const file of readdirSync(join(cwd, folder.name)))
        expect(readFileSync(join(cwd, folder.name, file)).includes(PASSWORD)).toBe(false);
  });
});
