/** A Redis server of the test's own, which can be stopped and started again. */
import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { mkdtempSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { needs } from '../../needs.js';

export const hasRedis = needs(spawnSync('redis-server', ['--version']).status === 0 ? [] : ['redis-server']);

export class RedisServer {
  private child: ChildProcess | null = null;

  private constructor(
    readonly port: number,
    private readonly password: string,
    private readonly more: readonly string[],
  ) {}

  static async start(password: string, more: readonly string[] = []): Promise<RedisServer> {
    const port = await freePort();
    const server = new RedisServer(port, password, more);
    await server.start();
    return server;
  }

  get url(): string {
    return `redis://:${this.password}@127.0.0.1:${this.port}`;
  }

  async start(): Promise<void> {
    const folder = mkdtempSync(join(tmpdir(), 'jambeam-redis-'));
    // Nothing is kept over a restart.
    const options = ['--port', String(this.port), '--save', '', '--appendonly', 'no', '--requirepass', this.password];
    this.child = spawn('redis-server', [...options, '--dir', folder, ...this.more], {
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    await new Promise<void>((ready, refuse) => {
      this.child!.stdout!.on('data', (text: Buffer) => text.includes('Ready to accept connections') && ready());
      this.child!.on('exit', () => refuse(new Error('redis-server ended')));
    });
  }

  async stop(): Promise<void> {
    const { child } = this;
    this.child = null;
    if (!child) return;
    const ended = new Promise((done) => child.on('exit', done));
    child.kill('SIGKILL');
    await ended;
  }
}

async function freePort(): Promise<number> {
  return new Promise((found) => {
    const server = createServer().listen(0, '127.0.0.1', () => {
      const { port } = server.address() as { port: number };
      server.close(() => found(port));
    });
  });
}
